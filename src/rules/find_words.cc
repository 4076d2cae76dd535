// Wording of the directory as found on the door, with better words offered; and what the record itself lacks.

#include <algorithm>
#include <set>

#include "house/invariants.h"
#include "rules/findings_look.h"
#include "rules/plain_words.h"
#include "rules/wording.h"

namespace ohmstead::findings_detail {

namespace {

/// Words that say nothing of which one: alone, or with each other and numbers, they tell no circuit from another.
constexpr std::string_view kVague[] = {"light", "lights", "lighting", "lts", "plug", "plugs", "outlet", "outlets", "receptacle", "receptacles", "recepts", "misc", "miscellaneous", "general", "other", "stuff", "various", "house", "main", "circuit", "room", "rooms",
                                       "upstairs", "downstairs", "up", "down", "and", "&", "+", "the", "all", "some", "more", "unknown", "etc", "branch", "power", "120", "240", "v"};

std::string small(std::string_view text) {
  std::string out(text);
  for (char& c : out) c = c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c == '.' || c == ',' || c == '/' || c == '-' || c == '?' ? ' ' : c;
  return printable(out);
}

bool is_vague(std::string_view label) {
  const std::string text = small(label);
  for (std::size_t from = 0; from < text.size();) {
    const std::size_t end = std::min(text.find(' ', from), text.size());
    const std::string_view word = std::string_view(text).substr(from, end - from);
    const bool number = word.find_first_not_of("0123456789#") == std::string_view::npos;
    if (!number && std::ranges::find(kVague, word) == std::end(kVague)) return false;
    from = end + 1;
  }
  return true;
}

std::string better(const CircuitWords& words) {
  if (words.use == CircuitUse::not_traced) return " What it feeds is not found yet; trace it before it is named.";
  return " Better: '" + words.text + "'" + (words.uncertain ? "; a '?' is to be proved first." : ".");
}

std::string quoted(const std::string& label) { return "'" + whole_words(printable(label), 40) + "'"; }

void find_label(Look& look, const Breaker& breaker, const CircuitWords& words) {
  const std::string label = printable(breaker.old_label), name = breaker_label(look.house(), breaker.id);
  const auto tell = [&](const char* rule, Severity severity, const std::string& what, const char* why) {
    look.add(rule, severity, {thing(breaker.id)}, name + " is called " + quoted(label) + ", " + what + better(words), why);
    look.cite("NFPA 70 408.4(A), text");
  };
  if (small(label) == "spare" || small(label) == "unused") {
    if (words.use == CircuitUse::described || words.use == CircuitUse::feeder || words.use == CircuitUse::inlet) tell("label_spare_but_used", Severity::fix, "and something hangs on it.", "Whoever takes it for unused may work on it or take it away.");
  } else if (without_person(label) != label) {
    tell("label_of_a_person", Severity::tidy, "which depends on who lives there.", "It is wrong as soon as somebody moves, and a stranger cannot read it.");
  } else if (is_vague(label)) {
    tell("label_vague", Severity::tidy, "which does not tell it from other circuits.", "Whoever looks for a breaker in a hurry has to try them all.");
  }
}

void find_same_labels(Look& look, const std::vector<const Breaker*>& breakers) {
  std::map<std::string, std::vector<const Breaker*>> by_words;
  for (const Breaker* breaker : breakers)
    if (const std::string words = small(breaker->old_label); !words.empty() && words != "spare" && words != "unused") by_words[words].push_back(breaker);
  for (const auto& [words, same] : by_words) {
    std::set<std::uint64_t> ties;
    for (const Breaker* breaker : same) ties.insert(breaker->tie ? breaker->tie.value : breaker->id.value);
    if (ties.size() < 2 || is_vague(words)) continue;
    std::vector<ThingRef> things;
    for (const Breaker* breaker : same) things.push_back(thing(breaker->id));
    look.add("labels_the_same", Severity::tidy, things, names_of(look.house(), same) + " are all called " + quoted(same[0]->old_label) + ".", "Each circuit has to be told from all others.");
    look.cite("NFPA 70 408.4(A), text");
  }
}

void find_panel_words(Look& look, const Panel& panel) {
  const std::string item = "directory:" + panel.id.text();
  if (std::ranges::any_of(look.house().printed, [&](const Printed& printed) { return printed.item == item; })) return;  // its words hang there now
  const std::vector<CircuitWords> words = panel_words(look.house(), look.input.feeds, panel.id);
  std::vector<const Breaker*> breakers, without;
  for (const CircuitWords& circuit : words) {
    breakers.push_back(&row(look.house(), circuit.breaker));
    if (printable(breakers.back()->old_label).empty()) without.push_back(breakers.back());
    else find_label(look, *breakers.back(), circuit);
  }
  find_same_labels(look, breakers);
  if (without.empty()) return;
  std::vector<ThingRef> things;
  for (const Breaker* breaker : without) things.push_back(thing(breaker->id));
  look.add("label_missing", Severity::tidy, things, without.size() == breakers.size() ? "No words of a directory are recorded for " + panel_label(look.house(), panel.id) + "." : names_of(look.house(), without) + " had no words on the old directory.",
           "A directory names every circuit, an unused breaker too; `ohmstead directory` prints one.");
  look.cite("NFPA 70 408.4(A), text");
}

/// What hangs on the wall and was printed before the last change may say what is no longer so.
void find_older_prints(Look& look) {
  std::set<std::string> last, older;  // items by their last print
  for (const Printed& printed : look.house().printed) {
    const bool old = printed.revision < look.input.revision;
    (old ? older : last).insert(printed.item);
  }
  std::vector<std::string> names;
  for (const Printed& printed : look.house().printed)
    if (older.contains(printed.item) && !last.contains(printed.item) && older.erase(printed.item) > 0) names.push_back(printable(printed.name));
  if (names.empty()) return;
  constexpr std::size_t kNamed = 3;
  const std::size_t more = names.size() > kNamed ? names.size() - kNamed : 0;
  names.resize(names.size() - more);
  look.add("printed_before_change", Severity::tidy, {{ThingKind::house, 0}}, "The record was changed after this was printed: " + joined(names) + (more > 0 ? ", and " + std::to_string(more) + " more" : "") + ". `ohmstead print --stale` says which of it is no longer true.",
           "Whoever reads a label believes it.");
}

}  // namespace

void find_words(Look& look) {
  for (const Panel& panel : look.house().panels) find_panel_words(look, panel);
  find_older_prints(look);
}

void find_gaps(Look& look) {
  const House& house = look.house();
  std::vector<const Breaker*> not_read, nothing;
  std::set<std::uint64_t> used, tied;  // tied: which of them feeds a thing cannot be seen
  for (const Feed& feed : look.input.feeds.of_point)
    for (const Tap& tap : feed.taps) {
      used.insert(tap.breaker.value);
      if (const Breaker* breaker = find_row(house, tap.breaker); breaker != nullptr && breaker->tie) tied.insert(breaker->tie.value);
    }
  for (const Panel& panel : house.panels) used.insert(feeder_of(house, panel).value);
  for (const Breaker& breaker : house.breakers) {
    if (breaker.amps == 0) not_read.push_back(&breaker);
    const bool spare = small(breaker.old_label) == "spare" || small(breaker.old_label) == "unused";
    if (!used.contains(breaker.id.value) && !breaker.backfed_from && !spare && !(breaker.tie && tied.contains(breaker.tie.value))) nothing.push_back(&breaker);
  }
  const auto tell = [&](const char* rule, const std::vector<const Breaker*>& breakers, const std::string& found, const char* why) {
    if (breakers.empty()) return;
    std::vector<ThingRef> things;
    for (const Breaker* breaker : breakers) things.push_back(thing(breaker->id));
    look.add(rule, Severity::note, things, found, why);
  };
  tell("rating_not_read", not_read, "Rating not read: " + names_of(house, not_read) + ".", "Without it neither the wire nor the loads behind it can be judged.");
  tell("nothing_found_on", nothing, "Nothing is known to hang on " + names_of(house, nothing) + ". That is no proof that nothing does.", "A circuit that nobody knows of is found by whoever drills into it.");
  for (const Problem& problem : problems_of(house)) look.add("record_contradicts", Severity::fix, {{ThingKind::house, 0}}, "The record contradicts itself: " + problem.message, "What follows from it may be wrong.");
}

}  // namespace ohmstead::findings_detail
