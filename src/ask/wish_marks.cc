#include "ask/wish_marks.h"

#include <algorithm>
#include <charconv>
#include <cmath>

#include "ask/printable.h"
#include "house/error.h"
#include "house/utf8.h"

namespace ohmstead::wish_detail {

namespace {

constexpr double kMostNumber = 1'000'000;

std::string small(std::string_view text) {
  std::string out(text);
  for (char& c : out)
    if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
  return out;
}

/// Words and commas.
std::vector<std::string> words_in(std::string_view text) {
  std::vector<std::string> words(1);
  for (const char c : text) {
    if (c == ',' || c == ' ' || c == '\t') {
      if (!words.back().empty()) words.emplace_back();
      if (c == ',') words.back() = ",", words.emplace_back();
    } else {
      words.back() += c;
    }
  }
  if (words.back().empty()) words.pop_back();
  return words;
}

std::optional<double> number_in(std::string_view text) {
  double value = 0;
  if (text.empty() || (text[0] != '.' && (text[0] < '0' || text[0] > '9'))) return std::nullopt;
  const auto [end, failed] = std::from_chars(text.data(), text.data() + text.size(), value, std::chars_format::fixed);
  if (failed != std::errc() || end != text.data() + text.size() || value > 1e9) return std::nullopt;
  return value;
}

/// "100/400W", "1.2 kW", "33%", "8h", "1/2 hp": numbers and a unit.
struct Quantity {
  double first = 0;
  std::optional<double> second;
  std::string unit;
  std::size_t used = 1;
};

class Reader {
 public:
  explicit Reader(const std::string& wish) : wish_(wish), words_(words_in(wish)) {}

  Marks read() {
    if (is(0, "not") || is(0, "never")) marks_.use = LoadUse::not_wanted, ++at_;
    while (at_ < words_.size() && !mark()) take_name();
    while (at_ < words_.size())
      if (!mark()) fail(words_[at_]);
    if (marks_.thing.empty()) throw Error(ErrorKind::invalid_input, quoted(wish_) + ": what is wished for is missing; begin with the thing, as in 'freezer 100/400 W'.");
    return marks_;
  }

 private:
  [[nodiscard]] bool is(std::size_t at, std::string_view word) const { return at < words_.size() && small(words_[at]) == word; }
  [[noreturn]] void fail(const std::string& word) const {
    throw Error(ErrorKind::invalid_input, "In the wish " + quoted(wish_) + " I do not understand " + quoted(word) +
                                              "; expected is such as '100/400 W', 'nameplate', 'on demand', 'life safety', 'duty 33 %' or 'off at most 8 h'.");
  }
  void take_name() {
    marks_.thing += (marks_.thing.empty() ? "" : " ") + words_[at_++];
  }
  bool take(std::initializer_list<std::string_view> phrase) {
    std::size_t at = at_;
    for (const std::string_view word : phrase)
      if (!is(at++, word)) return false;
    at_ = at;
    return true;
  }

  [[nodiscard]] std::optional<Quantity> quantity(std::size_t at) const {
    if (at >= words_.size()) return std::nullopt;
    const std::string text = small(words_[at]);
    const std::size_t end = std::min(text.find_first_not_of("0123456789./"), text.size()), slash = text.find('/');
    Quantity found{.unit = text.substr(end)};
    if (found.unit.empty() && at + 1 < words_.size()) found.unit = small(words_[at + 1]), found.used = 2;
    const auto first = number_in(std::string_view(text).substr(0, std::min(slash, end)));
    if (!first) return std::nullopt;
    found.first = *first;
    if (slash < end) {
      found.second = number_in(std::string_view(text).substr(slash + 1, end - slash - 1));
      if (!found.second) return std::nullopt;
    }
    return found;
  }

  /// Takes a mark; false where none begins.
  bool mark() { return take({","}) || figure() || use() || importance() || basis() || manner(); }

  bool figure() {
    const auto found = quantity(at_);
    if (!found) return false;
    const std::string& unit = found->unit;
    if (found->first <= 0 || (found->second && *found->second <= 0)) fail(words_[at_]);
    if (unit == "w" || unit == "watts" || unit == "watt" || unit == "kw") {
      const double factor = unit == "kw" ? 1000 : 1;
      if (marks_.running) fail(words_[at_]);  // said twice
      marks_.running = whole(found->first * factor);
      if (found->second) marks_.starting = whole(*found->second * factor);
    } else if (unit == "a" || unit == "amps" || unit == "amp") {
      marks_.full_load_deciamps = whole(found->first * 10);
    } else if (unit == "hp") {
      marks_.horsepower_hundredths = whole(100 * (found->second ? found->first / std::max(*found->second, 1e-9) : found->first));
    } else if (unit == "%") {
      marks_.duty = percent(found->first);
    } else {
      return false;
    }
    at_ += found->used;
    (void)take({"duty"});
    return true;
  }

  bool use() {
    if (take({"on", "demand"}) || take({"on-demand"}) || take({"now", "and", "then"})) return marks_.use = LoadUse::on_demand, true;
    if (take({"not", "wanted"})) return marks_.use = LoadUse::not_wanted, true;
    if (take({"together"}) || take({"with", "the", "others"})) return marks_.use = LoadUse::together, true;
    return false;
  }

  bool importance() {
    const std::size_t before = at_;
    std::optional<Importance> said;
    if (take({"!!"}) || take({"life", "safety"}) || take({"life-safety"})) said = Importance::life_safety;
    else if (take({"!"}) || take({"high"}) || take({"important"})) said = Importance::high;
    else if (take({"normal"})) said = Importance::normal;
    else if (take({"low"})) said = Importance::low;
    else return false;
    if (marks_.importance && marks_.importance != said) fail(words_[before]);  // two that differ
    marks_.importance = said;
    return true;
  }

  bool basis() {
    if (take({"nameplate"})) return marks_.basis = FigureBasis::nameplate, true;
    if (take({"measured"})) return marks_.basis = FigureBasis::measured, true;
    if (take({"guess"}) || take({"guessed"})) return marks_.basis = FigureBasis::guess, true;
    return false;
  }

  bool manner() {
    if (take({"continuous"})) return marks_.continuous = true;
    if (take({"starts", "itself"}) || take({"starts", "by", "itself"}) || take({"self-starting"})) return marks_.starts_itself = true;
    if (take({"hurt"})) return (void)(take({"by", "a", "power", "loss"}) || take({"by", "power", "loss"})), marks_.hurt = true;
    if (is(at_, "code") && at_ + 1 < words_.size() && words_[at_ + 1].size() == 1) return marks_.code_letter = capital(words_[at_ + 1]), at_ += 2, true;
    if (is(at_, "pf") || (is(at_, "power") && is(at_ + 1, "factor"))) return power_factor();
    if (is(at_, "duty")) return duty();
    return off_time();
  }

  bool power_factor() {
    at_ += is(at_, "pf") ? 1 : 2;
    const auto value = at_ < words_.size() ? number_in(words_[at_]) : std::nullopt;
    if (!value || *value <= 0 || *value > 1) fail(at_ < words_.size() ? words_[at_] : "power factor");
    marks_.power_factor = std::max(1, whole(*value * 100));
    return ++at_, true;
  }

  bool duty() {
    const auto found = quantity(at_ + 1);
    if (!found || found->unit != "%") return false;
    marks_.duty = percent(found->first);
    at_ += 1 + found->used;
    return true;
  }

  /// "off at most 8 h", "at most 8 h off".
  bool off_time() {
    std::size_t at = at_;
    const bool off_first = is(at, "off");
    at += off_first ? 1 : 0;
    if (!is(at, "at") || !is(at + 1, "most")) return false;
    const auto found = quantity(at + 2);
    if (!found || found->second) return false;
    const bool hours = found->unit == "h" || found->unit == "hours" || found->unit == "hour";
    if (!hours && found->unit != "min" && found->unit != "minutes") return false;
    if (found->first <= 0 || found->first * (hours ? 60 : 1) > 100'000) fail(words_[at + 2]);
    marks_.longest_off_min = whole(found->first * (hours ? 60 : 1));
    at_ = at + 2 + found->used;
    if (!off_first) (void)take({"off"});
    return true;
  }

  [[nodiscard]] int whole(double value) const {
    if (value > kMostNumber) fail(words_[at_]);
    return static_cast<int>(std::lround(value));
  }
  [[nodiscard]] int percent(double value) const {
    if (value > 100) fail(words_[at_]);
    return whole(value);
  }
  [[nodiscard]] std::string capital(const std::string& letter) const {
    const char c = small(letter)[0];
    if (std::string_view("abcdefghjklmnprstuv").find(c) == std::string_view::npos) fail(letter);
    return std::string(1, static_cast<char>(c - 'a' + 'A'));
  }

  const std::string& wish_;
  std::vector<std::string> words_;
  std::size_t at_ = 0;
  Marks marks_;
};

}  // namespace

std::string quoted(std::string_view text) { return "'" + terminal::printable(std::string(text.substr(0, 60))) + "'"; }

std::vector<std::string> wishes_in(std::string_view text) {
  std::vector<std::string> wishes(1);
  for (const char c : text) {
    if (c == ';' || c == '\n') wishes.emplace_back();
    else if (c != '\r') wishes.back() += c;
  }
  std::erase_if(wishes, [](const std::string& wish) { return wish.find_first_not_of(" \t,") == std::string::npos; });
  return wishes;
}

Marks read_wish(const std::string& wish) {
  if (!is_utf8(wish)) throw Error(ErrorKind::invalid_input, "The wish " + quoted(wish) + " is not in UTF-8; type it again, or save the file as UTF-8.");
  const auto is_control = [](char c) { return c == '\x7f' || (c >= 0 && c < ' ' && c != '\t'); };
  if (std::ranges::any_of(wish, is_control)) throw Error(ErrorKind::invalid_input, "The wish " + quoted(wish) + " holds a control character; take it out.");
  return Reader(wish).read();
}

}  // namespace ohmstead::wish_detail
