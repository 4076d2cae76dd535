// Any words told to the outage board and asked of it, one a line: '?' may, '+' on, '-' off, '>' moved, '=' an answer, 'w' watts, '#' a note; a
// place stands behind '@'. The house stays sound, the log alone gives the same board, and every answer is one fit for a terminal.

#include <algorithm>
#include <cstdint>
#include <cstdlib>
#include <optional>
#include <string>
#include <string_view>

#include "ask/outage_ask.h"
#include "ask/outage_words.h"
#include "backup/outage_board.h"
#include "house/error.h"
#include "house/invariants.h"
#include "survey/entry.h"

namespace {

using namespace ohmstead;

constexpr const char* kTime = "2026-11-27T18:00:00Z";
constexpr int kMostLines = 24;

House flat() {
  House house;
  house.dwelling = {Id<Dwelling>{1}, "Flat"};
  return enter_text(house, "Hall: freezer 100/400 W !, 2r, 1l\nBath and guest room: oxygen concentrator 350 W !!, 2r, kettle 1500 W\n"
                           "Panel Main in Hall 12 spaces, 100 A main: 1 15; 3 15; 5 20; 2+4 20\nBy J.\nHall freezer <- Main 1\nHall receptacle 1 <- Main 5\n"
                           "Bath and guest room oxygen concentrator <- Main 3\nBath and guest room receptacle 1 <- Main 5\nBath and guest room kettle <- Main 5\n"
                           "Generator G 3600/4500 W 120/240, gasoline, 11 L tank\nTransfer T in Hall 5 positions from G: 1 15 L1 <- Main 1; 2 15 L2 <- Main 3; 3 20 L1 <- Main 5; 4+5 20 <- Main 2+4\n").house;
}

void require(bool holds) {
  if (!holds) std::abort();
}

void require_printable(const Lines& lines) {
  const auto fit = [](const std::string& text) { return std::ranges::none_of(text, [](char c) { return (c >= 0 && c < ' ') || c == '\x7f'; }); };
  for (const Line& line : lines) {
    require(fit(line.text));
    for (const std::string& item : line.items) require(fit(item));
  }
}

void tell(OutageBoard& board, OutageEvent event) {
  event.at = kTime;
  board.tell(std::move(event));
}

void take(OutageBoard& board, const Names& names, char what, std::string_view words, std::string_view at) {
  switch (what) {
    case '?': {
      const AskedInWords asked = asked_in_words(board.view(), names, words, at);
      const Lines lines = words_of_may_i(board.view(), names, asked.name, may_i(board.view(), asked.thing));
      require(!lines.empty());
      return require_printable(lines);
    }
    case '+':
    case '-': return tell(board, switched_in_words(board.view(), names, what == '+', words, at));
    case '>': return tell(board, moved_in_words(board.view(), names, words));
    case '=':
      if (const auto kind = parse_enum<OutageAnswerKind>(words)) board.answer({*kind, kTime});
      return;
    case 'w': return tell(board, {.kind = OutageEventKind::source_started, .running_watts = watts_in_words(words)});
    case '#': return tell(board, {.kind = OutageEventKind::note, .text = std::string(words)});
    case 'b': return tell(board, {.kind = OutageEventKind::utility_back});
    case 'g': return tell(board, {.kind = OutageEventKind::utility_lost});
    case 'x': return tell(board, {.kind = OutageEventKind::overload});
    default: (void)board.undo();
  }
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  static const House house = flat();
  static const Feeds feeds = declared_feeds(house);
  static const Names names(house);
  static const OutageBoard fresh(house, feeds, 0);
  OutageBoard board = fresh;
  board.begin(kTime);
  std::string_view rest(reinterpret_cast<const char*>(data), size);
  for (int lines = 0; lines < kMostLines && !rest.empty(); ++lines) {
    const std::string_view line = rest.substr(0, rest.find('\n'));
    rest.remove_prefix(std::min(rest.size(), line.size() + 1));
    if (line.empty()) continue;
    const std::size_t at = line.find('@');
    try {
      take(board, names, line.front(), line.substr(1, at == std::string_view::npos ? at : at - 1), at == std::string_view::npos ? "" : line.substr(at + 1));
    } catch (const Error& error) {
      require(std::string_view(error.what()).find_first_of("\n\x1b") == std::string_view::npos);
    }
  }
  require(problems_of(board.house()).empty());
  const OutageBoard again(board.house(), feeds, 0);
  require(again.now() == board.now() && again.step() == board.step());
  require_printable(words_of_outage_step(board.view(), names, board.step()));
  require_printable(words_of_outage_status(board.view(), outage_status(board.view(), kTime)));
  require_printable(words_of_outage_log(board.house(), names));
  return 0;
}
