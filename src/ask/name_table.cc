#include "ask/name_table.h"

#include <algorithm>

#include "ask/table_builder.h"

namespace ohmstead::ask_detail {

namespace {

/// How well a query's word fits a word of the house.
Fit fit_of(const Word& said, const Word& known) {
  if (said.text == known.text) return Fit::same;
  if (said.number || known.number) return Fit::none;
  if (said.meaning == known.meaning) return Fit::synonym;
  const auto& aliases = said_for(known.meaning);
  const auto begins = [&](std::string_view word) { return word.starts_with(said.text); };
  if (said.text.size() >= 3 && (begins(known.text) || std::ranges::any_of(aliases, begins))) return Fit::part;
  const bool digit_in_it = std::ranges::any_of(said.text, [](char c) { return c >= '0' && c <= '9'; });
  if (digit_in_it || is_known_word(said.text)) return Fit::none;
  const int forgiven = slips_forgiven(said.text.size());
  int slips = slips_between(said.text, known.text, forgiven);
  for (const std::string_view alias : aliases) slips = std::min(slips, slips_between(said.text, alias, forgiven));
  if (slips > forgiven) return Fit::none;
  return slips == 2 ? Fit::two_slips : Fit::one_slip;
}

Fit best_in(const std::vector<Fit>& fits, const std::vector<WordNo>& segment) {
  Fit best = Fit::none;
  for (const WordNo word : segment) best = std::min(best, fits[word]);
  return best;
}

/// Words of a segment that some word of the query fits.
std::size_t words_hit(const Query& query, const std::vector<WordNo>& segment) {
  return static_cast<std::size_t>(std::ranges::count_if(segment, [&](WordNo word) {
    return std::ranges::any_of(query.fits, [&](const std::vector<Fit>& fits) { return fits[word] != Fit::none; });
  }));
}

/// A number belongs to the word before it: "receptacle 2" is not "Bedroom 2 receptacle 1".
long head_of(const Query& query, std::size_t number) {
  for (std::size_t at = number; at-- > 0;)
    if (!query.words[at].number) return static_cast<long>(at);
  return -1;
}

/// Fit of one query word in a segment (an own name counts with the words for its kind).
Fit fit_in(const Query& query, std::size_t at, const std::vector<WordNo>& segment, const std::vector<WordNo>& kind) {
  const Fit here = std::min(best_in(query.fits[at], segment), best_in(query.fits[at], kind));
  if (here == Fit::none || !query.words[at].number) return here;
  const long head = head_of(query, at);
  if (head < 0) return here;
  const auto& fits = query.fits[static_cast<std::size_t>(head)];
  return std::min(best_in(fits, segment), best_in(fits, kind)) == Fit::none ? Fit::none : here;
}

int tier_of(Fit worst) { return worst <= Fit::synonym ? 0 : static_cast<int>(worst) - 1; }

bool room_in_full(const Query& query, const Called& thing) {
  return !thing.contexts.empty() && !thing.contexts[0].empty() &&
         words_hit(query, thing.contexts[0]) == thing.contexts[0].size();
}

/// Things that are named after something else: "dishwasher" is not the box that it is in.
bool needs_kind(ThingKind kind) {
  return kind == ThingKind::device || kind == ThingKind::handle || kind == ThingKind::box;
}

/// Things that are not told apart by the room they are in.
bool is_place(ThingKind kind) {
  return kind == ThingKind::house || kind == ThingKind::floor || kind == ThingKind::room || kind == ThingKind::panel ||
         kind == ThingKind::source || kind == ThingKind::transfer_device;
}

/// Is the name no more than the word for its kind? "light" may be any light, "GFCI" any GFCI.
bool only_its_kind(const Called& thing, const std::vector<WordNo>& own) {
  return std::ranges::all_of(own, [&](WordNo word) { return std::ranges::find(thing.kind, word) != thing.kind.end(); });
}

/// 0 its full name and room; 1 its kind and room; 2 its full name, or its kind; 3 some of its name,
/// and its room; 4 some of its name; 5 its room only; 6 only the floor or place that it is on.
int how_much(const Query& query, const Called& thing, const std::vector<WordNo>& own) {
  const bool room = is_place(thing.thing.kind) || room_in_full(query, thing);
  const std::size_t hit = words_hit(query, own);
  const bool whole = !own.empty() && hit == own.size() && !only_its_kind(thing, own);
  const bool kind = words_hit(query, thing.kind) > 0;
  if (whole && (kind || !needs_kind(thing.thing.kind))) return room ? 0 : 2;
  if (kind) return room ? 1 : 2;
  if (hit > 0 && (whole || !needs_kind(thing.thing.kind))) return room ? 3 : 4;
  return room_in_full(query, thing) ? 5 : 6;
}

Rank rank_as(const Query& query, const Called& thing, const std::vector<WordNo>& own) {
  static const std::vector<WordNo> kNothing;
  Fit worst = Fit::same;
  bool only_numbers = true;
  for (std::size_t at = 0; at < query.words.size(); ++at) {
    Fit best = fit_in(query, at, own, thing.kind);
    for (const auto& context : thing.contexts) best = std::min(best, fit_in(query, at, context, kNothing));
    if (best == Fit::none) return {};
    only_numbers = only_numbers && query.words[at].number;
    worst = std::max(worst, best);
  }
  if (query.words.empty() || only_numbers) return {};
  return {1 + 20 * tier_of(worst) + 2 * how_much(query, thing, own) + (worst == Fit::synonym ? 1 : 0)};
}

}  // namespace

NameTable::NameTable(const House& house, bool numbered_only) { TableBuilder(house, *this).build(numbered_only); }

const Called* NameTable::row_of(const ThingRef& thing) const {
  const auto of_kind = at_.find(thing.kind);
  if (of_kind == at_.end()) return nullptr;
  const auto found = of_kind->second.find(thing.id);
  return found == of_kind->second.end() ? nullptr : &things_[found->second];
}

/// "dish washer" where a name has "dishwasher", and "waterheater" where one has "water heater".
void NameTable::join_split_words(std::vector<Word>& words) const {
  for (std::size_t at = 0; at < words.size(); ++at) {
    const bool pair = at + 1 < words.size() && !words[at].number && !words[at + 1].number;
    const std::string together = pair ? words[at].text + words[at + 1].text : std::string();
    if (pair && !word_no_.contains(words[at].text) && word_no_.contains(together)) {
      words[at] = vocabulary_[word_no_.at(together)];
      words.erase(words.begin() + static_cast<std::ptrdiff_t>(at) + 1);
    } else if (const auto parts = compounds_.find(words[at].text);
               parts != compounds_.end() && !word_no_.contains(words[at].text)) {
      std::vector<Word> apart;
      for (const std::string& part : parts->second) apart.push_back(vocabulary_[word_no_.at(part)]);
      words.erase(words.begin() + static_cast<std::ptrdiff_t>(at));
      words.insert(words.begin() + static_cast<std::ptrdiff_t>(at), apart.begin(), apart.end());
      at += apart.size() - 1;
    }
  }
}

Query NameTable::query_of(std::vector<Word> words, std::string folded_text) const {
  Query query{std::move(words), {}, std::move(folded_text)};
  join_split_words(query.words);
  query.fits.reserve(query.words.size());
  for (const Word& said : query.words) {
    std::vector<Fit> fits;
    fits.reserve(vocabulary_.size());
    for (const Word& known : vocabulary_) fits.push_back(fit_of(said, known));
    query.fits.push_back(std::move(fits));
  }
  return query;
}

Rank NameTable::rank(const Query& query, const Called& thing) const {
  if (!query.folded_text.empty() && query.folded_text == thing.folded_name) return {0};
  Rank best;
  for (const auto& own : thing.own) best.value = std::min(best.value, rank_as(query, thing, own).value);
  return best;
}

bool NameTable::whole_room_said(const Query& query, const Called& thing) const {
  return room_in_full(query, thing);
}

int NameTable::words_fitting(const Query& query, const Called& thing) const {
  return static_cast<int>(std::ranges::count_if(query.fits, [&](const std::vector<Fit>& fits) {
    const auto fits_in = [&](const std::vector<WordNo>& segment) { return best_in(fits, segment) != Fit::none; };
    return fits_in(thing.kind) || std::ranges::any_of(thing.own, fits_in) || std::ranges::any_of(thing.contexts, fits_in);
  }));
}

}  // namespace ohmstead::ask_detail
