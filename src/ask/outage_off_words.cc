// Who is told to switch something off is told which handle it hangs on, or where to lay hands on it.

#include <algorithm>

#include "ask/outage_parts.h"
#include "ask/printable.h"
#include "ask/sentence.h"
#include "ask/watts.h"

namespace ohmstead::outage_words {

using namespace sentence;

namespace {

/// Empty: it hangs on nothing that is known.
HandleRef handle_of(const OutageView& view, const Consumer& one) {
  return one.unit < 0 ? HandleRef{} : view.gear.graph.handles[view.gear.units[static_cast<std::size_t>(one.unit)].handle].ref;
}

/// "handles 5 and 6 on T", without "(tied together)": it stands in parentheses itself.
std::string short_handle_text(const OutageView& view, const Names& names, const HandleRef& handle) {
  std::string text = outage_handle_text(view.house, names, handle);
  if (const std::size_t tied = text.find(" (tied together)"); tied != std::string::npos) text.resize(tied);
  return text;
}

bool same_thing(const Consumer& a, const Consumer& b) { return a.load == b.load && a.guest == b.guest; }

bool goes_off_by_its_handle(const OutageView& view, const Consumer& one) {
  if (one.load < 0 || one.unit < 0 || !view.gear.loads[static_cast<std::size_t>(one.load)].by_handle) return false;
  return std::ranges::none_of(consumers_now(view.gear, view.now), [&](const Consumer& other) { return other.unit == one.unit && !same_thing(other, one); });
}

}  // namespace

std::string consumer_on_handle(const OutageView& view, const Names& names, const Consumer& one) {
  const HandleRef handle = handle_of(view, one);
  std::string text = consumer_name(view, one);
  if (!handle || !text.ends_with(')')) return text;
  text.pop_back();
  return text + "; " + short_handle_text(view, names, handle) + ")";
}

std::vector<std::string> left_out_texts(const OutageView& view, const OutageStatus& status) {
  std::vector<std::string> texts;
  if (status.left_out.empty()) return texts;
  const Names names(view.house);
  for (const OffLoad& off : status.left_out)
    texts.push_back(consumer_on_handle(view, names, {.load = static_cast<int>(off.load), .unit = view.gear.loads[off.load].unit, .draw = {}}) + ", off for " + minutes_text(off.minutes));
  return texts;
}

std::string switch_off_text(const OutageView& view, const Names& names, const Consumer& one) {
  if (!goes_off_by_its_handle(view, one)) return "Switch off or unplug " + consumer_on_handle(view, names, one);
  const HandleRef handle = handle_of(view, one);
  return (handle.kind == HandleKind::position ? "Move " : "Turn ") + outage_handle_text(view.house, names, handle) + (handle.kind == HandleKind::position ? " to OFF: " : " OFF: ") +
         consumer_name(view, one);
}

}  // namespace ohmstead::outage_words
