#include "trace/session_actions.h"

#include <algorithm>
#include <set>

#include "trace/behind.h"
#include "trace/board.h"

namespace ohmstead {

namespace {

std::vector<HandleRef> opened_on_purpose(const House& house, Id<Round> round) {
  std::vector<HandleRef> handles;
  for (const Opened& opened : house.opened)
    if (opened.round == round && !is_told_to_stay_off(house, opened.handle)) handles.push_back(opened.handle);
  return handles;
}

bool shares_one(const std::vector<HandleRef>& some, const std::vector<HandleRef>& other) {
  return std::ranges::any_of(some, [&](const HandleRef& handle) { return std::ranges::find(other, handle) != other.end(); });
}

}  // namespace

bool is_told_to_stay_off(const House& house, const HandleRef& handle) {
  return std::ranges::find(house.settings, kStaysOffPrefix + handle_key(handle), &Setting::name) != house.settings.end();
}

std::vector<HandleRef> told_to_stay_off(const House& house) {
  std::vector<HandleRef> handles;
  for (const Breaker& breaker : house.breakers)
    if (const HandleRef handle{HandleKind::breaker, breaker.id.value}; is_told_to_stay_off(house, handle)) handles.push_back(handle);
  for (const Setting& setting : house.settings)  // others are kept by their text form
    if (setting.name.starts_with(kStaysOffPrefix))
      if (const auto other = parse_handle_ref(setting.name.substr(std::string_view(kStaysOffPrefix).size())); other && *other) handles.push_back(*other);
  return handles;
}

std::vector<Action> actions_in(const House& house) {
  std::vector<Action> actions;
  std::set<Id<Round>> with_handles;
  Id<Round> before;
  std::vector<HandleRef> handles_before;  ///< of the round before, if it is finished
  for (const Opened& opened : house.opened) with_handles.insert(opened.round);
  for (const Round& round : house.rounds) {
    if (round.kind != RoundKind::trace) continue;
    const bool opened = with_handles.contains(round.id);
    const auto handles = opened ? opened_on_purpose(house, round.id) : std::vector<HandleRef>{};
    const bool goes_on = shares_one(handles, handles_before);
    if (goes_on) actions.pop_back();  // it was not closed, but went on with other handles
    if (opened) actions.push_back({ActionKind::open, round.id, {}, {}, goes_on ? before : Id<Round>{}});
    if (opened) before = round.id, handles_before = round.finished ? handles : std::vector<HandleRef>{};
    for (const Observation& seen : house.observations)
      if (seen.round == round.id && !seen.withdrawn) actions.push_back({ActionKind::look, round.id, seen.id, {}});
    if (opened && round.finished) actions.push_back({ActionKind::close, round.id, {}, {}});
  }
  return actions;
}

bool holds_what_stays_off(const House& house, Id<Round> round) {
  return std::ranges::all_of(told_to_stay_off(house), [&](const HandleRef& handle) {
    return std::ranges::any_of(house.opened, [&](const Opened& opened) { return opened.round == round && opened.handle == handle; });
  });
}

}  // namespace ohmstead
