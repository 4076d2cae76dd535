#include "cli/trace_dialogs.h"

#include <charconv>

#include "ask/names.h"
#include "ask/printable.h"
#include "house/error.h"
#include "house/index.h"
#include "survey/found_point.h"
#include "trace/step_text.h"

namespace ohmstead {

namespace {

constexpr std::size_t kMostByDigit = 9;

/// Place of the choice, from 0: one digit where there are at most nine, else a number and Enter.
/// Nothing for Enter and for what is not in the list.
std::optional<std::size_t> choose(TraceTalk& talk, const std::vector<std::string>& names) {
  for (std::size_t i = 0; i < names.size(); ++i) talk.say(std::to_string(i + 1) + "  " + names[i], 4);
  talk.say(names.size() > kMostByDigit ? "Type its number and Enter; only Enter: none of them." : "Enter: none of them.");
  talk.out << "> " << std::flush;
  std::string given;
  if (names.size() > kMostByDigit) given = talk.keys.line().value_or("");
  else given = std::string(1, talk.keys.key());
  std::size_t number = 0;
  const auto [end, fault] = std::from_chars(given.data(), given.data() + given.size(), number);
  if (fault != std::errc{} || end != given.data() + given.size() || number < 1 || number > names.size()) return std::nullopt;
  return number - 1;
}

std::optional<PointKind> ask_kind(TraceTalk& talk) {
  talk.say("What did you find that is not in the list?");
  std::vector<std::string> names;
  for (const std::string_view word : words_of(PointKind{})) names.push_back(word == "other" ? "something else" : std::string(word));
  const auto chosen = choose(talk, names);
  return chosen ? std::optional(static_cast<PointKind>(*chosen)) : std::nullopt;
}

/// Where the person is, as far as the session knows: the room of the step, else of the last look.
Id<Room> room_of_now(const House& house, const Step& step) {
  const Point* point = find_row(house, step.point);
  if (point == nullptr && !house.observations.empty()) point = find_row(house, house.observations.back().point);
  return point == nullptr ? house.rooms.front().id : point->room;
}

/// A line, or nothing at the end of the input.
std::optional<std::string> ask_line(TraceTalk& talk, const std::string& question) {
  talk.say(question);
  talk.out << "> " << std::flush;
  return talk.keys.line();
}

}  // namespace

std::optional<HandleRef> ask_which(TraceTalk& talk, const std::string& question, const std::vector<HandleRef>& handles) {
  if (handles.size() == 1) return handles.front();
  std::vector<std::string> names;
  for (const HandleRef& handle : handles) names.push_back(handle_name(talk.session.house(), handle));
  talk.say(question);
  const auto chosen = choose(talk, names);
  return chosen ? std::optional(handles[*chosen]) : std::nullopt;
}

bool ask_wrong_answer(TraceTalk& talk) {
  const House& house = talk.session.house();
  const auto looks = last_looks(house, kMostByDigit);
  if (looks.empty()) {
    talk.say("Nothing was seen yet that could be taken back.");
    return false;
  }
  std::vector<std::string> names;
  for (const Id<Observation> id : looks) names.push_back(seen_text(house, row(house, id)));
  talk.say("Which of these was wrong? The last one stands first.");
  const auto chosen = choose(talk, names);
  if (!chosen) return false;
  talk.session.withdraw(looks[*chosen]);
  talk.keep("Took back an earlier answer", talk.session.house());
  talk.say("Taken back: " + names[*chosen] + ".");
  return true;
}

bool ask_tripped(TraceTalk& talk, const std::string& now, const std::string& who) {
  const auto named = ask_line(talk, "Which breaker tripped and will not come on? Its number, such as 12 (Enter: none)");
  if (!named || named->empty()) return false;
  std::string called;
  try {
    const Names names(talk.session.house());
    const Id<Breaker> breaker = names.one_breaker(*named);
    called = handle_name(talk.session.house(), {HandleKind::breaker, breaker.value});
    talk.session.stays_off(breaker, now, who);
  } catch (const Error& error) {
    talk.say("Nothing was changed: " + terminal::printable(error.what()));
    return false;
  }
  talk.keep(called + " tripped and will not come on", talk.session.house());
  talk.say("From now on " + called + " counts as off. When it works again: ohmstead trace --retry-skipped");
  return true;
}

namespace {

/// Asks room and name, and adds the point; nothing at the end of the input. Throws if it cannot be.
std::optional<Id<Point>> add_found(TraceTalk& talk, FoundPoint found) {
  const House& house = talk.session.house();
  const auto room = ask_line(talk, "In which room? (Enter: " + without_controls(row(house, found.room).name) + ")");
  if (!room) return std::nullopt;
  if (!room->empty()) found.room = Names(house).one_room(*room);
  const auto name = ask_line(talk, "What is it called? (Enter: " + free_point_name(house, found.room, found.kind) + ")");
  if (!name) return std::nullopt;
  found.name = *name;
  const FoundRows rows = rows_of_found(house, found);
  talk.session.add(rows.point, rows.loads);
  return rows.point.id;
}

}  // namespace

bool ask_found(TraceTalk& talk) {
  const auto kind = ask_kind(talk);
  if (!kind) return false;
  std::optional<Id<Point>> added;
  try {
    added = add_found(talk, {room_of_now(talk.session.house(), talk.session.step()), *kind});
  } catch (const Error& error) {
    talk.say("Not written down: " + terminal::printable(error.what()));
  }
  if (!added) return false;
  const std::string called = point_name(talk.session.house(), *added);
  talk.keep("Found on the way: " + called, talk.session.house());
  talk.say("Written down: " + called + ". It is traced with the others.");
  return true;
}

}  // namespace ohmstead
