// What to try when nothing came on, and the line of the history.

#include <algorithm>

#include "ask/outage_parts.h"
#include "ask/sentence.h"

namespace ohmstead {

using namespace sentence;
using namespace outage_words;

namespace outage_words {

std::string throw_text(const HandleRef& handle, int to) {
  if (handle.kind == HandleKind::position) return to == kBackupSide ? "BACKUP" : to == kUtilitySide ? "UTILITY" : "OFF";
  return to == kOn ? "ON" : "OFF";
}

}  // namespace outage_words

Lines words_of_trouble(const OutageView& view, const Names& names, const OutageStep& step) {
  Lines lines;
  if (step.kind == OutageStepKind::switch_on) {
    say(lines, LineKind::answer, "It counts as without power. Try its own switch, its plug, and the reset button of a GFCI receptacle on the way.");
    return lines;
  }
  if (step.reason == OutageReason::way_home) {
    say(lines, LineKind::answer, "The power from the street is not good yet" + std::string(view.now.running ? ": stay on " + source_name(view) + "." : "."));
    say(lines, LineKind::detail, "Look whether the breaker of this circuit in the panel has tripped. When the street's power is good, say again that it is back.");
    return lines;
  }
  std::vector<std::string> items{"Move " + (step.handles.empty() ? "the handle" : outage_handle_text(view.house, names, step.handles.front())) + " fully to OFF, then firmly back.", "Look whether the small breaker beside the handle has tripped; push it in or turn it off and on.",
                                 "Press the reset button of a GFCI receptacle on the way.", "Try a lamp in another receptacle of the same room."};
  if (!view.now.running) items.insert(items.begin(), "Is " + source_name(view) + " still running?");
  say(lines, LineKind::answer, "It did not come on. Try this, in this order:", items);
  say(lines, LineKind::detail, "If a breaker trips at once, leave it off: something on it is broken or draws too much. Press x and say that it gave up if everything went dark.");
  return lines;
}

std::string outage_history_text(const House& house, const Names& names, const OutageStep& step) {
  std::string text = "Outage: " + std::string(text_of(step.kind));
  std::ranges::replace(text, '_', ' ');
  if (!step.handles.empty() && step.kind == OutageStepKind::move)
    text = "Outage: " + outage_handle_text(house, names, step.handles.front()) + " to " + throw_text(step.handles.front(), step.to) +
           (step.handles.size() > 1 ? " and " + std::to_string(step.handles.size() - 1) + " more" : "");
  if (!step.loads.empty() && step.kind != OutageStepKind::move) text += ": " + joined(load_names(house, step.loads));
  return text;
}

}  // namespace ohmstead
