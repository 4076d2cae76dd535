#include "json/trace_requests.h"

#include <algorithm>
#include <nlohmann/json.hpp>

#include "json/json_line.h"
#include "house/index.h"
#include "survey/found_point.h"
#include "trace/manner.h"
#include "trace/step_text.h"

namespace ohmstead {

namespace {

using Json = nlohmann::ordered_json;

constexpr const char* kMannerFields[] = {"at_once", "helper", "lamps", "rooms", "only_plan", "method"};

int at_once_field(const Json& line) {
  const auto found = line.find("at_once");
  if (found->is_string() && found->get<std::string>() == "any") return 0;
  if (found->is_number_integer()) return number_field(line, "at_once", 1, kMostAtOnce);
  throw refused_line("The field 'at_once' must be a whole number from 1 to " + std::to_string(kMostAtOnce) + ", or \"any\".");
}

std::vector<Id<Room>> rooms_field(const House& house, const Json& line) {
  const auto found = line.find("rooms");
  if (!found->is_array()) throw refused_line("The field 'rooms' must be an array of ids of rooms; an empty one stands for the whole house.");
  std::vector<Id<Room>> rooms;
  for (const Json& text : *found) {
    const auto id = text.is_string() ? parse_id(text.get<std::string>()) : std::nullopt;
    if (!id) throw refused_line("The field 'rooms' must hold ids of rooms.");
    (void)row(house, Id<Room>{*id});
    if (std::ranges::find(rooms, Id<Room>{*id}) == rooms.end()) rooms.push_back({*id});
  }
  return rooms;
}

/// The handle that a skip is about; it must be one of the step.
HandleRef handle_field(const Step& step, const Json& line) {
  if (!has_field(line, "handle")) return {};
  const auto handle = parse_handle_ref(text_field(line, "handle"));
  if (!handle || std::ranges::find(step.handles, *handle) == step.handles.end())
    throw refused_line("The field 'handle' must be the 'ref' of one of the step's handles.");
  return *handle;
}

}  // namespace

std::string take_answer(TraceSession& session, const Json& line, const TraceOptions& options) {
  const std::string word = text_field(line, "answer");
  const auto kind = parse_enum<AnswerKind>(word);
  if (!kind) throw refused_line("The field 'answer' must be one of: " + word_list<AnswerKind>() + ".");
  const Method usual = usual_method(session.house(), session.step());
  Answer given{*kind, word_field<Method>(line, "method").value_or(usual), time_field(line, "at"), text_field(line, "who"),
               handle_field(session.step(), line)};
  if (given.at.empty()) given.at = options.now();
  if (given.who.empty()) given.who = options.who;
  const std::string what = history_text(session.house(), session.step(), given);
  session.answer(given);
  return what;
}

bool sets_manner(const Json& line) {
  return std::ranges::any_of(kMannerFields, [&](const char* name) { return has_field(line, name); });
}

std::string take_manner(TraceSession& session, const Json& line) {
  Manner manner = manner_of(session.house());
  if (has_field(line, "at_once")) manner.at_once = at_once_field(line);
  if (has_field(line, "helper")) manner.helper = flag_field(line, "helper");
  if (has_field(line, "lamps")) manner.lamps = number_field(line, "lamps", 0, kMostLamps);
  if (has_field(line, "rooms")) manner.rooms = rooms_field(session.house(), line);
  if (has_field(line, "only_plan")) manner.for_plan = flag_field(line, "only_plan");
  if (const auto method = word_field<Method>(line, "method")) manner.method = *method;
  require_some_wanted(session.house(), manner);
  session.work_as(manner);
  return "How to trace was changed";
}

std::string take_again(TraceSession& session, const Json& line) {
  if (has_field(line, "point") == has_field(line, "room"))
    throw refused_line("Give the id of a 'point' or of a 'room' that is to be traced again.");
  std::vector<Id<Point>> points;
  if (has_field(line, "point")) {
    points.push_back({id_field(line, "point")});
  } else {
    const Room& room = row(session.house(), Id<Room>{id_field(line, "room")});
    for (const Point& point : session.house().points)
      if (point.room == room.id) points.push_back(point.id);
    if (points.empty()) throw refused_line("Nothing is written down in this room that could be traced again.");
  }
  session.again(points);
  return "To be traced again";
}

std::string take_found(TraceSession& session, const Json& line) {
  FoundPoint found;
  found.room = {id_field(line, "room")};
  const auto kind = word_field<PointKind>(line, "kind");
  if (!kind) throw refused_line("The field 'kind' must be one of: " + word_list<PointKind>() + ".");
  found.kind = *kind;
  found.name = text_field(line, "name");
  found.place = text_field(line, "place");
  if (has_field(line, "hots")) found.hots = number_field(line, "hots", 1, 3);
  const FoundRows rows = rows_of_found(session.house(), found);
  session.add(rows.point, rows.loads);
  return "Found on the way: " + point_name(session.house(), rows.point.id);
}

}  // namespace ohmstead
