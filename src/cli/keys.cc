#include "cli/keys.h"

#include <poll.h>
#include <sys/ioctl.h>
#include <unistd.h>

#include <algorithm>
#include <cstdio>
#include <istream>
#include <ostream>

#include "house/invariants.h"

namespace ohmstead {

namespace {

constexpr char kCtrlC = 3, kCtrlD = 4, kEscape = 27;
constexpr int kFunctionKeyMs = 30;  ///< the bytes of one key come together
constexpr std::size_t kWidest = 78, kNarrowest = 38;

char lower(char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; }

}  // namespace

Keys::Keys(std::istream& in, std::ostream& out, bool single)
    : in_(in), out_(out), single_(single && tcgetattr(STDIN_FILENO, &before_) == 0) {
  if (!single_) return;
  keys_ = before_;
  keys_.c_lflag &= ~static_cast<tcflag_t>(ICANON | ECHO | ISIG);
  keys_.c_cc[VMIN] = 1;
  keys_.c_cc[VTIME] = 0;
  tcsetattr(STDIN_FILENO, TCSANOW, &keys_);
  std::setvbuf(stdin, nullptr, _IONBF, 0);  // so that poll sees what is still to come of a function key
}

Keys::~Keys() {
  if (single_) tcsetattr(STDIN_FILENO, TCSANOW, &before_);
}

char Keys::key(int seconds) {
  if (single_) return pressed(seconds);
  const auto text = line();
  if (!text) return kInputEnded;
  return text->empty() ? kEnterKey : lower(text->front());
}

char Keys::pressed(int seconds) {
  pollfd waiting{STDIN_FILENO, POLLIN, 0};
  if (seconds > 0 && poll(&waiting, 1, seconds * 1000) == 0) return kNoKeyYet;
  const int c = in_.get();
  if (c == std::istream::traits_type::eof() || c == kCtrlD) return kInputEnded;
  if (c == kCtrlC) return 'p';
  if (c == kEscape) {  // the left arrow ends in a D, which must not be read as 'dead'
    swallow_function_key();
    return ' ';
  }
  const char key = c == '\r' ? kEnterKey : lower(static_cast<char>(c));
  if (key > ' ') out_ << key;
  out_ << '\n' << std::flush;
  return key;
}

void Keys::swallow_function_key() {
  const auto comes = [] {
    pollfd waiting{STDIN_FILENO, POLLIN, 0};
    return poll(&waiting, 1, kFunctionKeyMs) > 0;
  };
  if (!comes()) return;
  int c = in_.get();
  if (c != '[' && c != 'O') return;
  do c = comes() ? in_.get() : std::istream::traits_type::eof();
  while (c >= ' ' && c < '@');  // its parameters; the byte after them is its last
}

std::optional<std::string> Keys::line() {
  // As a whole line, so that it can be corrected before Enter; keys again afterwards.
  if (single_) tcsetattr(STDIN_FILENO, TCSANOW, &before_);
  std::string text;
  bool ended = false;
  for (int c = in_.get(); c != '\n'; c = in_.get()) {
    ended = c == std::istream::traits_type::eof();
    if (ended) break;
    if (text.size() <= kLongestName) text += static_cast<char>(c);
  }
  if (single_) tcsetattr(STDIN_FILENO, TCSANOW, &keys_);
  if (ended && text.empty()) return std::nullopt;
  const auto first = text.find_first_not_of(" \t\r");
  return first == std::string::npos ? "" : text.substr(first, text.find_last_not_of(" \t\r") - first + 1);
}

bool Keys::can_be_bold() const { return single_ && isatty(STDOUT_FILENO) == 1; }

std::size_t Keys::columns() const {
  winsize size{};
  if (!single_ || ioctl(STDOUT_FILENO, TIOCGWINSZ, &size) != 0 || size.ws_col == 0) return kWidest;
  return std::clamp<std::size_t>(size.ws_col - std::min<std::size_t>(size.ws_col, 2U), kNarrowest, kWidest);
}

}  // namespace ohmstead
