#include "cli/step_talk.h"

#include <algorithm>
#include <string>

#include "cli/wrapped.h"

namespace ohmstead {

void StepTalk::say(std::string_view text, std::size_t indent) const { out << wrapped(text, indent, keys.columns()) << '\n'; }

void StepTalk::show(std::string_view how_far, std::string_view step, std::string_view keys_of_step, std::string_view other_keys) const {
  out << '\n' << std::string(keys.columns(), '-') << '\n';
  if (!how_far.empty()) {
    say(how_far, 0);
    out << '\n';
  }
  const std::size_t first = std::min(step.find('\n'), step.size());
  out << (keys.can_be_bold() ? "\x1b[1m" : "");
  say(step.substr(0, first), kMargin);
  out << (keys.can_be_bold() ? "\x1b[0m" : "");
  if (first < step.size()) say(step.substr(first + 1), kMargin);
  out << '\n';
  say(keys_of_step);
  say(other_keys);
  out << "> " << std::flush;
}

bool StepTalk::tell(std::string_view text) const {
  out << '\n';
  say(text, kMargin);
  out << "> " << std::flush;
  return false;
}

}  // namespace ohmstead
