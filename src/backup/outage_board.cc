#include "backup/outage_board.h"

#include <algorithm>

#include "backup/outage_lawful.h"
#include "backup/overload.h"
#include "backup/plan_problem.h"
#include "house/index.h"
#include "house/invariants.h"

namespace ohmstead {

namespace {

using namespace outage_log;

[[noreturn]] void refuse(const std::string& message) { throw Error(ErrorKind::invalid_input, message + " Nothing was recorded."); }

void check_texts(const std::string& at, const std::string& who) {
  if (at.size() > kLongestName || who.size() > kLongestName) refuse("The time or the name given with this answer is too long.");
}

std::string text(std::string_view words, bool first) {
  if (first) return std::string(words);
  return words.empty() ? std::string(kWithBefore) : std::string(words) + "; " + std::string(kWithBefore);
}

/// A guest's thing keeps its name in `text`, so it always stands for itself.
bool goes_with_before(const OutageEvent& event) {
  return (event.load || event.handle || event.source) && event.text.ends_with(kWithBefore);
}

}  // namespace

OutageBoard::OutageBoard(House house, const Feeds& feeds, std::size_t source)
    : house_(std::move(house)), gear_(outage_gear(house_, feeds, source)), lines_before_run_(house_.outage_events.size()) {
  refresh();
}

void OutageBoard::refresh() {
  now_ = outage_now(house_, gear_);
  step_ = next_outage_step(view());
}

void OutageBoard::add(OutageEvent event, const OutageAnswer& answer, bool first) {
  event.id = Id<OutageEvent>::fresh();
  event.at = answer.at;
  event.who = answer.who;
  event.text = text(event.text, first);
  house_.outage_events.push_back(std::move(event));
}

void OutageBoard::begin(const std::string& at, const std::string& who) {
  check_texts(at, who);
  if (now_.phase == OutagePhase::lost) refuse("It is known already that the utility is gone.");
  add({.kind = OutageEventKind::utility_lost, .source = house_.sources[gear_.source].id}, {.at = at, .who = who});
  refresh();
}

void OutageBoard::answer(const OutageAnswer& answer) {
  using enum OutageStepKind;
  check_texts(answer.at, answer.who);
  if (!fits(step_, answer.kind)) refuse("The step cannot be answered so.");
  const Id<Source> source = house_.sources[gear_.source].id;
  switch (step_.kind) {
    case move: take_move(answer); break;
    case switch_off: take_switch_off(answer); break;
    case switch_on:
      add({.kind = answer.kind == OutageAnswerKind::no ? OutageEventKind::load_off : OutageEventKind::load_on, .load = step_.loads.front()}, answer);
      if (answer.kind == OutageAnswerKind::no_effect)
        add({.kind = OutageEventKind::note, .load = step_.loads.front(), .text = std::string(kDidNotComeOn)}, answer, false);
      break;
    case look_over: add({.kind = OutageEventKind::note, .source = source,
                         .text = std::string(answer.kind == OutageAnswerKind::done ? kTryAgain : kLeftDark)}, answer); break;
    case end: add({.kind = OutageEventKind::ended, .source = source}, answer); break;
    default: take_source(answer); break;
  }
  refresh();
}

void OutageBoard::take_source(const OutageAnswer& answer) {
  using enum OutageStepKind;
  const Id<Source> source = house_.sources[gear_.source].id;
  const bool yes = answer.kind == OutageAnswerKind::done;
  const auto note = [&](std::string_view words) { add({.kind = OutageEventKind::note, .source = source, .text = std::string(words)}, answer); };
  switch (step_.kind) {
    case ask_away:
      if (!yes) return note(kNotByItself);
      add({.kind = OutageEventKind::source_started, .source = source}, answer);
      return add_moves(answer, true, false);
    case ask_back:
      if (!yes) return note(kNotBack);
      if (now_.running) add({.kind = OutageEventKind::source_stopped, .source = source}, answer);
      return add_moves(answer, false, !now_.running);
    case place_source: return note(kPlaced);
    case connect_source: return note(kConnected);
    case warm_up: return note(kWarm);
    case cool_down: return note(kCooled);
    case no_source: return note(kTryAgain);
    case start_source:
      if (!yes) return note(kWillNotStart);
      return add({.kind = OutageEventKind::source_started, .source = source}, answer);
    case stop_source: return add({.kind = OutageEventKind::source_stopped, .source = source}, answer);
    case refuel: return note(yes ? kRefuelled : kNotRefuelled);
    default: return;
  }
}

/// The positions of this source's automatic devices, moved by themselves.
void OutageBoard::add_moves(const OutageAnswer& answer, bool to_backup, bool first) {
  const Throw to = to_backup ? kBackupSide : kUtilitySide;
  for (const Position& position : house_.positions) {
    const TransferDevice* device = find_row(house_, position.device);
    if (device == nullptr || !device->automatic || device->source != house_.sources[gear_.source].id) continue;
    const HandleRef ref{HandleKind::position, position.id.value};
    const std::uint32_t handle = gear_.graph.handle_of(ref);
    if (gear_.graph.handles[handle].group != handle || now_.state.throws[handle] == to) continue;
    add({.kind = OutageEventKind::moved, .handle = ref, .stands = to}, answer, first);
    first = false;
  }
}

void OutageBoard::take_move(const OutageAnswer& answer) {
  HandleRef stuck;
  if (answer.kind == OutageAnswerKind::no)
    stuck = std::ranges::find(step_.handles, answer.handle) == step_.handles.end() ? step_.handles.front() : answer.handle;
  bool first = true;
  for (const HandleRef& handle : step_.handles) {
    if (handle == stuck) add({.kind = OutageEventKind::note, .handle = handle, .text = std::string(kCannotMove)}, answer, first);
    else add({.kind = OutageEventKind::moved, .handle = handle, .stands = step_.to}, answer, first);
    first = false;
  }
  if (answer.kind != OutageAnswerKind::no_effect) return;
  add({.kind = OutageEventKind::note, .handle = step_.handles.front(), .text = std::string(kDidNotComeOn)}, answer, false);
  if (step_.reason == OutageReason::way_home)  // the power from the street is not good yet: on with the source
    add({.kind = OutageEventKind::utility_lost, .source = house_.sources[gear_.source].id, .text = std::string(kNotGood)}, answer, false);
}

void OutageBoard::take_switch_off(const OutageAnswer& answer) {
  bool first = true;
  for (const Id<Load> load : step_.loads) {
    const auto at = static_cast<std::size_t>(std::ranges::find(house_.loads, load, &Load::id) - house_.loads.begin());
    const bool comes_back = gear_.loads[at].use == LoadUse::together && step_.reason != OutageReason::clear && now_.loads[at] != LoadStands::left_out;
    if (answer.kind == OutageAnswerKind::no) add({.kind = OutageEventKind::note, .load = load, .text = std::string(kCannotSwitchOff)}, answer, first);
    else add({.kind = OutageEventKind::load_off, .load = load, .text = comes_back ? std::string(kToMakeRoom) : ""}, answer, first);
    first = false;
  }
  for (const std::string& guest : step_.guests)
    if (answer.kind == OutageAnswerKind::done) add({.kind = OutageEventKind::load_off, .text = guest}, answer);
}

void OutageBoard::check_tank() const {
  const Source& source = house_.sources[gear_.source];
  if (source.kind != SourceKind::generator) refuse("A battery has no tank.");
  if (source.fuel == Fuel::natural_gas) refuse("Piped gas has no tank.");
  if (now_.phase == OutagePhase::back) refuse("The power from the street is back: go home first, and fill the tank when the engine is cold.");
}

void OutageBoard::tell(OutageEvent event) {
  using enum OutageEventKind;
  check_texts(event.at, event.who);
  if (event.kind == utility_lost) return begin(event.at, event.who);
  if (now_.phase == OutagePhase::none) refuse("No outage is under way; begin one first.");
  if (event.kind == ended) refuse("The outage ends with the last step of the way home.");
  if (event.kind == moved) {
    const GraphHandle& handle = gear_.graph.handles[gear_.graph.handle_of(event.handle)];
    const bool group_of_three = event.handle.kind == HandleKind::device;
    if (event.stands < 0 || event.stands >= handle.throws) refuse("This handle cannot stand so.");
    if (group_of_three) refuse("Wall switches and GFCI receptacles are not part of the board; tell what was switched on or off.");
  }
  if (event.kind == note && event.source && event.text == kToRefuel) check_tank();
  if (event.kind == utility_back && now_.phase == OutagePhase::back) refuse("It is known already that the utility is back.");
  if (!event.source && event.kind != note) event.source = house_.sources[gear_.source].id;
  if (event.kind == overload && !event.handle && !event.load && event.text.empty()) blame(view(), event);
  if ((event.kind == load_on || event.kind == load_off) && event.load && event.text != kForAWhile) event.text.clear();
  event.id = Id<OutageEvent>::fresh();
  event.withdrawn = false;
  House next = house_;
  next.outage_events = {event};
  require_sound(next);
  house_.outage_events.push_back(event);
  refresh();
}

bool OutageBoard::undo() {
  for (std::size_t i = house_.outage_events.size(); i-- > 0;) {
    OutageEvent& event = house_.outage_events[i];
    if (event.withdrawn) continue;
    if (now_.phase == OutagePhase::none && i < lines_before_run_) return false;
    event.withdrawn = true;
    if (goes_with_before(event)) continue;
    refresh();
    return true;
  }
  return false;
}

std::size_t outage_source(const House& house) {
  const Id<Source> under_way = source_of_outage(house);
  const auto found = std::ranges::find(house.sources, under_way, &Source::id);
  if (under_way && found != house.sources.end()) return static_cast<std::size_t>(found - house.sources.begin());
  return the_only_source(house);
}

}  // namespace ohmstead
