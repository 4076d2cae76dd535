#include "trace/manner.h"

#include <algorithm>
#include <charconv>
#include <set>
#include <string>

#include "house/error.h"
#include "house/index.h"

namespace ohmstead {

namespace {

const std::string* value_of(const House& house, const std::string& name) {
  const auto found = std::ranges::find(house.settings, name, &Setting::name);
  return found == house.settings.end() ? nullptr : &found->value;
}

void set(House& house, const std::string& name, const std::string& value) {
  const auto found = std::ranges::find(house.settings, name, &Setting::name);
  if (found != house.settings.end()) found->value = value;
  else house.settings.push_back({Id<Setting>::fresh(), name, value});
}

void erase(House& house, const std::string& name) {
  std::erase_if(house.settings, [&](const Setting& setting) { return setting.name == name; });
}

long number_in(const std::string* text, long low, long high, long otherwise) {
  long number = 0;
  if (text == nullptr) return otherwise;
  const auto [end, error] = std::from_chars(text->data(), text->data() + text->size(), number);
  return error != std::errc{} || end != text->data() + text->size() || number < low || number > high ? otherwise : number;
}

constexpr const char* kRoomField = "room.";  ///< + room id

/// Which settings hold what: name of the field, and its text; an empty text is not kept.
std::vector<std::pair<std::string, std::string>> texts_of(const Manner& manner) {
  return {{"at_once", manner.at_once == 1 ? "" : std::to_string(manner.at_once)},
          {"helper", manner.helper ? "yes" : ""},
          {"lamps", manner.lamps == 0 ? "" : std::to_string(manner.lamps)},
          {"for_plan", manner.for_plan ? "yes" : ""},
          {"method", manner.method == Method::tester ? "" : std::string(text_of(manner.method))}};
}

}  // namespace

Manner manner_of(const House& house) {
  const auto kept = [&](const char* field) { return value_of(house, std::string(kMannerPrefix) + field); };
  Manner manner;
  manner.at_once = static_cast<int>(number_in(kept("at_once"), 0, kMostAtOnce, 1));
  manner.helper = kept("helper") != nullptr;
  manner.lamps = static_cast<int>(number_in(kept("lamps"), 0, kMostLamps, 0));
  manner.for_plan = kept("for_plan") != nullptr;
  if (const std::string* method = kept("method")) manner.method = parse_enum<Method>(*method).value_or(Method::tester);
  // A setting for each room: together they may be longer than the text of one may be.
  const std::string prefix = std::string(kMannerPrefix) + kRoomField;
  std::set<std::string> named;
  for (const Setting& setting : house.settings)
    if (setting.name.starts_with(prefix)) named.insert(setting.name.substr(prefix.size()));
  for (const Room& room : house.rooms)
    if (named.contains(room.id.text())) manner.rooms.push_back(room.id);
  return manner;
}

void keep_manner(House& house, const Manner& manner) {
  if (manner.at_once < 0 || manner.at_once > kMostAtOnce)
    throw Error(ErrorKind::invalid_input, "The number of breakers that may be off at once must be from 1 to " + std::to_string(kMostAtOnce) + ", or 0 for any number.");
  if (manner.lamps < 0 || manner.lamps > kMostLamps)
    throw Error(ErrorKind::invalid_input, "The number of plug-in lamps must be from 0 to " + std::to_string(kMostLamps) + ".");
  for (const Id<Room> room : manner.rooms) (void)row(house, room);
  for (const auto& [field, text] : texts_of(manner)) {
    const std::string name = kMannerPrefix + field;
    if (text.empty()) erase(house, name);
    else set(house, name, text);
  }
  const std::string prefix = std::string(kMannerPrefix) + kRoomField;
  const auto is_left_out = [&](const Setting& setting) {
    return setting.name.starts_with(prefix) &&
           std::ranges::none_of(manner.rooms, [&](Id<Room> room) { return setting.name == prefix + room.text(); });
  };
  std::erase_if(house.settings, is_left_out);
  for (const Id<Room> room : manner.rooms) set(house, prefix + room.text(), "yes");
}

std::string manner_text(const House& house, const Manner& manner) {
  static constexpr const char* kBy[] = {"by eye", "by a plug-in lamp carried along", "by tester", "by non-contact tester",
                                        "by a tester that sounds, heard from afar", "by other means"};
  std::string text = manner.at_once == 1   ? "One breaker off at a time"
                     : manner.at_once == 0 ? "Any number of breakers off at a time"
                                           : "Up to " + std::to_string(manner.at_once) + " breakers off at a time";
  text += manner.helper ? ", with a helper at the panel, " : ", alone, ";
  text += kBy[static_cast<std::size_t>(manner.method)];
  if (manner.lamps > 0) text += ", with " + std::to_string(manner.lamps) + (manner.lamps == 1 ? " lamp" : " lamps") + " left in receptacles";
  text += '.';
  for (const Id<Room> id : manner.rooms)
    if (const Room* room = find_row(house, id)) text += (id == manner.rooms.front() ? " Only in: " : ", ") + room->name;
  if (!manner.rooms.empty()) text += '.';
  if (manner.for_plan) text += " Only what matters in an outage.";
  return text;
}

bool is_wanted(const House& house, const Manner& manner, const Point& point) {
  if (!manner.rooms.empty() && std::ranges::find(manner.rooms, point.room) == manner.rooms.end()) return false;
  return !manner.for_plan || std::ranges::any_of(house.loads, [&](const Load& load) {
    return load.point == point.id && (load.importance == Importance::high || load.importance == Importance::life_safety || load.hurt_by_power_loss);
  });
}

void require_some_wanted(const House& house, const Manner& manner) {
  if (house.points.empty() || std::ranges::any_of(house.points, [&](const Point& point) { return is_wanted(house, manner, point); })) return;
  if (!manner.for_plan)
    throw Error(ErrorKind::invalid_input, "No point is written down in the chosen rooms; write them down, or choose other rooms or the whole house.");
  throw Error(ErrorKind::invalid_input, "Tracing only what the plan needs leaves nothing to trace: no load" + std::string(manner.rooms.empty() ? "" : " in these rooms") +
                                            " is marked as mattering in an outage (high, life safety, or hurt by a power loss); mark one, or trace everything.");
}

void trace_again(House& house, Id<Point> point) {
  (void)row(house, point);
  set(house, kAgainPrefix + point.text(), std::to_string(house.observations.size()));
}

std::size_t settled_from(const House& house, Id<Point> point) {
  return static_cast<std::size_t>(number_in(value_of(house, kAgainPrefix + point.text()), 0, 1'000'000'000, 0));
}

}  // namespace ohmstead
