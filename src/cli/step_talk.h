#pragma once
// What a session shows to a person at a terminal, step by step, and says in between.

#include <cstddef>
#include <ostream>
#include <string_view>

#include "cli/keys.h"

namespace ohmstead {

struct StepTalk {
  static constexpr std::size_t kMargin = 4;  ///< of a step, and of what is said in its place

  Keys& keys;
  std::ostream& out;

  /// Text at the usual margin, broken at the width of the terminal.
  void say(std::string_view text, std::size_t indent = 2) const;

  /// A step below a rule: how far it is (nothing where that is empty), what to do with its first line set off,
  /// the keys of this step, the keys of every step, and the prompt.
  void show(std::string_view how_far, std::string_view step, std::string_view keys_of_step, std::string_view other_keys) const;

  /// Says something in the place of a step, with the prompt; the step stays as it was shown. Always false.
  bool tell(std::string_view text) const;
};

}  // namespace ohmstead
