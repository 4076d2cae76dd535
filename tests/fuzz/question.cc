// Any words as questions, a line each, in one sitting: an answer or a question back, printable lines, and never a yes where it can hurt.

#include <cstdint>
#include <cstdlib>
#include <string_view>

#include "ask/ask.h"
#include "ask/notes.h"
#include "ask/printable.h"
#include "ask/search_words.h"
#include "house/error.h"
#include "house/invariants.h"
#include "tests/fuzz/small_house.h"

namespace {

using namespace ohmstead;

Record flat() {
  House house = fuzz::small_house("Kitchen", {1, 9, 11, 12});
  house.points = {{{30}, {3}, {}, "light", "", PointKind::light},
                  {{31}, {3}, {}, "receptacle 1"},
                  {{32}, {4}, {}, "freezer", "", PointKind::appliance},
                  {{33}, {4}, {}, "dishwasher", "", PointKind::appliance}};
  house.loads = {{.id = {40}, .point = {32}, .name = "freezer", .running_watts = 100, .starting_watts = 400}};
  house.declared_feeds = {{.id = {50}, .point = {32}, .breaker = {22}}, {.id = {51}, .point = {30}, .breaker = {22}}};
  house.notes = {{.id = {60}, .text = "Gas shut-off: east wall"},
                 {.id = {61}, .about = {ThingKind::point, 32}, .text = "keep it shut", .is_private = true}};
  if (!problems_of(house).empty()) std::abort();
  return make_record(house);
}

void check(const AskAnswer& answer) {
  if (answer.lines.empty() || (answer.kind == QuestionKind::danger && answer.yes)) std::abort();
  for (const Line& line : answer.lines) {
    const bool yes = line.text.starts_with("Yes");
    if (line.text.empty() || (yes && answer.kind != QuestionKind::circuit) || terminal::printable(line.text).find('\n') != std::string::npos)
      std::abort();
  }
  if (answer.asks_back == answer.yes && answer.asks_back) std::abort();
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  static const Record record = flat();
  static const Names names(record.house);
  std::string_view text(reinterpret_cast<const char*>(data), size);
  (void)search_words(text);
  try {
    if (!problems_of(with_note(record.house, {.text = std::string(text)})).empty()) std::abort();
  } catch (const Error&) {  // no words, or too many
  }
  Sitting sitting;
  for (int lines = 0; !text.empty() && lines < 8; ++lines) {
    const std::size_t end = std::min(text.find('\n'), text.size());
    check(answer_question({record, names, "2026-01-01T00:00:00Z"}, sitting, text.substr(0, end)));
    text.remove_prefix(std::min(end + 1, text.size()));
  }
  return 0;
}
