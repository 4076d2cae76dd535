#include "survey/breaker_words.h"

#include <algorithm>

#include "house/index.h"
#include "house/numbering.h"
#include "survey/space_words.h"

namespace ohmstead::entry_detail {

namespace {

std::string number_text(const std::vector<PolePlace>& places) {
  std::string text;
  for (const PolePlace& place : places) {
    text += (text.empty() ? "" : "-") + std::to_string(place.space);
    if (place.half != Half::whole) text += text_of(place.half);
  }
  return text;
}

/// The breaker at these places, which must lie one below the other. Throws a refusal.
Breaker breaker_at(const Draft& draft, const Panel& panel, const std::vector<PolePlace>& places) {
  Breaker breaker{.id = Id<Breaker>::fresh(), .panel = panel.id, .space = places.front().space,
                  .half = places.front().half, .poles = static_cast<int>(places.size())};
  const std::string name = "breaker " + number_text(places) + " cannot be: ";
  for (const PolePlace& place : places)
    if (!place_of(panel, place.space))
      draft.fail(name + "panel " + shown(panel.name) + " has spaces 1 to " + std::to_string(panel.spaces) + " only.");
  const auto real = pole_places(panel, breaker);
  for (std::size_t i = 1; i < places.size(); ++i) {
    const auto below = space_below(panel, places[i - 1].space);
    if (below && i < real.size() && real[i] == places[i]) continue;
    if (below && *below == places[i].space) draft.fail(name + "its halves must be as in 17a+19b or 17b+19a.");
    draft.fail(name + (below ? "the space below " + std::to_string(places[i - 1].space) + " is " + std::to_string(*below) + "."
                             : "there is no space below " + std::to_string(places[i - 1].space) + "."));
  }
  return breaker;
}

/// Conductor size at `at`: "#12", "wire 12", "wire 2.5 mm2"; the words behind it too.
bool take_wire(const Draft& draft, const std::vector<Word>& words, std::size_t& at, Circuit& wire) {
  const bool hash = !words[at].quoted && words[at].text.starts_with('#') && words[at].text.size() > 1;
  if (!hash && !words[at].is("wire")) return false;
  if (!hash && ++at >= words.size()) draft.fail("behind 'wire' its size is expected, such as 12 or 2/0.");
  wire.wire = hash ? words[at].text.substr(1) : words[at].text;
  if (wire.wire.empty() || wire.wire.find_first_not_of("0123456789./") != std::string::npos)
    draft.fail(shown(words[at].text) + " is not the size of a conductor; expected is one such as 12, 2/0 or 2.5 mm2.");
  ++at;
  if (at < words.size() && words[at].is("mm2")) wire.wire += " mm2", ++at;
  if (at < words.size() && words[at].is("awg")) ++at;
  if (at < words.size() && words[at].is("cu")) wire.material = WireMaterial::copper, ++at;
  else if (at < words.size() && words[at].is("al")) wire.material = WireMaterial::aluminium, ++at;
  else if (at < words.size() && words[at].is("cca")) wire.material = WireMaterial::copper_clad_aluminium, ++at;
  if (at + 1 < words.size() && words[at + 1].is("m"))
    if (const auto length = whole_number(words[at].text)) {
      wire.length_m = *length;
      at += 2;
    }
  return true;
}

bool take_simple_mark(const Word& word, BreakerMarks& marks) {
  if (word.is("tied")) marks.tied = true;
  else if (word.is("mwbc") || word.is("multiwire")) marks.multiwire = true;
  else if (word.is("gfci")) marks.protection = Protection::gfci;
  else if (word.is("afci")) marks.protection = Protection::afci;
  else if (word.is("dual")) marks.protection = Protection::dual;
  else if (word.is("alone")) marks.open_rule = OpenRule::briefly_alone;
  else if (word.is("never")) marks.open_rule = OpenRule::never;
  else if (word.is("empty")) marks.empty = true;
  else return word.is(",");
  return true;
}

/// The label for one of several breakers: its part between ` / `, if there are as many.
std::string label_of(const std::string& label, std::size_t index, std::size_t count) {
  std::vector<std::string> parts;
  std::size_t first = 0;
  for (std::size_t cut = label.find(" / "); cut != std::string::npos; cut = label.find(" / ", first)) {
    parts.push_back(trimmed(std::string_view(label).substr(first, cut - first)));
    first = cut + 3;
  }
  parts.push_back(trimmed(std::string_view(label).substr(first)));
  return count > 1 && parts.size() == count ? parts[index] : label;
}

void add_circuits(Draft& draft, const std::vector<Breaker>& breakers, const BreakerMarks& marks) {
  if (!marks.multiwire && marks.wire.wire.empty()) return;
  Id<Circuit> first;
  for (const Breaker& breaker : breakers) {
    Circuit circuit = marks.wire;
    circuit.id = Id<Circuit>::fresh();
    circuit.breaker = breaker.id;
    if (!first) first = circuit.id;
    if (marks.multiwire) circuit.multiwire = first;
    draft.house.circuits.push_back(circuit);
  }
}

}  // namespace

std::optional<Rating> parse_rating(const Draft& draft, const Word& word) {
  if (word.quoted) return std::nullopt;
  std::string text = word.lower();
  Rating rating;
  if (const std::size_t x = text.find('x'); x != std::string::npos) {
    const auto poles = whole_number(std::string_view(text).substr(x + 1));
    if (!poles) return std::nullopt;
    if (*poles < 1 || *poles > 3) draft.fail(shown(word.text) + ": a breaker has 1, 2 or 3 poles.");
    rating.poles = *poles;
    text.resize(x);
  }
  if (text.size() > 1 && text.ends_with('a')) text.pop_back();
  if (const std::size_t slash = text.find('/'); slash != std::string::npos) {
    const auto low = whole_number(std::string_view(text).substr(slash + 1));
    if (!low || rating.poles != 1) return std::nullopt;
    rating.lower_amps = *low;
    text.resize(slash);
  }
  const auto amps = whole_number(text);
  if (!amps) return std::nullopt;
  rating.amps = *amps;
  return rating;
}

BreakerMarks parse_marks(const Draft& draft, const std::vector<Word>& words, std::size_t at) {
  BreakerMarks marks;
  while (at < words.size()) {
    Word word = words[at];  // a comma behind a mark is no part of it
    if (!word.quoted && word.text.size() > 1 && word.text.ends_with(',')) word.text.pop_back();
    if (words[at].quoted) {
      marks.label = words[at++].text;
    } else if (take_simple_mark(word, marks)) {
      ++at;
    } else if (take_wire(draft, words, at, marks.wire)) {
    } else if (words[at].is("backfed") && at + 1 < words.size() && words[at + 1].is("from")) {
      at += 2;
      marks.backfed_from = draft.source_at(words, at);
    } else if (word.is("interlocked")) {
      marks.interlocked = true;
      if (++at < words.size() && words[at].is("with")) {
        if (++at < words.size() && !words[at].is("main")) marks.interlocked_with = words[at].text;
        ++at;
      }
    } else {
      marks.label = joined(words, at, words.size());
      break;
    }
  }
  return marks;
}

void add_breakers(Draft& draft, std::vector<Breaker> breakers, const BreakerMarks& marks) {
  if (marks.tied && breakers.size() < 2) draft.fail("a handle tie joins two breakers; write both numbers, as in '9,11 tied 20'.");
  if (marks.multiwire && breakers.size() < 2 && breakers.front().poles < 2)
    draft.fail("a multiwire circuit needs two breakers or poles; write both numbers, as in '9,11 20 mwbc'.");
  for (std::size_t i = 0; i < breakers.size(); ++i) {
    Breaker& breaker = breakers[i];
    breaker.protection = marks.protection;
    breaker.open_rule = marks.open_rule;
    breaker.backfed_from = marks.backfed_from;
    breaker.old_label = label_of(marks.label, i, breakers.size());
    if (marks.tied) breaker.tie = breakers.front().id;
    draft.house.breakers.push_back(breaker);
  }
  add_circuits(draft, breakers, marks);
  if (!marks.interlocked) return;
  const Panel& panel = row(draft.house, breakers.front().panel);
  const HandleRef other = marks.interlocked_with.empty() ? HandleRef{HandleKind::main, panel.id.value}
                                                         : draft.handle(panel.name + " " + marks.interlocked_with);
  draft.house.interlocks.push_back({Id<Interlock>::fresh(), other, {HandleKind::breaker, breakers.front().id.value}});
}

void enter_numbered(Draft& draft, const Panel& panel, const std::vector<Word>& words) {
  std::string numbers = words.front().text;
  std::size_t at = 1;
  while (at < words.size() && !words[at].quoted && (numbers.ends_with(',') || words[at].text.starts_with(','))) numbers += words[at++].text;
  std::vector<Breaker> breakers;
  for (const std::string& part : split(numbers, ",")) {
    const auto places = parse_places(part);
    if (!places) draft.fail(shown(numbers) + " is not the number of a breaker; expected is one such as 7, 5a, 2+4 or 9,11, or 'left' with ratings.");
    breakers.push_back(breaker_at(draft, panel, *places));
  }
  std::vector<Word> rest(words.begin() + static_cast<std::ptrdiff_t>(at), words.end());
  BreakerMarks before;  // marks may stand in front of the rating: "9,11 tied 20"
  std::size_t skip = 0;
  while (skip < rest.size() && take_simple_mark(rest[skip], before)) ++skip;
  if (skip < rest.size())
    if (const auto rating = parse_rating(draft, rest[skip]); rating && rating->lower_amps < 0) {
      const bool unit = skip + 1 < rest.size() && (rest[skip + 1].is("a") || rest[skip + 1].is("amps"));
      rest.erase(rest.begin() + static_cast<std::ptrdiff_t>(skip), rest.begin() + static_cast<std::ptrdiff_t>(skip + (unit ? 2 : 1)));
      for (Breaker& breaker : breakers) {
        breaker.amps = rating->amps;
        if (rating->poles > 1) breaker.poles = rating->poles;
      }
    }
  const BreakerMarks marks = parse_marks(draft, rest, 0);
  if (marks.empty) return;
  add_breakers(draft, breakers, marks);
}

void enter_column(Draft& draft, const Panel& panel, const std::vector<Word>& words) {
  const int column = words.front().is("right") ? 1 : 0;
  std::vector<int> spaces;
  for (int space = 1; space <= panel.spaces; ++space)
    if (const auto place = place_of(panel, space); place && place->column == column) spaces.push_back(space);
  std::size_t row_at = 0;
  for (std::size_t at = 1; at < words.size();) {
    const Word& word = words[at++];
    const auto rating = parse_rating(draft, word);
    if (!rating && !word.is("-")) draft.fail("a rating is expected, such as 20 or 30x2, not " + shown(word.text) + ".");
    if (row_at + static_cast<std::size_t>(rating ? rating->poles : 1) > spaces.size())
      draft.fail("there are more breakers than the " + std::to_string(spaces.size()) + " spaces of this column of panel " + shown(panel.name) + ".");
    if (!rating) {
      ++row_at;
      continue;
    }
    std::size_t end = at;
    if (end < words.size() && words[end].is("a")) at = ++end;
    const auto next_breaker = [&](std::size_t i) {
      if (words[i].is("-")) return true;
      const bool of_wire = i > 0 && (words[i - 1].is("wire") || (i + 1 < words.size() && words[i + 1].is("m")) || (i + 1 < words.size() && words[i + 1].is("mm2")));
      return !of_wire && parse_rating(draft, words[i]).has_value();
    };
    while (end < words.size() && !next_breaker(end)) ++end;
    Breaker breaker{.id = Id<Breaker>::fresh(), .panel = panel.id, .space = spaces[row_at], .poles = rating->poles, .amps = rating->amps};
    std::vector<Breaker> made{breaker};
    if (rating->lower_amps >= 0) {
      made.front().half = Half::a;
      made.push_back(made.front());
      made.back().id = Id<Breaker>::fresh();
      made.back().half = Half::b;
      made.back().amps = rating->lower_amps;
    }
    const std::vector<Word> own(words.begin() + static_cast<std::ptrdiff_t>(at), words.begin() + static_cast<std::ptrdiff_t>(end));
    add_breakers(draft, made, parse_marks(draft, own, 0));
    row_at += static_cast<std::size_t>(rating->poles);
    at = end;
  }
}

}  // namespace ohmstead::entry_detail
