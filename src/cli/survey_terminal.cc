#include "cli/survey_terminal.h"

#include <istream>
#include <optional>
#include <ostream>

#include "cli/wrapped.h"
#include "house/error.h"
#include "survey/entry.h"

namespace ohmstead {

namespace {

/// One line without its Enter; nothing at the end of the input. What is longer than a line may be
/// is cut just behind the limit, so that it is refused and not kept in memory.
std::optional<std::string> read_line(std::istream& in) {
  std::string line;
  char c = 0;
  while (in.get(c)) {
    if (c == '\n') return line;
    if (line.size() <= kLongestEntryLine) line += c;
  }
  return line.empty() ? std::nullopt : std::optional(line);
}

std::string without_return(std::string line) {
  if (line.ends_with('\r')) line.pop_back();
  while (!line.empty() && line.back() == ' ') line.pop_back();
  return line;
}

class SurveyTerminal {
 public:
  SurveyTerminal(WalkThrough& survey, std::istream& in, std::ostream& out, const KeepFn& keep)
      : survey_(survey), in_(in), out_(out), keep_(keep) {}

  SurveyEnd run() {
    out_ << "One line an answer; everything answered is saved.\n"
            "'?' explains, 'u' takes the last answer back, 'done' goes on, 'q' stops.\n";
    while (!survey_.done()) {
      ask();
      const auto line = read_line(in_);
      if (!line) return stop("\nThe input ended. ", SurveyEnd::input_ended);
      const std::string words = without_return(*line);
      if (words == "q" || words == "quit" || words == "pause") return stop("Stopped. ", SurveyEnd::paused);
      take(words);
    }
    out_ << "Written down: " << counts() << ". Next: ohmstead trace\n";
    return SurveyEnd::done;
  }

 private:
  void ask() {
    const WalkQuestion question = survey_.question();
    out_ << '\n' << wrapped(question.ask, 0) << '\n' << wrapped("(Enter: " + question.empty + ")", 2) << "\n> " << std::flush;
  }

  void take(const std::string& words) {
    if (words == "?" || words == "help") {
      out_ << wrapped(survey_.question().help, 2) << '\n';
    } else if (words == "u" || words == "undo") {
      undo();
    } else if (words == "done") {
      survey_.skip();
    } else {
      answer(words);
    }
  }

  void answer(const std::string& words) {
    const std::string asked = survey_.question().ask;
    const House before = survey_.house();
    try {
      for (const std::string& said : survey_.answer(words)) out_ << wrapped(said, 2) << '\n';
    } catch (const Error& error) {
      out_ << wrapped(std::string("Not taken: ") + error.what(), 2) << '\n';
      return;
    }
    if (survey_.house() != before) keep_("survey: " + asked, survey_.house());
  }

  void undo() {
    const House before = survey_.house();
    if (!survey_.undo()) {
      out_ << "  There is no answer to take back.\n";
      return;
    }
    if (survey_.house() != before) keep_("survey: took the last answer back", survey_.house());
    out_ << "  Taken back.\n";
  }

  SurveyEnd stop(const char* why, SurveyEnd end) {
    out_ << why << "Every answer given is saved (" << counts() << "). Run the survey again to go on.\n";
    return end;
  }

  [[nodiscard]] std::string counts() const {
    const House& house = survey_.house();
    const auto some = [](std::size_t count, const std::string& noun) {
      return std::to_string(count) + " " + noun + (count == 1 ? "" : "s");
    };
    return some(house.rooms.size(), "room") + ", " + some(house.points.size(), "point") + ", " + some(house.breakers.size(), "breaker");
  }

  WalkThrough& survey_;
  std::istream& in_;
  std::ostream& out_;
  const KeepFn& keep_;
};

}  // namespace

SurveyEnd run_survey_terminal(WalkThrough& survey, std::istream& in, std::ostream& out, const KeepFn& keep) {
  return SurveyTerminal(survey, in, out, keep).run();
}

}  // namespace ohmstead
