#include "ask/number_query.h"

#include <algorithm>
#include <array>
#include <optional>

#include "house/index.h"

namespace ohmstead::ask_detail {

namespace {

bool is_digit(char c) { return c >= '0' && c <= '9'; }
bool joins(char c) { return c == '-' || c == '+' || c == '/' || c == '&'; }

template <std::size_t N>
bool is_one_of(const std::array<std::string_view, N>& words, std::string_view word) {
  return std::ranges::find(words, word) != words.end();
}

bool means_breaker(std::string_view word) {
  static constexpr std::array<std::string_view, 7> kWords{"breaker", "circuit", "fuse", "brkr", "cb", "ckt", "b"};
  return is_one_of(kWords, word) || (word.ends_with('s') && is_one_of(kWords, word.substr(0, word.size() - 1)));
}

bool means_position(std::string_view word) {
  static constexpr std::array<std::string_view, 3> kWords{"position", "pos", "positions"};
  return is_one_of(kWords, word);
}

bool means_number(std::string_view word) {
  static constexpr std::array<std::string_view, 7> kWords{"number", "no", "nr", "num", "space", "spaces", "slot"};
  return is_one_of(kWords, word);
}

/// "9", "4a", "9-11", "13b-15a" as places; nothing if it is not a number.
std::optional<std::vector<PolePlace>> parse_places(std::string_view text) {
  std::vector<PolePlace> places;
  std::size_t at = 0;
  while (at < text.size()) {
    const std::size_t start = at;
    PolePlace place;
    for (; at < text.size() && is_digit(text[at]); ++at) {
      if (at - start >= 4) return std::nullopt;
      place.space = place.space * 10 + (text[at] - '0');
    }
    if (at == start) return std::nullopt;
    if (at < text.size() && (text[at] == 'a' || text[at] == 'b')) place.half = text[at++] == 'a' ? Half::a : Half::b;
    places.push_back(place);
    if (at == text.size()) break;
    if (!joins(text[at]) || ++at == text.size()) return std::nullopt;
  }
  return places.empty() ? std::nullopt : std::optional(places);
}

/// The text in pieces at spaces and loose punctuation, with "9 - 11" drawn together.
std::vector<std::string> pieces_of(std::string_view text) {
  std::string spaced;
  for (const char c : folded(text)) {
    const bool loose = c == ',' || c == ';' || c == ':' || c == '.' || c == '#' || c == '(' || c == ')' || c == '"';
    if (joins(c) && spaced.ends_with(' ')) spaced.pop_back();
    if ((loose || c == ' ') && (spaced.empty() || joins(spaced.back()) || spaced.back() == ' ')) continue;
    spaced += loose ? ' ' : c;
  }
  std::vector<std::string> pieces;
  std::size_t at = 0;
  while (at < spaced.size()) {
    const std::size_t end = std::min(spaced.find(' ', at), spaced.size());
    const std::string piece = spaced.substr(at, end - at);
    const bool is_half = piece == "a" || piece == "b", is_number = !piece.empty() && is_digit(piece[0]);
    const bool joined = !pieces.empty() && ((is_half && is_digit(pieces.back().back())) || (is_number && pieces.back() == "t"));
    if (joined) pieces.back() += piece;  // "16 b", "T 3"
    else if (!piece.empty()) pieces.push_back(piece);
    at = end + 1;
  }
  return pieces;
}

/// Letters in front of a number glued to it: "t" of "t3", "breaker" of "breaker12".
std::string letters_before(std::string_view piece) {
  const auto end = std::ranges::find_if_not(piece, [](char c) { return c >= 'a' && c <= 'z'; });
  return std::string(piece.begin(), end);
}

/// Reads the piece at `number` as the number and all others as words; nothing if it is none.
std::optional<NumberReading> reading_at(const std::vector<std::string>& pieces, std::size_t number) {
  NumberReading reading;
  const std::string letters = letters_before(pieces[number]);
  const auto places = parse_places(std::string_view(pieces[number]).substr(letters.size()));
  if (!places) return std::nullopt;
  reading.places = *places;
  reading.says_breaker = means_breaker(letters);
  reading.says_position = means_position(letters);
  if (!reading.says_breaker && !reading.says_position && !means_number(letters)) reading.initial = letters;
  std::string beside;
  for (std::size_t at = 0; at < pieces.size(); ++at) {
    if (at == number) continue;
    const bool breaker = means_breaker(pieces[at]), position = means_position(pieces[at]);
    reading.says_breaker = reading.says_breaker || breaker;
    reading.says_position = reading.says_position || position;
    if (!breaker && !position && !means_number(pieces[at]) && !is_loose_word(pieces[at])) beside += " " + pieces[at];
  }
  reading.beside = words_of_text(beside);
  return reading;
}

bool place_fits(const PolePlace& said, const PolePlace& place) {
  return said.space == place.space && (said.half == Half::whole || said.half == place.half);
}

/// Does `text` name this very breaker: one of its spaces, or all of them?
bool names_breaker(const std::vector<PolePlace>& said, const std::vector<PolePlace>& places) {
  if (said.size() == 1) return std::ranges::any_of(places, [&](const PolePlace& p) { return place_fits(said[0], p); });
  return std::ranges::equal(said, places, place_fits);
}

/// What of one panel or device was named. "13-15" may also be two breakers side by side.
struct Named {
  std::vector<std::size_t> at;
  int rank = 0;  ///< 1 where only several together make up what was said
};

Named named_among(const std::vector<PolePlace>& said, const std::vector<std::vector<PolePlace>>& all) {
  std::vector<std::size_t> exact, within;
  for (std::size_t i = 0; i < all.size(); ++i) {
    if (names_breaker(said, all[i])) exact.push_back(i);
    const auto is_said = [&](const PolePlace& p) {
      return std::ranges::any_of(said, [&](const PolePlace& s) { return place_fits(s, p); });
    };
    if (!all[i].empty() && std::ranges::all_of(all[i], is_said)) within.push_back(i);
  }
  if (!exact.empty() || said.size() == 1) return {exact, 0};
  const auto is_covered = [&](const PolePlace& s) {
    return std::ranges::any_of(within, [&](std::size_t i) {
      return std::ranges::any_of(all[i], [&](const PolePlace& p) { return place_fits(s, p); });
    });
  };
  return std::ranges::all_of(said, is_covered) ? Named{within, 1} : Named{};
}

class HitFinder {
 public:
  HitFinder(const House& house, const NameTable& table) : house_(house), table_(table) {}

  void look(const NumberReading& reading) {
    const Query beside = table_.query_of(reading.beside, "");
    if (reading.initial.empty() && !reading.says_position)
      for (const Panel& panel : house_.panels) look_in_panel(reading, beside, panel);
    for (const TransferDevice& device : house_.transfer_devices) look_in_device(reading, beside, device);
  }
  std::vector<NumberHit> hits;

 private:
  /// How well the words beside the number fit what holds the breaker; kNone if they do not.
  [[nodiscard]] int rank_beside(const Query& beside, const ThingRef& holder) const {
    constexpr int kNotSaid = 3;
    const Called* called = table_.row_of(holder);
    if (beside.words.empty()) return kNotSaid;
    return called == nullptr ? Rank::kNone : table_.rank(beside, *called).value;
  }

  void look_in_panel(const NumberReading& reading, const Query& beside, const Panel& panel) {
    const int rank = rank_beside(beside, {ThingKind::panel, panel.id.value});
    if (rank == Rank::kNone) return;
    std::vector<const Breaker*> breakers;
    std::vector<std::vector<PolePlace>> places;
    for (const Breaker& breaker : house_.breakers) {
      if (breaker.panel != panel.id) continue;
      breakers.push_back(&breaker);
      places.push_back(pole_places(panel, breaker));
    }
    const Named named = named_among(reading.places, places);
    for (const std::size_t at : named.at)
      hits.push_back({{ThingKind::breaker, breakers[at]->id.value}, false, rank + named.rank});
  }

  void look_in_device(const NumberReading& reading, const Query& beside, const TransferDevice& device) {
    const int rank = rank_beside(beside, {ThingKind::transfer_device, device.id.value});
    const bool by_initial = reading.initial == "t" || (!reading.initial.empty() && folded(device.name).starts_with(reading.initial));
    const bool meant = reading.says_position || (reading.initial.empty() ? !beside.words.empty() : by_initial);
    if (rank == Rank::kNone || !meant || (!reading.initial.empty() && !by_initial)) return;
    std::vector<const Position*> positions;
    std::vector<std::vector<PolePlace>> numbers;
    for (const Position& position : house_.positions) {
      if (position.device != device.id) continue;
      positions.push_back(&position);
      numbers.push_back({{position.number, Half::whole}});
    }
    const Named named = named_among(reading.places, numbers);
    for (const std::size_t at : named.at)
      hits.push_back({{ThingKind::position, positions[at]->id.value}, reading.says_breaker, rank + named.rank});
  }

  const House& house_;
  const NameTable& table_;
};

}  // namespace

std::vector<NumberReading> number_readings(std::string_view text) {
  std::vector<NumberReading> readings;
  if (text.size() > kLongestQuery) return readings;
  const std::vector<std::string> pieces = pieces_of(text);
  for (std::size_t at = 0; at < pieces.size(); ++at)
    if (auto reading = reading_at(pieces, at)) readings.push_back(std::move(*reading));
  return readings;
}

std::string number_text(const NumberReading& reading) {
  std::string text;
  for (const PolePlace& place : reading.places) {
    text += (text.empty() ? "" : "-") + std::to_string(place.space);
    if (place.half != Half::whole) text += text_of(place.half);
  }
  return text;
}

std::vector<NumberHit> number_hits(const House& house, const NameTable& table, std::string_view text) {
  HitFinder finder(house, table);
  for (const NumberReading& reading : number_readings(text)) finder.look(reading);
  return finder.hits;
}

}  // namespace ohmstead::ask_detail
