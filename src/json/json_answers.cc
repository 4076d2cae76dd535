#include "json/json_answers.h"

#include <algorithm>
#include <nlohmann/json.hpp>

#include "ask/notes.h"
#include "json/json_text.h"
#include "house/index.h"

namespace ohmstead {

namespace {

using Json = nlohmann::ordered_json;

Json point_json(const Record& record, std::size_t point) {
  const Point& row = record.house.points[point];
  const Room* room = find_row(record.house, row.room);
  const Feed& feed = record.feeds.of_point[point];
  return {{"id", row.id.text()}, {"room", room == nullptr ? "" : room->name}, {"name", row.name},
          {"standing", text_of(feed.standing)}, {"belief", feed.belief}};
}

Json points_json(const Record& record, const std::vector<std::size_t>& points) {
  Json list = Json::array();
  for (const std::size_t p : points) list.push_back(point_json(record, p));
  return list;
}

Json handle_json(const Names& names, const HandleRef& handle) {
  return {{"ref", text_of_ref(handle)}, {"name", names.name_of(handle)}};
}

Json supplied_json(const Record& record, Supplied supplied) {
  return supplied.source == 0 ? "utility" : record.house.sources[static_cast<std::size_t>(supplied.source - 1)].name;
}

template <class Answer>
Json started(const char* question, const Record& record, const Names& names, const Answer& answer) {
  return started_json(question, words_of_answer(record, names, answer));
}

Json taps_json(const Names& names, const Feed& feed) {
  Json taps = Json::array();
  for (const Tap& tap : feed.taps)
    taps.push_back({{"hot", tap.hot}, {"breaker", handle_json(names, {HandleKind::breaker, tap.breaker.value})}, {"pole", tap.pole}});
  return taps;
}

Json sights_json(const Names& names, const std::vector<Sight>& sights) {
  Json list = Json::array();
  for (const Sight& sight : sights) {
    Json open = Json::array();
    for (const HandleRef& handle : sight.open) open.push_back(handle_json(names, handle));
    list.push_back({{"observation", sight.observation.text()}, {"seen", sight.dead ? "dead" : "live"}, {"at", sight.at}, {"who", sight.who}, {"open", open}});
  }
  return list;
}

Json contradictions_json(const Record& record, const Names& names, const std::vector<Contradiction>& contradictions) {
  Json list = Json::array();
  for (const Contradiction& contradiction : contradictions) {
    Json breakers = Json::array();
    for (const Id<Breaker> breaker : contradiction.breakers) breakers.push_back(handle_json(names, {HandleKind::breaker, breaker.value}));
    list.push_back({{"point", point_json(record, contradiction.point)}, {"breakers", breakers},
                    {"against", sights_json(names, contradiction.against)}, {"in_favor", sights_json(names, contradiction.in_favor)}});
  }
  return list;
}

std::string word(Closeness why) {
  switch (why) {
    case Closeness::same_box: return "same_box";
    case Closeness::passing: return "passing";
    case Closeness::shared_neutral: break;
  }
  return "shared_neutral";
}

std::string word(CannotRestore cannot) {
  switch (cannot) {
    case CannotRestore::none: return "";
    case CannotRestore::feed_not_established: return "feed_not_established";
    case CannotRestore::source_dead: return "source_dead";
    case CannotRestore::no_way: return "no_way";
    case CannotRestore::not_lawful: return "not_lawful";
    case CannotRestore::over_capacity: break;
  }
  return "over_capacity";
}

std::string throw_word(const GraphHandle& handle, Throw to) {
  if (handle.ref.kind == HandleKind::position) return to == kOff ? "off" : to == kUtilitySide ? "utility" : "backup";
  if (handle.ref.kind == HandleKind::device && handle.usual == kOff) return "other";
  return to == kOff ? "off" : "on";
}

}  // namespace

std::string json_of_answer(const Record& record, const Names& names, const OffAnswer& answer) {
  Json json = started("off", record, names, answer);
  json["supplied_by"] = supplied_json(record, answer.supplied);
  json["moved"] = Json::array();
  for (const HandleRef& handle : answer.moved) json["moved"].push_back(handle_json(names, handle));
  json["off"] = points_json(record, answer.change.off);
  json["on"] = points_json(record, answer.change.on);
  json["part_live"] = points_json(record, answer.change.part_live);
  json["unknown"] = points_json(record, answer.change.unknown);
  json["hurt"] = points_json(record, answer.hurt);
  json["stays_live"] = Json::array();
  for (const StaysLive& near : answer.change.stays_live)
    json["stays_live"].push_back({{"near", point_json(record, near.gone)}, {"why", word(near.why)},
                                  {"live", {{"ref", text_of_ref(near.live)}, {"name", names.name_of(near.live)}}}});
  json["may_stay_live"] = Json::array();
  for (const auto& [gone, near] : answer.not_known_near)
    json["may_stay_live"].push_back({{"near", point_json(record, gone)}, {"thing", {{"ref", text_of_ref(near)}, {"name", names.name_of(near)}}}});
  json["moves_by_itself"] = Json::array();
  for (const Id<TransferDevice> device : answer.will_move)
    json["moves_by_itself"].push_back(names.name_of(ThingRef{ThingKind::transfer_device, device.value}));
  json["stays_fed"] = Json::array();
  for (const HandleRef& handle : answer.stays_fed) json["stays_fed"].push_back(handle_json(names, handle));
  json["lawful"] = answer.broken_interlocks.empty() && answer.change.joined.empty();
  return json_text(json);
}

std::string json_of_answer(const Record& record, const Names& names, const WhereAnswer& answer) {
  Json json = started("where", record, names, answer);
  json["point"] = point_json(record, answer.point);
  json["fed_by"] = taps_json(names, answer.feed);
  json["behind"] = Json::array();
  for (const Id<Device> device : answer.behind) json["behind"].push_back(names.name_of(ThingRef{ThingKind::device, device.value}));
  json["found_behind"] = Json::array();  // those of them that looks have proved
  for (const Id<Device> device : answer.behind)
    if (std::ranges::find(record.found_behind, FoundBehind{device, answer.point}) != record.found_behind.end())
      json["found_behind"].push_back(names.name_of(ThingRef{ThingKind::device, device.value}));
  json["positions"] = Json::array();
  for (const Id<Position> position : answer.positions)
    json["positions"].push_back(handle_json(names, {HandleKind::position, position.value}));
  json["same_breaker"] = points_json(record, answer.same_breaker);
  json["seen_dead"] = answer.seen_dead;
  json["seen_live"] = answer.seen_live;
  json["last_seen"] = answer.last_seen;
  json["notes"] = Json::array();
  for (const std::size_t n : notes_about(record.house, thing_of(record.house.points[answer.point]))) json["notes"].push_back(note_text(names, record.house.notes[n]));
  return json_text(json);
}

std::string json_of_answer(const Record& record, const Names& names, const CarriesAnswer& answer) {
  Json json = started("carries", record, names, answer);
  json["handle"] = handle_json(names, answer.handle);
  json["points"] = points_json(record, answer.points);
  return json_text(json);
}

std::string json_of_answer(const Record& record, const Names& names, const IsolateAnswer& answer) {
  Json json = started("isolate", record, names, answer);
  json["possible"] = answer.isolation.possible;
  json["open"] = Json::array();
  for (const std::uint32_t h : answer.isolation.open)
    for (const GraphHandle& member : record.graph.handles)
      if (member.ref && member.group == h) json["open"].push_back(handle_json(names, member.ref));
  json["inside"] = points_json(record, answer.inside.points);
  json["not_established"] = points_json(record, answer.isolation.not_established);
  json["unknown_supply"] = answer.unknown_supply;
  json["goes_off"] = points_json(record, answer.isolation.goes_off);
  return json_text(json);
}

std::string json_of_answer(const Record& record, const Names& names, const RestoreAnswer& answer) {
  Json json = started("restore", record, names, answer);
  json["point"] = point_json(record, answer.point);
  json["from"] = supplied_json(record, answer.from);
  json["works_already"] = answer.works_already;
  json["cannot"] = word(answer.restoration.cannot);
  json["moves"] = Json::array();
  for (const Move& move : answer.restoration.moves) {
    const GraphHandle& handle = record.graph.handles[move.handle];
    json["moves"].push_back({{"handle", handle_json(names, handle.ref)}, {"to", throw_word(handle, move.to)}});
  }
  json["goes_off"] = points_json(record, answer.restoration.goes_off);
  return json_text(json);
}

std::string json_of_answer(const Record& record, const Names& names, const StandAnswer& answer) {
  Json json = started("status", record, names, answer);
  json["rooms"] = answer.rooms;
  json["breakers"] = answer.breakers;
  json["observations"] = answer.observations;
  for (const auto& [name, points] : {std::pair{"proved", &answer.proved}, {"declared", &answer.declared}, {"likely", &answer.likely},
                                     {"open", &answer.open}, {"disputed", &answer.disputed}})
    json[name] = points_json(record, *points);
  json["contradictions"] = contradictions_json(record, names, answer.contradictions);
  json["nothing_found"] = Json::array();
  for (const Id<Breaker> breaker : answer.nothing_found)
    json["nothing_found"].push_back(handle_json(names, {HandleKind::breaker, breaker.value}));
  return json_text(json);
}

}  // namespace ohmstead
