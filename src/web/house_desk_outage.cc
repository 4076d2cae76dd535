#include <algorithm>

#include "ask/outage_ask.h"
#include "backup/may_i.h"
#include "backup/outage_status.h"
#include "house/error.h"
#include "house/index.h"
#include "json/json_line.h"
#include "json/json_outage.h"
#include "json/json_text.h"
#include "json/outage_desk.h"
#include "web/house_desk_parts.h"

namespace ohmstead::web {

namespace {

std::size_t source_given(const House& house, const std::string& id) {
  if (id.empty() || source_of_outage(house)) return outage_source(house);
  const auto given = parse_id(id);
  const auto at = std::ranges::find_if(house.sources, [&](const Source& source) { return given && source.id.value == *given; });
  if (at == house.sources.end()) throw Error(ErrorKind::not_found, "The source that is asked for is not in this house.");
  return static_cast<std::size_t>(at - house.sources.begin());
}

}  // namespace

OutageBoard& HouseDesk::board(const std::string& source) {
  if (board_ && (source.empty() || board_->house().sources[board_->gear().source].id.text() == source)) return *board_;
  board_of_ = shown();
  const Record& record = board_of_->record;
  board_.emplace(record.house, record.feeds, source_given(record.house, source));
  return *board_;
}

HouseDesk::Json HouseDesk::outage_now(OutageBoard& now) {
  Json json = outage_json(now.view(), board_of_->names, {now.step(), outage_status(now.view(), now_()), keeper_.revision()}, local_);
  json["change"] = changes_.now();
  json["log"] = lines_json(words_of_outage_log(now.house(), board_of_->names, local_));
  return json;
}

HouseDesk::Json HouseDesk::outage(const std::string& source) {
  const std::lock_guard held(desk_);
  take_in_others();
  return outage_now(board(source));
}

HouseDesk::Json HouseDesk::outage(const Device& device, const Json& request) {
  const std::lock_guard held(desk_);
  take_in_others();
  const std::string key = request_key(request);
  OutageBoard& now = board(text_field(request, "source"));
  if (taken(key)) return outage_now(now);
  if (text_field(request, "do") == "answer" && (!has_field(request, "after") || request.at("after") != keeper_.revision()))
    throw Error(ErrorKind::conflict, "Somebody else has gone on meanwhile; look at what is asked now, and answer again.");
  const std::string what = take_outage_request(now, board_of_->names, request, {.now = now_, .who = device.name});
  House next = keeper_.house();
  next.outage_events = now.house().outage_events;
  keep(what, next, key);
  if (tracing_ != nullptr) tracing_->session.adopt(keeper_.house());
  publish();
  changes_.step();
  return outage_now(now);
}

HouseDesk::Json HouseDesk::may_i(const std::string& words, const std::string& at) {
  const std::lock_guard held(desk_);
  take_in_others();
  const OutageBoard& now = board("");
  const AskedInWords asked = asked_in_words(now.view(), board_of_->names, words, at);
  return may_json(now.view(), board_of_->names, asked.name, ohmstead::may_i(now.view(), asked.thing));
}

}  // namespace ohmstead::web
