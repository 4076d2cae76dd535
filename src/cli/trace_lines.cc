#include "cli/trace_lines.h"

#include <istream>
#include <nlohmann/json.hpp>
#include <ostream>

#include "ask/saw.h"
#include "cli/json_line.h"
#include "cli/trace_requests.h"
#include "house/index.h"
#include "trace/behind.h"
#include "trace/step_text.h"

namespace ohmstead {

namespace {

using Json = nlohmann::ordered_json;

constexpr std::size_t kMostLooksListed = 100;

class LineSession {
 public:
  LineSession(TraceSession& session, std::istream& in, std::ostream& out, const KeepFn& keep, const TraceOptions& options)
      : session_(session), lines_(in, out), keep_(keep), options_(options) {}

  TraceEnd run() {
    session_.now_is(options_.now());  // a breaker may have been off through a pause
    write_step();
    while (auto request = lines_.next()) {
      request_ = std::move(*request);
      if (!serve()) return TraceEnd::paused;
    }
    return session_.step().kind == StepKind::done ? TraceEnd::done : TraceEnd::input_ended;
  }

 private:
  /// Serves one request; false when it was `pause`. What is wrong with the request is answered; what
  /// goes wrong with keeping is not caught here.
  bool serve() {
    std::string kept;
    try {
      const std::string what = text_field(request_, "do");
      if (what == "pause") {
        lines_.write({{"type", "paused"}, {"off", handles(standing_off(session_.house()))}});
        return false;
      }
      if (tells(what)) return true;
      kept = change(what);
    } catch (const Error& error) {
      lines_.write_error(error);
      return true;
    }
    keep_(kept, session_.house());
    ++lines_.number;
    write_step();
    return true;
  }

  /// Answers a request that changes nothing; false when it is not one.
  bool tells(const std::string& what) {
    const House& house = session_.house();
    if (what == "step") session_.now_is(options_.now()), write_step();
    else if (what == "behind") write_behind();
    else if (what == "why") lines_.write({{"type", "why"}, {"text", why_text(house, session_.conclusions(), session_.step())}});
    else if (what == "progress") write_progress();
    else if (what == "feeds") write_feeds();
    else if (what == "looks") write_looks();
    else if (what == "summary") lines_.write({{"type", "summary"}, {"text", summary_text(house, session_.conclusions())}});
    else if (what == "manner" && !sets_manner(request_)) write_manner();
    else return false;
    return true;
  }

  /// Serves a request that changes something, and says what for the history.
  std::string change(const std::string& what) {
    if (what == "answer") return answer();
    if (what == "undo") return undo();
    if (what == "withdraw") return withdraw();
    if (what == "stays_off") return stays_off();
    if (what == "retry_skipped") return retry_skipped();
    if (what == "manner") return take_manner(session_, request_);
    if (what == "again") return take_again(session_, request_);
    if (what == "found") return take_found(session_, request_);
    throw refused_line("The field 'do' must be one of: answer, undo, withdraw, stays_off, retry_skipped, manner, again, found, step, why, progress, feeds, behind, looks, summary, pause.");
  }

  std::string answer() {
    lines_.require_step_now(request_);
    return take_answer(session_, request_, options_);
  }

  std::string undo() {
    if (!session_.undo()) throw refused_line("There is nothing to take back.");
    return "Took back the last answer";
  }

  std::string withdraw() {
    session_.withdraw({id_field(request_, "observation")});
    return "Took back an earlier answer";
  }

  /// A breaker that tripped and will not come on again.
  std::string stays_off() {
    session_.stays_off({id_field(request_, "breaker")}, options_.now(), options_.who);
    return "A breaker went off and will not come on again";
  }

  std::string retry_skipped() {
    session_.forget_skipped();
    return "Skipped breakers may be proposed again";
  }

  [[nodiscard]] Json handles(const std::vector<HandleRef>& refs) const {
    Json list = Json::array();
    for (const HandleRef& handle : refs) list.push_back({{"ref", text_of_ref(handle)}, {"name", handle_name(session_.house(), handle)}});
    return list;
  }

  void write_step() {
    const Step& step = session_.step();
    Json line{{"type", "step"}, {"step", lines_.number}, {"kind", text_of(step.kind)}, {"reason", text_of(step.reason)}};
    line["text"] = step_text(session_.house(), step);
    line["handles"] = handles(step.handles);
    if (step.point) line["point"] = {{"id", step.point.text()}, {"name", point_name(session_.house(), step.point)}};
    if (!step.loads.empty())
      for (const Id<Load> load : step.loads) line["loads"].push_back(load.text());
    line["briefly"] = step.briefly;
    line["by_helper"] = step.by_helper;
    line["from_door"] = step.from_door;
    line["off"] = handles(standing_off(session_.house()));
    if (const HandleRef asked = asked_behind(session_.house())) line["behind"] = handle_json(asked);
    line["answers"] = Json::array();
    for (std::size_t i = 0; i < words_of(AnswerKind{}).size(); ++i)
      if (fits(step.kind, static_cast<AnswerKind>(i))) line["answers"].push_back(words_of(AnswerKind{})[i]);
    line["progress"] = progress();
    lines_.write(line);
  }

  [[nodiscard]] Json handle_json(const HandleRef& handle) const {
    return {{"ref", text_of_ref(handle)}, {"name", handle_name(session_.house(), handle)}};
  }

  void write_behind() {
    const House& house = session_.house();
    const HandleRef asked = asked_behind(house);
    if (!asked) throw refused_line("The session asks about breakers, not about what is behind a handle; start it with --behind.");
    const auto found = find_behind(house, asked);
    Json points = Json::array();
    for (std::size_t p = 0; p < found.size(); ++p)
      points.push_back({{"point", house.points[p].id.text()}, {"standing", text_of(found[p].standing)}, {"belief", found[p].belief}});
    lines_.write({{"type", "behind"}, {"handle", handle_json(asked)}, {"text", summary_text(house, session_.conclusions())}, {"points", points}});
  }

  [[nodiscard]] Json progress() const {
    const Progress now = session_.progress();
    return {{"settled", now.settled},         {"likely", now.likely}, {"dead_anyway", now.dead_anyway},
            {"unexplained", now.unexplained}, {"total", now.total},   {"minutes_left", now.minutes_left}};
  }

  void write_progress() {
    Json line = progress();
    line["type"] = "progress";
    lines_.write(line);
  }

  void write_feeds() {
    const Feeds feeds = feeds_of(session_.house(), session_.conclusions());
    Json points = Json::array();
    for (std::size_t p = 0; p < session_.house().points.size(); ++p) {
      const Feed& feed = feeds.of_point[p];
      Json taps = Json::array();
      for (const Tap& tap : feed.taps) taps.push_back({{"hot", tap.hot}, {"breaker", tap.breaker.text()}, {"pole", tap.pole}});
      points.push_back({{"point", session_.house().points[p].id.text()}, {"standing", text_of(feed.standing)},
                        {"belief", feed.belief}, {"taps", taps}});
    }
    lines_.write({{"type", "feeds"}, {"points", points}});
  }

  void write_looks() {
    const House& house = session_.house();
    Json looks = Json::array();
    for (const Id<Observation> id : last_looks(house, kMostLooksListed)) {
      const Observation& seen = row(house, id);
      looks.push_back({{"observation", id.text()}, {"point", seen.point.text()}, {"seen", text_of(seen.seen)}, {"at", seen.at}, {"text", seen_text(house, seen)}});
    }
    lines_.write({{"type", "looks"}, {"looks", looks}});
  }

  void write_manner() {
    const Manner manner = manner_of(session_.house());
    Json line{{"type", "manner"}, {"at_once", manner.at_once}, {"helper", manner.helper}, {"lamps", manner.lamps}};
    if (manner.at_once == 0) line["at_once"] = "any";
    line["rooms"] = Json::array();
    for (const Id<Room> room : manner.rooms) line["rooms"].push_back(room.text());
    line["only_plan"] = manner.for_plan;
    line["method"] = text_of(manner.method);
    line["text"] = manner_text(session_.house(), manner);
    lines_.write(line);
  }

  TraceSession& session_;
  JsonLines lines_;
  const KeepFn& keep_;
  const TraceOptions& options_;
  Json request_;
};

}  // namespace

TraceEnd run_trace_lines(TraceSession& session, std::istream& in, std::ostream& out, const KeepFn& keep,
                         const TraceOptions& options) {
  return LineSession(session, in, out, keep, options).run();
}

}  // namespace ohmstead
