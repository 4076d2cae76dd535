#include "json/trace_desk.h"

#include "ask/saw.h"
#include "house/index.h"
#include "json/json_line.h"
#include "json/trace_requests.h"
#include "trace/behind.h"
#include "trace/step_text.h"

namespace ohmstead {

namespace {

using Json = TraceDesk::Json;

constexpr std::size_t kMostLooksListed = 100;

Json typed(const char* type, Json fields) {
  Json document{{"type", type}};
  document.update(fields);
  return document;
}

}  // namespace

TraceDesk::TraceDesk(TraceSession& session, const TraceOptions& options) : session_(session), options_(options) { session_.now_is(options_.now()); }

std::optional<Json> TraceDesk::told(const Json& request) {
  const House& house = session_.house();
  const std::string what = text_field(request, "do");
  if (what == "step") return session_.now_is(options_.now()), step();
  if (what == "behind") return behind();
  if (what == "why") return Json{{"type", "why"}, {"text", why_text(house, session_.conclusions(), session_.step())}};
  if (what == "progress") return typed("progress", progress());
  if (what == "feeds") return feeds();
  if (what == "looks") return looks();
  if (what == "summary") return Json{{"type", "summary"}, {"text", summary_text(house, session_.conclusions())}};
  if (what == "manner" && !sets_manner(request)) return manner();
  return std::nullopt;
}

std::string TraceDesk::change(const Json& request) {
  const std::string what = text_field(request, "do");
  if (what == "answer") return answer(request);
  if (what == "undo") {
    if (!session_.undo()) throw refused_line("There is nothing to take back.");
    return "Took back the last answer";
  }
  if (what == "withdraw") return session_.withdraw({id_field(request, "observation")}), "Took back an earlier answer";
  if (what == "stays_off") {
    session_.stays_off({id_field(request, "breaker")}, options_.now(), options_.who);
    return "A breaker went off and will not come on again";
  }
  if (what == "retry_skipped") return session_.forget_skipped(), "Skipped breakers may be proposed again";
  if (what == "manner") return take_manner(session_, request);
  if (what == "again") return take_again(session_, request);
  if (what == "found") return take_found(session_, request);
  throw refused_line("The field 'do' must be one of: answer, undo, withdraw, stays_off, retry_skipped, manner, again, found, step, why, progress, feeds, behind, looks, summary, pause.");
}

std::string TraceDesk::answer(const Json& request) {
  if (const auto asked = request.find("step"); asked != request.end() && *asked != number)
    throw refused_line("The answer is for another step; the step now is number " + std::to_string(number) + ".");
  return take_answer(session_, request, options_);
}

Json TraceDesk::handle(const HandleRef& ref) const { return {{"ref", text_of_ref(ref)}, {"name", handle_name(session_.house(), ref)}}; }

Json TraceDesk::handles(const std::vector<HandleRef>& refs) const {
  Json list = Json::array();
  for (const HandleRef& ref : refs) list.push_back(handle(ref));
  return list;
}

Json TraceDesk::standing_off() const { return handles(ohmstead::standing_off(session_.house())); }

Json TraceDesk::step() const {
  const Step& now = session_.step();
  Json document{{"type", "step"}, {"step", number}, {"kind", text_of(now.kind)}, {"reason", text_of(now.reason)}};
  document["text"] = step_text(session_.house(), now);
  document["handles"] = handles(now.handles);
  if (now.point) document["point"] = {{"id", now.point.text()}, {"name", point_name(session_.house(), now.point)}};
  for (const Id<Load> load : now.loads) document["loads"].push_back(load.text());
  document["briefly"] = now.briefly;
  document["by_helper"] = now.by_helper;
  document["from_door"] = now.from_door;
  document["off"] = standing_off();
  if (const HandleRef asked = asked_behind(session_.house())) document["behind"] = handle(asked);
  document["answers"] = Json::array();
  for (std::size_t i = 0; i < words_of(AnswerKind{}).size(); ++i)
    if (fits(now.kind, static_cast<AnswerKind>(i))) document["answers"].push_back(words_of(AnswerKind{})[i]);
  document["progress"] = progress();
  return document;
}

Json TraceDesk::behind() const {
  const House& house = session_.house();
  const HandleRef asked = asked_behind(house);
  if (!asked) throw refused_line("The session asks about breakers, not about what is behind a handle; start it with --behind.");
  const auto found = find_behind(house, asked);
  Json points = Json::array();
  for (std::size_t p = 0; p < found.size(); ++p)
    points.push_back({{"point", house.points[p].id.text()}, {"standing", text_of(found[p].standing)}, {"belief", found[p].belief}});
  return {{"type", "behind"}, {"handle", handle(asked)}, {"text", summary_text(house, session_.conclusions())}, {"points", points}};
}

Json TraceDesk::progress() const {
  const Progress now = session_.progress();
  return {{"settled", now.settled},         {"likely", now.likely}, {"dead_anyway", now.dead_anyway},
          {"unexplained", now.unexplained}, {"total", now.total},   {"minutes_left", now.minutes_left}};
}

Json TraceDesk::feeds() const {
  const Feeds concluded = feeds_of(session_.house(), session_.conclusions());
  Json points = Json::array();
  for (std::size_t p = 0; p < session_.house().points.size(); ++p) {
    const Feed& feed = concluded.of_point[p];
    Json taps = Json::array();
    for (const Tap& tap : feed.taps) taps.push_back({{"hot", tap.hot}, {"breaker", tap.breaker.text()}, {"pole", tap.pole}});
    points.push_back({{"point", session_.house().points[p].id.text()}, {"standing", text_of(feed.standing)},
                      {"belief", feed.belief}, {"taps", taps}});
  }
  return {{"type", "feeds"}, {"points", points}};
}

Json TraceDesk::looks() const {
  const House& house = session_.house();
  Json list = Json::array();
  for (const Id<Observation> id : last_looks(house, kMostLooksListed)) {
    const Observation& seen = row(house, id);
    list.push_back({{"observation", id.text()}, {"point", seen.point.text()}, {"seen", text_of(seen.seen)}, {"at", seen.at}, {"text", seen_text(house, seen)}});
  }
  return {{"type", "looks"}, {"looks", list}};
}

Json TraceDesk::manner() const {
  const Manner now = manner_of(session_.house());
  Json document{{"type", "manner"}, {"at_once", now.at_once}, {"helper", now.helper}, {"lamps", now.lamps}};
  if (now.at_once == 0) document["at_once"] = "any";
  document["rooms"] = Json::array();
  for (const Id<Room> room : now.rooms) document["rooms"].push_back(room.text());
  document["only_plan"] = now.for_plan;
  document["method"] = text_of(now.method);
  document["text"] = manner_text(session_.house(), now);
  return document;
}

}  // namespace ohmstead
