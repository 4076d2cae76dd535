#include "json/json_outage.h"

#include <nlohmann/json.hpp>
#include <numeric>

#include "json/json_text.h"

namespace ohmstead {

namespace {

using Json = nlohmann::ordered_json;

Json handle_json(const OutageView& view, const Names& names, const HandleRef& handle) {
  return {{"ref", text_of_ref(handle)}, {"name", outage_handle_text(view.house, names, handle)}};
}

Json load_json(const House& house, std::size_t load) { return {{"id", house.loads[load].id.text()}, {"name", house.loads[load].name}}; }

Json consumer_json(const OutageView& view, const Consumer& one) {
  Json json = one.load >= 0 ? load_json(view.house, static_cast<std::size_t>(one.load))
                            : Json{{"guest", view.now.guests[static_cast<std::size_t>(one.guest)].text}};
  json["running_watts"] = std::accumulate(one.draw.running.begin(), one.draw.running.end(), 0);
  json["life_safety"] = one.life();
  return json;
}

Json consumers_json(const OutageView& view, const std::vector<Consumer>& all) {
  Json list = Json::array();
  for (const Consumer& one : all) list.push_back(consumer_json(view, one));
  return list;
}

std::string stand_word(const HandleRef& handle, int to) {
  if (handle.kind != HandleKind::position) return to == kOn ? "on" : "off";
  return to == kBackupSide ? "backup" : to == kUtilitySide ? "utility" : "off";
}

Json step_json(const OutageView& view, const Names& names, const OutageStep& step) {
  Json json{{"kind", text_of(step.kind)}, {"reason", text_of(step.reason)}, {"settled", is_settled(step.kind)}, {"handles", Json::array()}};
  for (const HandleRef& handle : step.handles) json["handles"].push_back(handle_json(view, names, handle));
  if (!step.handles.empty()) json["to"] = stand_word(step.handles.front(), step.to);
  json["loads"] = Json::array();
  for (const Id<Load> load : step.loads) json["loads"].push_back(load.text());
  json["guests"] = step.guests;
  json["answers"] = Json::array();
  for (std::size_t i = 0; i < words_of(OutageAnswerKind{}).size(); ++i)
    if (fits(step, static_cast<OutageAnswerKind>(i))) json["answers"].push_back(words_of(OutageAnswerKind{})[i]);
  return json;
}

}  // namespace

Json outage_json(const OutageView& view, const Names& names, const OutageShown& shown, const LocalTime& local) {
  const OutageStep& step = shown.step;
  const OutageStatus& status = shown.status;
  Lines lines = words_of_outage_status(view, status, local);
  const std::size_t step_at = lines.size();
  for (const Line& line : words_of_outage_step(view, names, step)) lines.push_back(line);
  Json json = started_json("outage", lines);
  json["step_at"] = step_at;
  json["phase"] = text_of(status.phase), json["source"] = view.house.sources[view.gear.source].name, json["running"] = status.running;
  json["revision"] = shown.revision, json["log_lines"] = view.house.outage_events.size(), json["minutes"] = status.minutes, json["step"] = step_json(view, names, step);
  json["drawn_watts"] = status.drawn_in_all, json["limit_watts"] = status.limits.running;
  if (status.fuel)
    json["fuel"] = {{"share_low", status.fuel->share.low}, {"share_high", status.fuel->share.high}, {"hours_low", status.fuel->hours.low},
                    {"hours_high", status.fuel->hours.high}, {"full_at", status.fuel->full_at}};
  json["on"] = consumers_json(view, status.on), json["waiting"] = consumers_json(view, status.waiting);
  json["did_not_come_on"] = consumers_json(view, status.dark), json["left_out"] = Json::array();
  for (const OffLoad& off : status.left_out) {
    json["left_out"].push_back(load_json(view.house, off.load));
    json["left_out"].back()["minutes"] = off.minutes;
  }
  json["left"] = Json::array(), json["off_loads"] = Json::array(), json["life_without_power"] = Json::array(), json["not_carried"] = Json::array();
  for (const RoomLeft& left : status.left) {
    Json points = Json::array();
    for (const std::size_t p : left.points) points.push_back(view.house.points[p].id.text());
    json["left"].push_back({{"watts", left.watts}, {"points", points}});
  }
  for (const OffLoad& off : status.off_loads) {
    Json one = load_json(view.house, off.load);
    one["since"] = off.since, one["minutes"] = off.minutes, one["longest_minutes"] = off.longest_min;
    json["off_loads"].push_back(one);
  }
  for (const std::size_t load : status.life_without_power) json["life_without_power"].push_back(load_json(view.house, load));
  for (const std::size_t load : status.not_carried) json["not_carried"].push_back(load_json(view.house, load));
  return json;
}

Json may_json(const OutageView& view, const Names& names, const std::string& name, const MayI& answer) {
  Json json = started_json("may", words_of_may_i(view, names, name, answer));
  json["may"] = text_of(answer.kind), json["thing"] = name, json["point"] = view.house.points[answer.point].id.text();
  json["running_watts"] = answer.running, json["starting_watts"] = answer.starting;
  json["off_first"] = consumers_json(view, answer.off_first);
  return json;
}

std::string json_of_outage(const OutageView& view, const Names& names, const OutageShown& shown, const LocalTime& local) {
  return json_text(outage_json(view, names, shown, local));
}

std::string json_of_may_i(const OutageView& view, const Names& names, const std::string& name, const MayI& answer) {
  return json_text(may_json(view, names, name, answer));
}

std::string json_of_outage_log(const House& house, const Lines& lines) {
  Json json = started_json("outage_log", lines);
  json["events"] = Json::array();
  for (const OutageEvent& event : house.outage_events) {
    Json one{{"id", event.id.text()}, {"kind", text_of(event.kind)}, {"at", event.at}, {"who", event.who}, {"withdrawn", event.withdrawn}};
    if (event.handle) one["handle"] = text_of_ref(event.handle), one["stands"] = event.stands;
    if (event.load) one["load"] = event.load.text();
    if (event.point) one["point"] = event.point.text();
    if (event.source) one["source"] = event.source.text();
    if (event.running_watts > 0) one["running_watts"] = event.running_watts, one["starting_watts"] = event.starting_watts;
    if (!event.text.empty()) one["text"] = event.text;
    json["events"].push_back(one);
  }
  return json_text(json);
}

}  // namespace ohmstead
