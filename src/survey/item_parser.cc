#include "survey/item_parser.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "survey/entry.h"

namespace ohmstead::entry_detail {

namespace {

constexpr std::array kNumberWords = {"zero", "one", "two", "three", "four", "five", "six",
                                     "seven", "eight", "nine", "ten", "eleven", "twelve"};
constexpr std::array kPlaceWords = {"at", "by", "near", "under", "over", "above", "below", "beside", "outside",
                                    "inside", "next", "facing", "along", "between", "in", "on", "behind"};

/// A number with its unit, perhaps glued to it: "180 W", "1.2kW", "180/600 W".
struct Figure {
  double first = 0;
  std::optional<double> second;
  std::string unit;
  std::size_t words = 1;
};

std::optional<Figure> figure(const std::vector<Word>& words, std::size_t at) {
  if (at >= words.size() || words[at].quoted) return std::nullopt;
  if (words[at].text == "3w" || words[at].text == "4w") return std::nullopt;  // a 3-way, not three watts
  const std::string text = words[at].lower();
  const std::size_t end = std::min(text.find_first_not_of("0123456789./"), text.size());
  Figure result;
  result.unit = text.substr(end);
  if (result.unit.empty() && at + 1 < words.size() && !words[at + 1].quoted) {
    result.unit = words[at + 1].lower();
    result.words = 2;
  }
  constexpr std::array kUnits = {"w", "watt", "watts", "kw", "v", "volt", "volts", "a", "amp", "amps", "%"};
  if (std::ranges::find(kUnits, result.unit) == kUnits.end()) return std::nullopt;
  const std::string_view number = std::string_view(text).substr(0, end);
  const std::size_t slash = number.find('/');
  const auto first = decimal_number(number.substr(0, slash));
  if (!first) return std::nullopt;
  result.first = *first;
  if (slash != std::string_view::npos) {
    result.second = decimal_number(number.substr(slash + 1));
    if (!result.second) return std::nullopt;
  }
  return result;
}

int watts(double value, const std::string& unit) {
  return static_cast<int>(std::lround(std::min(value * (unit == "kw" ? 1000 : 1), 2'000'000.0)));
}

std::optional<Importance> importance_of(const Word& word) {
  if (word.is("low")) return Importance::low;
  if (word.is("high") || word.is("!")) return Importance::high;
  if (word.is("!!") || word.is("life-safety")) return Importance::life_safety;
  return std::nullopt;
}

std::string singular(const KindWord* kind, const std::string& typed) {
  return kind == nullptr ? typed : std::string(kind->name);
}

}  // namespace

ItemSpec ItemParser::run() {
  while (take("+")) {}
  if (const auto count = take_count()) item_.count = *count;
  take_adjectives();
  take_kind();
  take_numbers();
  while (more()) take_mark();
  check();
  return item_;
}

std::optional<int> ItemParser::take_count() {
  if (!more() || words_[at_].quoted || figure_at(at_)) return std::nullopt;
  std::string word = words_[at_].lower();
  std::optional<int> count;
  const auto named = std::ranges::find(kNumberWords, word);
  if (named != kNumberWords.end()) count = static_cast<int>(named - kNumberWords.begin());
  if (word == "a" || word == "an") count = 1;
  if (word.size() > 1 && word.ends_with('x')) word.pop_back();
  if (!count) count = whole_number(word);
  if (!count) return std::nullopt;
  if (*count < 1 || *count > kMostOfOneItem)
    draft_.fail("the count " + shown(words_[at_].text) + " must be from 1 to " + std::to_string(kMostOfOneItem) + ".");
  ++at_;
  return count;
}

void ItemParser::take_adjectives() {
  for (bool again = true; again && more();) {
    again = take_halves();
    if (!again && take("switched")) {
      item_.on_switch.handles = 1;
      again = true;
    }
    if (!again && take("gfci")) {
      item_.gfci = again = true;
    }
    if (!again) again = take_rating();
  }
}

bool ItemParser::take_rating() {
  const auto found = figure(words_, at_);
  if (!found || !found->unit.starts_with('a')) return false;
  const std::string text = joined(words_, at_, at_ + found->words);
  if (found->second || !is_receptacle_rating(found->first)) draft_.fail(shown(text) + " is not a rating of a receptacle; expected is 15 A, 20 A, 30 A, 50 A or 60 A.");
  item_.rating_amps = static_cast<int>(found->first);
  at_ += found->words;
  return true;
}

bool ItemParser::take_halves() {
  Halves halves = Halves::none;
  const std::size_t before = at_;
  if (take("split")) halves = Halves::split;
  else if (take("half-hot") || take("half-switched")) halves = Halves::upper_switched;
  else if (is("half") && (is("hot", 1) || is("switched", 1))) {
    at_ += 2;
    halves = Halves::upper_switched;
  }
  if (halves == Halves::upper_switched && take("lower")) halves = Halves::lower_switched;
  if (halves == Halves::upper_switched && take("upper")) halves = Halves::upper_switched;
  if (halves != Halves::none) item_.halves = halves;
  return at_ != before;
}

void ItemParser::take_kind() {
  const std::size_t first = at_;
  std::size_t end = first;
  while (end < words_.size() && !mark_at(end, end > first)) ++end;
  const std::string typed = joined(words_, first, end);
  at_ = end;
  if (end == first) {
    if (!item_.gfci && item_.halves == Halves::none)
      draft_.fail(more() ? "at " + shown(rest()) + " a thing is expected, such as 'receptacle' or 'dishwasher'."
                         : std::string("a thing is expected after the count, such as '4 receptacles'."));
    item_.kind = find_kind("receptacle");
  }
  std::string own_words;
  for (std::size_t from = first; from < end && item_.kind == nullptr; ++from) {
    item_.kind = end == first + 1 ? find_short_kind(lower(typed)) : nullptr;
    if (item_.kind == nullptr) item_.kind = find_kind(joined(words_, from, end));
    if (item_.kind != nullptr) own_words = joined(words_, first, from);
  }
  const std::string base = item_.gfci && item_.kind != nullptr && own_words.empty() ? "GFCI receptacle" : singular(item_.kind, typed);
  item_.name = own_words.empty() ? base : own_words + " " + base;
  item_.load.kind = item_.kind;
  item_.load.name = item_.name;
}

void ItemParser::take_numbers() {
  if (!more() || figure_at(at_)) return;
  if (words_[at_].quoted) {
    item_.name = words_[at_++].text;
    item_.exact_name = true;
    if (item_.name.empty()) draft_.fail("the name in quotes is empty.");
    return;
  }
  const auto ends = split(words_[at_].text, "-");
  const auto low = whole_number(ends.front());
  const auto high = ends.size() == 2 ? whole_number(ends.back()) : low;
  if (!low || !high || ends.size() > 2) return;
  if (item_.count != 1) draft_.fail("either a count in front or numbers behind: " + shown(words_[at_].text) + " is one too many.");
  if (*low < 1 || *high < *low || *high - *low >= kMostOfOneItem || *high > 9999)
    draft_.fail("the numbers " + shown(words_[at_].text) + " are not a range such as 3-6.");
  item_.first_number = *low;
  item_.count = *high - *low + 1;
  ++at_;
}

void ItemParser::take_mark() {
  if (take("+")) return take_downstream();
  if (is("<-")) {
    item_.declared = parse_declared(draft_, words_, at_ + 1);
    at_ = words_.size();
    return;
  }
  if (is("with")) return take_with();
  if (take_rating() || take_load_mark(item_.load) || take_halves() || take_switch()) return;
  if (take("gfci")) {
    item_.gfci = true;
    return;
  }
  if (take("3-phase")) {
    item_.hots = 3;
    return;
  }
  if (take("box")) {
    if (!more() || words_[at_].text.empty()) draft_.fail("after 'box' its name is expected, as in 'box \"sink box\"'.");
    item_.box = words_[at_++].text;
    return;
  }
  if (is("behind") && !is("the", 1)) {
    const std::size_t first = ++at_;
    while (more() && !(strong_mark_at(at_) && !words_[at_].quoted)) ++at_;
    item_.behind = joined(words_, first, at_);
    if (item_.behind.empty()) draft_.fail("after 'behind' a device is expected, such as 'behind Bath gfci'.");
    return;
  }
  if (take_place()) return;
  draft_.fail("I do not understand " + shown(words_[at_].text) + " in " + shown(joined(words_, 0, words_.size())) +
              "; expected is watts, a switch, a place ('at the sink') or another mark, or a comma before the next thing.");
}

bool ItemParser::take_load_mark(LoadSpec& load) {
  if (!more()) return false;
  if (take_figure(load)) return true;
  if (const auto importance = importance_of(words_[at_])) {
    load.importance = importance;
    ++at_;
    return true;
  }
  if (is("life") && is("safety", 1)) {
    load.importance = Importance::life_safety;
    at_ += 2;
    return true;
  }
  if (take("nameplate")) load.basis = FigureBasis::nameplate;
  else if (take("measured")) load.basis = FigureBasis::measured;
  else if (take("hurt")) load.hurt = true;
  else return false;
  return true;
}

bool ItemParser::take_figure(LoadSpec& load) {
  const auto found = figure(words_, at_);
  if (!found) return false;
  const std::string text = joined(words_, at_, at_ + found->words);
  at_ += found->words;
  if (found->unit.starts_with('a')) draft_.fail("at " + shown(text) + " watts are expected; amperes stand for what is stamped on a receptacle, and before 'with'.");
  if (found->unit == "%") {
    if (found->first > 100 || found->second) draft_.fail("the share of the time " + shown(text) + " must be from 0 to 100 %.");
    load.duty_percent = static_cast<int>(std::lround(found->first));
  } else if (found->unit.starts_with('v')) {
    constexpr std::array kOneHot = {120.0, 230.0, 115.0, 110.0};
    constexpr std::array kTwoHots = {240.0, 208.0, 220.0};
    if (std::ranges::find(kOneHot, found->first) != kOneHot.end()) item_.hots = 1;
    else if (std::ranges::find(kTwoHots, found->first) != kTwoHots.end()) item_.hots = 2;
    else draft_.fail(shown(text) + " is not a voltage of a house; expected is 120 V, 208 V, 230 V or 240 V.");
  } else {
    load.running_watts = watts(found->first, found->unit);
    if (found->second) load.starting_watts = watts(*found->second, found->unit);
    if (*load.running_watts <= 0) draft_.fail(shown(text) + ": a thing draws 1 W or more; leave the watts away where they are not known.");
    if (*load.running_watts > 1'000'000 || load.starting_watts.value_or(0) > 1'000'000)
      draft_.fail(shown(text) + " is more than a house can have; watts go up to 1000000.");
    if (load.starting_watts && *load.starting_watts < *load.running_watts)
      draft_.fail(shown(text) + ": fewer watts to start than to run; write running/starting.");
  }
  return true;
}

bool ItemParser::figure_at(std::size_t i) const { return figure(words_, i).has_value(); }

bool ItemParser::take_place() {
  const bool two_words = (is("left") || is("right")) && is("of", 1);
  const bool known = std::ranges::any_of(kPlaceWords, [&](const char* word) { return is(word); });
  if (!known && !two_words) return false;
  const std::size_t first = at_++;
  while (more() && !strong_mark_at(at_)) ++at_;
  if (at_ == first + 1) draft_.fail("after " + shown(words_[first].text) + " a place is expected, as in 'at the sink'.");
  if (!item_.place.empty()) item_.place += ", ";
  item_.place += joined(words_, first, at_);
  return true;
}

void ItemParser::check() {
  const bool a_receptacle = item_.kind != nullptr && item_.kind->kind == PointKind::receptacle;
  if (item_.kind == nullptr && !item_.load.running_watts && !item_.hots) {
    const auto near = nearest_kind_word(item_.name);
    draft_.fail(shown(item_.name) + " is not a thing I know" + (near ? " (" + *near + "?)" : "") +
                "; if it is one, give its watts, as in 'kiln 5 kW'.");
  }
  if ((item_.gfci || item_.halves != Halves::none) && !a_receptacle)
    draft_.fail("only a receptacle can be " + std::string(item_.gfci ? "a GFCI" : "split") + ", not " + shown(item_.name) + ".");
  if (item_.rating_amps > 0 && !a_receptacle) draft_.fail("only a receptacle is rated in amperes here, not " + shown(item_.name) + "; what a thing draws is given in watts.");
  if (item_.gfci && item_.halves != Halves::none) draft_.fail("a GFCI receptacle cannot be split.");
  if (!item_.downstream.empty() && (!item_.gfci || item_.count != 1))
    draft_.fail("what is downstream can be written behind one GFCI receptacle only, as in 'gfci + 3 downstream'.");
  if (item_.exact_name && item_.count != 1) draft_.fail("one name in quotes cannot be shared by " + std::to_string(item_.count) + " points.");
  if (item_.halves != Halves::none && item_.hots.value_or(1) != 1) draft_.fail("a half of a split receptacle has one hot conductor.");
  if (item_.halves == Halves::split && item_.on_switch.handles != 0)
    draft_.fail("a split receptacle with a switch is written 'half-hot receptacle'.");
}

ItemSpec parse_item(const Draft& draft, const std::vector<Word>& words) { return ItemParser(draft, words).run(); }

}  // namespace ohmstead::entry_detail
