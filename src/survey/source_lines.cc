// Lines for sources: 'Generator G 3600/4500 W, 30 A inlet, gasoline, 11 L tank, uses 0.9/1.4/2/2.7 L/h'.

#include <algorithm>
#include <cmath>

#include "house/index.h"
#include "survey/line_kinds.h"
#include "survey/text_lines.h"

namespace ohmstead::entry_detail {

namespace {

constexpr double kMlInGallon = 3785.411784;  // US gallon: 231 cubic inches by definition
constexpr double kMlInCubicFoot = 28316.846592;

/// "3500/4500 W", "30A", "0.9/1.4/2/2.7 L/h": numbers and their unit in small letters.
struct Quantity {
  std::vector<double> numbers;
  std::string unit;
};

std::optional<Quantity> quantity_at(const std::vector<Word>& words, std::size_t at, std::size_t& used) {
  if (at >= words.size() || words[at].quoted) return std::nullopt;
  const std::string text = words[at].lower();
  const std::size_t end = std::min(text.find_first_not_of("0123456789./"), text.size());
  Quantity quantity{{}, text.substr(end)};
  used = 1;
  if (quantity.unit.empty() && at + 1 < words.size()) quantity.unit = words[at + 1].lower(), used = 2;
  for (const std::string& part : split(std::string_view(text).substr(0, end), "/")) {
    const auto number = decimal_number(part);
    if (!number) return std::nullopt;
    quantity.numbers.push_back(*number);
  }
  static constexpr std::string_view kUnits[] = {"w", "kw", "wh", "kwh", "a", "amp", "amps", "l", "liter", "liters", "gal", "gallon", "gallons",
                                                "l/h", "gal/h", "ft3/h"};
  if (quantity.numbers.empty() || std::ranges::find(kUnits, std::string_view(quantity.unit)) == std::end(kUnits)) return std::nullopt;
  return quantity;
}

class SourceWords {
 public:
  SourceWords(const Draft& draft, const std::vector<Word>& words, Source& source, std::size_t at) : draft_(draft), words_(words), source_(source), at_(at) {}

  void read() {
    std::size_t used = 0;
    while (at_ < words_.size()) {
      if (is_output()) continue;
      if (const auto quantity = quantity_at(words_, at_, used)) {
        at_ += used;
        take(*quantity);
      } else {
        take_word();
      }
    }
  }

 private:
  [[nodiscard]] bool next_is(std::initializer_list<const char*> any) const {
    return at_ < words_.size() && std::ranges::any_of(any, [&](const char* word) { return words_[at_].is(word); });
  }
  bool take_if(std::initializer_list<const char*> any) { return next_is(any) ? ++at_, true : false; }
  [[noreturn]] void fail(const std::string& what) const { draft_.fail("source " + shown(source_.name) + ": " + what); }
  [[nodiscard]] static int whole(double value) { return static_cast<int>(std::lround(std::min(value, 9'999'999.0))); }

  bool is_output() {
    if (!next_is({"120/240", "full"})) return false;
    source_.output = SourceOutput::full;
    ++at_;
    return true;
  }

  void take(const Quantity& quantity) {
    const std::string& unit = quantity.unit;
    if (unit == "w" || unit == "kw") take_watts(quantity, unit == "kw" ? 1000 : 1);
    else if (unit == "wh" || unit == "kwh") source_.capacity_wh = whole(one(quantity) * (unit == "kwh" ? 1000 : 1));
    else if (unit.starts_with("a")) take_amps(whole(one(quantity)));
    else if (unit.ends_with("/h")) take_use(quantity, unit == "l/h" ? 1000 : unit == "gal/h" ? kMlInGallon : kMlInCubicFoot / 1000);
    else source_.tank_ml = whole(one(quantity) * (unit.starts_with("l") ? 1000 : kMlInGallon)), (void)take_if({"tank"});
  }

  [[nodiscard]] double one(const Quantity& quantity) const {
    if (quantity.numbers.size() != 1) fail("one number of " + shown(quantity.unit) + " is expected, not " + std::to_string(quantity.numbers.size()) + ".");
    return quantity.numbers.front();
  }

  void take_watts(const Quantity& quantity, double factor) {
    if (std::ranges::any_of(quantity.numbers, [&](double number) { return whole(number * factor) <= 0; }))
      fail("it gives more than 0 W; write down what stands on its nameplate, such as 3600/4500 W.");
    if (next_is({"a", "per", "each", "on"}) && at_ + 1 < words_.size()) {
      at_ += words_[at_].is("on") ? 3 : 2;
      source_.leg_watts = whole(one(quantity) * factor);
      return;
    }
    if (quantity.numbers.size() > 2) fail("running and starting watts are expected, such as 3600/4500 W.");
    source_.running_watts = whole(quantity.numbers.front() * factor);
    source_.starting_watts = whole(quantity.numbers.back() * factor);
  }

  void take_amps(int amps) {
    if (amps <= 0) fail("an inlet or a cord is rated for more than 0 A.");
    if (take_if({"inlet"})) source_.inlet_amps = amps;
    else if (take_if({"cord"})) source_.cord_amps = amps;
    else fail("say what is rated " + std::to_string(amps) + " A: '" + std::to_string(amps) + " A inlet' or '" + std::to_string(amps) + " A cord'.");
  }

  /// Fuel an hour at 25, 50, 75 and 100 % of the load; or at half load and at full load; or at one of them.
  void take_use(const Quantity& quantity, double factor) {
    int* const uses[] = {&source_.use_25_ml_h, &source_.use_50_ml_h, &source_.use_75_ml_h, &source_.use_100_ml_h};
    const auto& n = quantity.numbers;
    if (n.size() == 4)
      for (std::size_t i = 0; i < 4; ++i) *uses[i] = whole(n[i] * factor);
    else if (n.size() == 2) *uses[1] = whole(n[0] * factor), *uses[3] = whole(n[1] * factor);
    else if (n.size() == 1) *uses[load_quarter() - 1] = whole(n[0] * factor);
    else fail("fuel an hour is expected at 25/50/75/100 % of the load, such as 'uses 0.9/1.4/2/2.7 L/h', or 'uses 1.4 L/h at 50 %'.");
  }

  /// 'at 50 %', 'at half load', 'at full load': 1..4 quarters.
  int load_quarter() {
    if (!take_if({"at"})) return 2;
    const std::string text = at_ < words_.size() ? words_[at_++].lower() : "";
    (void)take_if({"%", "percent", "load"});
    if (text == "half") return 2;
    if (text == "full") return 4;
    const auto percent = whole_number(text.substr(0, text.find('%')));
    if (!percent || *percent % 25 != 0 || *percent < 25 || *percent > 100) fail("after 'at' 25, 50, 75 or 100 % of the load is expected, not " + shown(text) + ".");
    return *percent / 25;
  }

  void take_word() {
    const Word& word = words_[at_++];
    if (word.is("one")) source_.output = SourceOutput::one_leg;
    else if (word.is("bridged") || word.is("both")) source_.output = SourceOutput::one_120_both_legs;
    else if (word.is("bonded")) source_.neutral = NeutralBond::bonded;
    else if (word.is("floating")) source_.neutral = NeutralBond::floating;
    else if (word.is("gasoline") || word.is("petrol")) source_.fuel = Fuel::gasoline;
    else if (word.is("diesel")) source_.fuel = Fuel::diesel;
    else if (word.is("propane")) source_.fuel = Fuel::propane;
    else if (word.is("natural")) source_.fuel = Fuel::natural_gas, (void)take_if({"gas"});
    else if (word.is("inlet") || word.is("cord")) take_rated(word.is("inlet"));
    else if (!is_filler(word))
      draft_.fail("I do not understand " + shown(word.text) + " of source " + shown(source_.name) +
                  "; expected is '3500/4500 W', '120/240', 'one leg', 'both legs bridged', '1800 W a leg', '30 A inlet', '30 A cord', 'floating neutral', "
                  "'gasoline', '11 L tank', 'uses 0.9/1.4/2/2.7 L/h' or '5 kWh'.");
  }

  void take_rated(bool inlet) {
    std::size_t used = 0;
    const auto quantity = quantity_at(words_, at_, used);
    if (!quantity || !quantity->unit.starts_with("a")) fail("after '" + std::string(inlet ? "inlet" : "cord") + "' its rating is expected, such as 30 A.");
    at_ += used;
    if (whole(one(*quantity)) <= 0) fail("an inlet or a cord is rated for more than 0 A.");
    (inlet ? source_.inlet_amps : source_.cord_amps) = whole(one(*quantity));
  }

  [[nodiscard]] static bool is_filler(const Word& word) {
    static constexpr const char* kFillers[] = {",", "leg", "legs", "v", "output", "neutral", "tank", "uses", "use", "and", "fuel"};
    return std::ranges::any_of(kFillers, [&](const char* filler) { return word.is(filler); });
  }

  const Draft& draft_;
  const std::vector<Word>& words_;
  Source& source_;
  std::size_t at_;
};

/// Words before the first number that is understood are the name, but for those that can only be a number gone wrong: "-5", "3600/-4500", a lone "W".
bool is_no_name(const Word& word) {
  const std::string text = word.lower();
  const bool digit = std::ranges::any_of(text, [](char c) { return c >= '0' && c <= '9'; });
  return !word.quoted && (text == "w" || text == "kw" || (digit && (text.front() == '-' || text.find('/') != std::string::npos)));
}

/// The source of this name; written again, it gets what is new. Else a fresh one.
Source& source_named(Draft& draft, const std::string& name, SourceKind kind) {
  for (Source& known : draft.house.sources)
    if (lower(known.name) == lower(name)) {
      known.kind = kind;
      return known;
    }
  if (draft.house.sources.size() >= 20) draft.fail("there are more than 20 sources.");
  draft.house.sources.push_back({.id = Id<Source>::fresh(), .name = name, .kind = kind});
  return draft.house.sources.back();
}

}  // namespace

void enter_source(Draft& draft, const Line& line) {
  const std::vector<Word> words = words_of(line.number, line.text, ",");
  std::size_t at = 1, used = 0;
  while (at < words.size() && !words[at].is(",") && !quantity_at(words, at, used)) ++at;
  const std::string name = joined(words, 1, at);
  if (name.empty()) draft.fail("behind " + shown(words.front().text) + " its name is expected, as in 'Generator G 3500/4500 W'.");
  for (std::size_t i = 1; i < at; ++i)
    if (is_no_name(words[i]))
      draft.fail("source " + shown(joined(words, 1, i)) + ": " + shown(words[i].text) + " is not understood; behind the name its running and starting "
                 "watts are expected, more than 0, such as 'Generator G 3600/4500 W'.");
  Source& source = source_named(draft, name, words.front().is("battery") ? SourceKind::battery_inverter : SourceKind::generator);
  SourceWords(draft, words, source, at).read();
  const std::string watts = std::to_string(source.running_watts) + " W to run, " + std::to_string(source.starting_watts) + " W to start.";
  draft.said.push_back("Source " + source.name + ": " + (source.running_watts > 0 ? watts : "its watts are not written down yet; read them from its nameplate."));
}

}  // namespace ohmstead::entry_detail
