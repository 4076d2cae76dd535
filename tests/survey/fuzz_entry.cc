// Any bytes as an entry text, on an empty house and on one that is written down already: a sound
// house or one refusal, nothing else.

#include <cstdint>
#include <cstdlib>
#include <string_view>

#include "house/error.h"
#include "house/invariants.h"
#include "survey/entry.h"
#include "survey/keystrokes.h"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  using namespace ohmstead;
  static const House written = enter_text(House{}, "Kitchen: 2r 1l sw, gfci + 1\nHall: 1l\nPanel Main 20 100A: 1 20; 2+4 30; 5a 15\nGenerator G 5 kW\n"
                                                   "Transfer T 4 positions from G: 1 15 <- Main 1").house;
  const std::string_view text(reinterpret_cast<const char*>(data), size);
  for (const House& before : {House{}, written}) {
    try {
      if (!problems_of(enter_text(before, text).house).empty()) std::abort();
      if (count_keystrokes(text) > 2 * size + 2) std::abort();
    } catch (const Error& error) {
      if (error.kind != ErrorKind::invalid_input) std::abort();
    }
  }
  return 0;
}
