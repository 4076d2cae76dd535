#include "web/house_routes.h"

#include <algorithm>

#include "ask/answer_words.h"
#include "house/error.h"
#include "json/json_text.h"

namespace ohmstead::web {

namespace {

using Json = nlohmann::ordered_json;

Response answered(const Json& json) { return {.body = json.dump(-1, ' ', false, Json::error_handler_t::replace)}; }

/// Place of the point with this id.
std::size_t point_given(const House& house, const std::string& id) {
  const auto given = parse_id(id);
  const auto at = std::ranges::find_if(house.points, [&](const Point& point) { return given && point.id.value == *given; });
  if (at == house.points.end()) throw Error(ErrorKind::not_found, "The point that is asked for is not in this house; load the page again.");
  return static_cast<std::size_t>(at - house.points.begin());
}

/// The handles of "breaker:ID,position:ID"; throws where one is none of the graph's.
std::vector<HandleRef> handles_given(const Record& record, const std::string& refs) {
  std::vector<HandleRef> handles;
  for (std::size_t at = 0; at < refs.size();) {
    const std::size_t end = std::min(refs.find(',', at), refs.size());
    const auto handle = parse_handle_ref(refs.substr(at, end - at));
    if (!handle) throw Error(ErrorKind::invalid_input, "A handle is written as its kind and id, as in breaker:ID.");
    (void)record.graph.handle_of(*handle);
    handles.push_back(*handle);
    at = end + 1;
  }
  if (handles.empty()) throw Error(ErrorKind::invalid_input, "Say which handle is meant.");
  return handles;
}

Lines lines_of(const Shown& shown, const Request& request) {
  const Record& record = shown.record;
  const std::string ask = request.field("ask"), thing = request.field("thing"), off = request.field("off");
  if (ask == "where") return words_of_answer(record, shown.names, where_is(record, point_given(record.house, thing)));
  if (ask == "isolate") return words_of_answer(record, shown.names, isolate_point(record, point_given(record.house, thing)));
  if (ask == "carries") return words_of_answer(record, shown.names, what_does_it_carry(record, handles_given(record, thing).front()));
  if (ask == "off") {
    std::vector<AskedMove> moves;
    for (const HandleRef& handle : handles_given(record, thing)) moves.push_back({handle, kOff});
    return words_of_answer(record, shown.names, what_goes_off(record, moves, {}));
  }
  if (ask == "restore") {
    State now = state_when(record, {});
    if (!off.empty())
      for (const HandleRef& handle : handles_given(record, off)) move_handle(record.graph, now, record.graph.handle_of(handle), kOff);
    return words_of_answer(record, shown.names, bring_back(record, point_given(record.house, thing), now, {}));
  }
  throw Error(ErrorKind::invalid_input, "What is asked must be one of: where, isolate, off, carries, restore.");
}

}  // namespace

std::vector<Route> house_routes(HouseDesk& desk) {
  const auto get = [](const char* path, Role least, auto handler) {
    return Route{Verb::get, path, least, [handler](const Call& call) -> Answer { return answered(handler(call)); }};
  };
  const auto post = [](const char* path, Role least, auto handler) {
    return Route{Verb::post, path, least, [handler](const Call& call) -> Answer { return answered(handler(call)); }};
  };
  return {
      get("/api/me", Role::look, [&desk](const Call& call) {
        return Json{{"role", role_word(call.device.role)}, {"name", call.device.name}, {"place", text_of(desk.place_of(call.device.number))},
                    {"house", desk.shown()->record.house.dwelling.name}, {"read_only", false}};
      }),
      {Verb::get, "/api/house", Role::look, [&desk](const Call&) -> Answer { return Response{.body = *desk.view()}; }},
      {Verb::get, "/api/photo", Role::look, [&desk](const Call& call) -> Answer { return Response{.type = "image/jpeg", .body = desk.photo(call.request.field("id"))}; }},
      get("/api/answer", Role::look, [&desk](const Call& call) { return Json{{"lines", lines_json(lines_of(*desk.shown(), call.request))}}; }),
      get("/api/trace", Role::look, [&desk](const Call& call) { return desk.trace(call.device); }),
      post("/api/trace", Role::trace, [&desk](const Call& call) { return desk.trace(call.device, call.body); }),
      post("/api/place", Role::trace, [&desk](const Call& call) { return desk.stand(call.device, call.body); }),
      get("/api/survey", Role::look, [&desk](const Call&) { return desk.survey(); }),
      post("/api/survey", Role::change, [&desk](const Call& call) { return desk.survey(call.device, call.body); }),
      get("/api/outage", Role::look, [&desk](const Call& call) { return desk.outage(call.request.field("source")); }),
      post("/api/outage", Role::trace, [&desk](const Call& call) { return desk.outage(call.device, call.body); }),
      get("/api/may", Role::look, [&desk](const Call& call) { return desk.may_i(call.request.field("thing"), call.request.field("at")); }),
  };
}

}  // namespace ohmstead::web
