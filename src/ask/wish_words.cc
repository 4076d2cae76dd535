#include <algorithm>

#include "ask/sentence.h"
#include "ask/watts.h"
#include "ask/wish.h"
#include "house/index.h"

namespace ohmstead {

namespace {

using sentence::capital, sentence::say;

std::string importance_words(const Load& load) {
  switch (load.importance) {
    case Importance::life_safety: return "life safety";
    case Importance::high: return "important";
    case Importance::normal: return "";
    case Importance::low: return "nice to have";
  }
  return "";
}

std::string figures_words(const House& house, const Load& load) {
  const LoadFigures figures = figures_of(house, load);
  if (!figures.known) return "watts not known: give them, as in '100/400 W nameplate'";
  std::string words = range_text(figures.running) + " (" + basis_text(figures.running_basis, figures.running_source) + ")";
  if (figures.starting.high <= figures.running.high) return words;
  words += ", " + range_text(figures.starting) + " to start";
  const bool same = figures.starting_basis == figures.running_basis && figures.starting_source == figures.running_source;
  return same ? words : words + " (" + basis_text(figures.starting_basis, figures.starting_source) + ")";
}

std::string wish_line(const House& house, const Load& load) {
  std::string line = capital(load_text(house, load)) + ": " + figures_words(house, load);
  if (const std::string importance = importance_words(load); !importance.empty()) line += "; " + importance;
  if (load.longest_off_min)
    line += "; off at most " + (*load.longest_off_min % 60 == 0 ? std::to_string(*load.longest_off_min / 60) + " h" : std::to_string(*load.longest_off_min) + " min");
  return line;
}

/// Life safety first, then high, normal, low; in the order of the house among equals.
int rank_of(const Load& load) {
  switch (load.importance) {
    case Importance::life_safety: return 0;
    case Importance::high: return 1;
    case Importance::normal: return 2;
    case Importance::low: return 3;
  }
  return 3;
}

std::vector<std::string> lines_of(const House& house, LoadUse use, const std::vector<Id<Load>>& only) {
  std::vector<const Load*> loads;
  for (const Load& load : house.loads) {
    const bool asked = only.empty() || std::ranges::find(only, load.id) != only.end();
    if (asked && wanted_use(load) == use && (!only.empty() || use != LoadUse::not_wanted)) loads.push_back(&load);
  }
  std::ranges::stable_sort(loads, {}, [](const Load* load) { return rank_of(*load); });
  std::vector<std::string> lines;
  for (const Load* load : loads) lines.push_back(wish_line(house, *load));
  return lines;
}

}  // namespace

Lines words_of_life_safety_given_up(const House& before, const Wished& wished) {
  Lines lines;
  for (const Load& was : before.loads) {
    const Load* now = find_row(wished.house, was.id);
    if (now == nullptr || was.importance != Importance::life_safety || wanted_use(was) == LoadUse::not_wanted) continue;
    if (now->importance != Importance::life_safety || wanted_use(*now) == LoadUse::not_wanted)
      say(lines, LineKind::danger, capital(load_text(before, was)) + " was for life safety, and is no more: a plan may now leave it without power. If somebody depends on it, say so: `ohmstead wish '" +
                                   was.name + ", life safety'`.");
  }
  return lines;
}

Lines words_of_wishes(const House& house, const Names&, const std::vector<Id<Load>>& only) {
  Lines lines;
  const auto together = lines_of(house, LoadUse::together, only), on_demand = lines_of(house, LoadUse::on_demand, only),
             unwanted = lines_of(house, LoadUse::not_wanted, only);
  if (!together.empty()) say(lines, LineKind::answer, "Must run in an outage, together with the others:", together);
  if (!on_demand.empty()) say(lines, LineKind::answer, "Switched on when somebody wants it, one at a time:", on_demand);
  if (!unwanted.empty()) say(lines, LineKind::answer, "Not wanted in an outage:", unwanted);
  if (lines.empty()) say(lines, LineKind::answer, "Nothing is wished for yet. Begin with what must run: ohmstead wish 'freezer 100/400 W nameplate'.");
  return lines;
}

}  // namespace ohmstead
