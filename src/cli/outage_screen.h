#pragma once
// Internal to the outage board at a terminal: what is shown, what is asked, and how an answer is kept beside those of other
// terminals. What each key does is in outage_terminal.cc.

#include <utility>

#include "ask/outage_words.h"
#include "cli/keys.h"
#include "cli/outage_terminal.h"

namespace ohmstead {

/// Keys that answer a step, and what they mean.
[[nodiscard]] std::string outage_answers_text(const OutageStep& step);

inline constexpr const char* kOutageKeys = "a  may I switch on ...?     s  how it stands\nu  undo     m  more     p  stop for now";
inline constexpr const char* kMoreOutageKeys =
    "o  something was switched off\n"
    "x  everything went dark: it gave up, or its breaker tripped\n"
    "b  the power from the street is back, or gone again\n"
    "h  I moved a handle on my own\n"
    "k  it stopped, runs again, or gives less than it should\n"
    "f  fuel: fill the tank, or say that it was filled\n"
    "w  write a line into the log\n"
    "l  the log";

class OutageScreen {
 public:
  OutageScreen(OutageBoard& board, std::istream& in, std::ostream& out, const KeepFn& keep, const OutageOptions& options);

 protected:
  static constexpr std::size_t kMargin = 2, kItems = 4;

  void say(std::string_view text, std::size_t indent = kMargin);
  void say_lines(const Lines& lines);
  void prompt();
  /// A question that a line answers; nothing at the end of the input.
  [[nodiscard]] std::optional<std::string> ask(const std::string& question);
  [[nodiscard]] std::optional<HandleRef> choose(const std::string& question, const std::vector<HandleRef>& handles);

  void show_step();
  [[nodiscard]] Lines status_words() const;
  /// Nobody pressed a key: is there something to show?
  [[nodiscard]] bool look_again();

  /// Another program changed the house: the board goes on from there, and what was to be answered here is asked anew.
  [[nodiscard]] bool others_went_on();
  /// Writes the board's log down; false: somebody else was first, and the answer was not taken.
  [[nodiscard]] bool kept(const std::string& what);

  /// Tells the board, keeps it, and says so; what it refuses is said, and nothing is changed. True when the step is to be shown again.
  bool tell(OutageEvent event, const std::string& what);
  /// Says something; the step stays as it was shown, so that the answer is not pushed off the screen.
  bool answered(const std::string& text);

  OutageBoard& board_;
  Names names_;
  std::ostream& out_;
  const KeepFn& keep_;
  const OutageOptions& options_;
  Keys keys_;

 private:
  /// What is urgent or soon will be, without its times and watts, which change all the while.
  [[nodiscard]] std::vector<std::pair<LineKind, std::string>> warnings() const;

  std::vector<std::pair<LineKind, std::string>> warned_;  ///< as shown last
  std::size_t lines_kept_ = 0;
};

}  // namespace ohmstead
