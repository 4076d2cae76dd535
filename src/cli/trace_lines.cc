#include "cli/trace_lines.h"

#include <algorithm>
#include <istream>
#include <nlohmann/json.hpp>
#include <optional>
#include <ostream>
#include <string_view>

#include "house/index.h"
#include "house/invariants.h"
#include "trace/step_text.h"

namespace ohmstead {

namespace {

using Json = nlohmann::ordered_json;

Error refused(const std::string& message) { return {ErrorKind::invalid_input, message}; }

/// One line of at most kLongestLine bytes, without its end. Nothing at the end of the input; an
/// empty optional inside when the line was too long (it is skipped).
std::optional<std::optional<std::string>> read_line(std::istream& in) {
  std::string line;
  bool too_long = false;
  for (int c = in.get();; c = in.get()) {
    const bool end = c == std::istream::traits_type::eof();
    if (end && line.empty() && !too_long) return std::nullopt;
    if (end || c == '\n') break;
    if (line.size() < kLongestLine) line += static_cast<char>(c);
    else too_long = true;
  }
  if (too_long) return std::optional<std::string>{};
  return std::optional<std::string>{line};
}

Json parse_line(const std::string& line) {
  const auto not_too_deep = [](int depth, Json::parse_event_t, Json&) {
    if (depth > kDeepestNesting) throw refused("The line is nested too deeply; one flat JSON object is expected.");
    return true;
  };
  Json json;
  try {
    json = Json::parse(line, not_too_deep);
  } catch (const nlohmann::json::exception&) {
    throw refused("The line is not JSON; one JSON object on one line is expected.");
  }
  if (!json.is_object()) throw refused("The line is JSON, but not an object in braces.");
  return json;
}

/// Text field of a line; empty when it is not there.
std::string text_field(const Json& line, const char* name) {
  const auto found = line.find(name);
  if (found == line.end()) return {};
  if (!found->is_string()) throw refused(std::string("The field '") + name + "' must be a text.");
  auto text = found->get<std::string>();
  if (text.size() > kLongestName) throw refused(std::string("The field '") + name + "' is too long.");
  if (std::ranges::any_of(text, [](char c) { return (c >= 0 && c < ' ') || c == '\x7f'; }))
    throw refused(std::string("The field '") + name + "' holds a control character.");
  return text;
}

/// Time of an answer, written as in the file: `2026-11-25T09:30:00Z`. Empty when it is not there.
std::string time_field(const Json& line, const char* name) {
  const std::string text = text_field(line, name);
  constexpr std::string_view kShape = "0000-00-00T00:00:00Z";
  const auto fits_at = [&](std::size_t i) { return kShape[i] == '0' ? text[i] >= '0' && text[i] <= '9' : text[i] == kShape[i]; };
  bool fits = text.size() == kShape.size();
  for (std::size_t i = 0; fits && i < kShape.size(); ++i) fits = fits_at(i);
  if (!text.empty() && !fits) throw refused(std::string("The field '") + name + "' must be a time in UTC, such as 2026-11-25T09:30:00Z.");
  return text;
}

template <class E>
std::string word_list() {
  std::string list;
  for (const std::string_view word : words_of(E{})) list += (list.empty() ? "" : ", ") + std::string(word);
  return list;
}

template <class E>
E word_field(const Json& line, const char* name, E otherwise) {
  const std::string word = text_field(line, name);
  if (word.empty()) return otherwise;
  if (const auto value = parse_enum<E>(word)) return *value;
  throw refused(std::string("The field '") + name + "' must be one of: " + word_list<E>() + ".");
}

class Lines {
 public:
  Lines(TraceSession& session, std::istream& in, std::ostream& out, const KeepFn& keep, const TraceOptions& options)
      : session_(session), in_(in), out_(out), keep_(keep), options_(options) {}

  TraceEnd run() {
    session_.now_is(options_.now());  // a breaker may have been off through a pause
    write_step();
    while (const auto line = read_line(in_)) {
      try {
        if (!*line) throw refused("The line is longer than " + std::to_string(kLongestLine) + " bytes; it was skipped.");
        if ((*line)->find_first_not_of(" \t\r") == std::string::npos) continue;
        request_ = parse_line(**line);
      } catch (const Error& error) {
        write_error(error);
        continue;
      }
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
        write({{"type", "paused"}});
        return false;
      }
      if (what == "step") return session_.now_is(options_.now()), write_step(), true;
      if (what == "why") return write({{"type", "why"}, {"text", why_text(session_.house(), session_.conclusions(), session_.step())}}), true;
      if (what == "progress") return write_progress(), true;
      if (what == "feeds") return write_feeds(), true;
      if (what == "answer") kept = answer();
      else if (what == "undo") kept = undo();
      else if (what == "withdraw") kept = withdraw();
      else if (what == "stays_off") kept = stays_off();
      else if (what == "retry_skipped") kept = retry_skipped();
      else throw refused("The field 'do' must be one of: answer, undo, withdraw, stays_off, retry_skipped, step, why, progress, feeds, pause.");
    } catch (const Error& error) {
      write_error(error);
      return true;
    }
    keep_(kept, session_.house());
    ++number_;
    write_step();
    return true;
  }

  std::string answer() {
    if (const auto number = request_.find("step"); number != request_.end() && *number != number_)
      throw refused("The answer is for another step; the step now is number " + std::to_string(number_) + ".");
    const std::string word = text_field(request_, "answer");
    const auto kind = parse_enum<AnswerKind>(word);
    if (!kind) throw refused("The field 'answer' must be one of: " + word_list<AnswerKind>() + ".");
    Answer given{*kind, word_field(request_, "method", options_.method), time_field(request_, "at"), text_field(request_, "who")};
    if (given.at.empty()) given.at = options_.now();
    if (given.who.empty()) given.who = options_.who;
    session_.answer(given);
    return "Answered '" + word + "' while tracing";
  }

  std::string undo() {
    if (!session_.undo()) throw refused("There is nothing to take back.");
    return "Took back the last answer";
  }

  std::string withdraw() {
    const auto id = parse_id(text_field(request_, "observation"));
    if (!id) throw refused("The field 'observation' must be the id of an observation.");
    session_.withdraw(Id<Observation>{*id});
    return "Took back an earlier answer";
  }

  /// A breaker that tripped and will not come on again.
  std::string stays_off() {
    const auto id = parse_id(text_field(request_, "breaker"));
    if (!id) throw refused("The field 'breaker' must be the id of a breaker.");
    session_.stays_off(Id<Breaker>{*id}, options_.now(), options_.who);
    return "A breaker went off and will not come on again";
  }

  std::string retry_skipped() {
    session_.forget_skipped();
    return "Skipped breakers may be proposed again";
  }

  void write_step() {
    const Step& step = session_.step();
    Json line{{"type", "step"}, {"step", number_}, {"kind", text_of(step.kind)}, {"reason", text_of(step.reason)}};
    line["text"] = step_text(session_.house(), step);
    Json handles = Json::array();
    for (const HandleRef& handle : step.handles)
      handles.push_back({{"ref", text_of_ref(handle)}, {"name", handle_name(session_.house(), handle)}});
    line["handles"] = handles;
    if (step.point) line["point"] = {{"id", step.point.text()}, {"name", point_name(session_.house(), step.point)}};
    if (!step.loads.empty())
      for (const Id<Load> load : step.loads) line["loads"].push_back(load.text());
    line["briefly"] = step.briefly;
    line["answers"] = Json::array();
    for (std::size_t i = 0; i < words_of(AnswerKind{}).size(); ++i)
      if (fits(step.kind, static_cast<AnswerKind>(i))) line["answers"].push_back(words_of(AnswerKind{})[i]);
    line["progress"] = progress();
    write(line);
  }

  [[nodiscard]] Json progress() const {
    const Progress now = session_.progress();
    return {{"settled", now.settled},         {"likely", now.likely}, {"dead_anyway", now.dead_anyway},
            {"unexplained", now.unexplained}, {"total", now.total},   {"minutes_left", now.minutes_left}};
  }

  void write_progress() {
    Json line = progress();
    line["type"] = "progress";
    write(line);
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
    write({{"type", "feeds"}, {"points", points}});
  }

  void write_error(const Error& error) { write({{"type", "error"}, {"kind", "invalid_input"}, {"message", error.what()}, {"step", number_}}); }

  void write(const Json& line) {
    out_ << line.dump(-1, ' ', false, nlohmann::json::error_handler_t::replace) << '\n' << std::flush;
  }

  TraceSession& session_;
  std::istream& in_;
  std::ostream& out_;
  const KeepFn& keep_;
  const TraceOptions& options_;
  Json request_;
  int number_ = 1;
};

}  // namespace

TraceEnd run_trace_lines(TraceSession& session, std::istream& in, std::ostream& out, const KeepFn& keep,
                         const TraceOptions& options) {
  return Lines(session, in, out, keep, options).run();
}

}  // namespace ohmstead
