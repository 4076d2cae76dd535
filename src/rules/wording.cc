#include "rules/wording.h"

#include <algorithm>
#include <map>
#include <set>

#include "house/index.h"
#include "house/numbering.h"
#include "rules/circuit_phrases.h"
#include "rules/plain_words.h"

namespace ohmstead {

namespace {

constexpr const char* kSpare = "SPARE";
constexpr const char* kNotTraced = "? not traced yet";
constexpr const char* kNothingFound = "? nothing found yet";

std::string quoted_name(const std::string& name) {
  const std::string words = label_name(name, kLongestInText);
  return words.empty() ? "" : " '" + words + "'";
}

/// Was this point seen live while the breaker was open, with nothing later against it?
bool seen_live_without(const House& house, Id<Point> point, const std::set<Id<Round>>& rounds) {
  bool live = false;
  for (const Observation& seen : house.observations) {
    if (seen.point != point || seen.withdrawn || !rounds.contains(seen.round)) continue;
    if (seen.seen == Seen::live) live = true;
    if (seen.seen == Seen::dead) return false;
  }
  return live;
}

std::set<Id<Round>> rounds_with_open(const House& house, Id<Breaker> breaker) {
  std::set<Id<Round>> rounds;
  for (const Opened& opened : house.opened)
    if (opened.handle == HandleRef{HandleKind::breaker, breaker.value}) rounds.insert(opened.round);
  return rounds;
}

bool is_settled(const Feeds& feeds, std::size_t point) {
  return point < feeds.of_point.size() && relied_on(feeds.of_point[point].standing) && !feeds.of_point[point].taps.empty();
}

/// Was there a look for what this breaker feeds? It was open while points were looked at; or the
/// only points left are dead whatever is open, so that opening it would show nothing.
bool was_looked_for(const House& house, const Feeds& feeds, Id<Breaker> breaker) {
  const auto rounds = rounds_with_open(house, breaker);
  std::set<Id<Point>> live, dead;
  for (const Observation& seen : house.observations) {
    if (seen.withdrawn || (seen.seen != Seen::live && seen.seen != Seen::dead)) continue;
    if (rounds.contains(seen.round)) return true;
    (seen.seen == Seen::live ? live : dead).insert(seen.point);
  }
  for (std::size_t i = 0; i < house.points.size(); ++i)
    if (const Id<Point> id = house.points[i].id; !is_settled(feeds, i) && (live.contains(id) || !dead.contains(id))) return false;
  return !dead.empty();
}

/// Is it known that the breaker feeds nothing? Only if nothing at all is recorded on it, and every
/// point is established elsewhere or was seen live while it was open.
bool feeds_nothing(const House& house, const Feeds& feeds, Id<Breaker> breaker) {
  const auto names_it = [&](const auto& row) { return row.breaker == breaker; };
  if (house.points.empty() || std::ranges::any_of(house.circuits, names_it) ||
      std::ranges::any_of(house.passings, names_it) || std::ranges::any_of(house.positions, names_it))
    return false;
  for (const Feed& feed : feeds.of_device)
    if (std::ranges::find(feed.taps, breaker, &Tap::breaker) != feed.taps.end()) return false;
  const auto rounds = rounds_with_open(house, breaker);
  for (std::size_t i = 0; i < house.points.size(); ++i)
    if (!is_settled(feeds, i) && !seen_live_without(house, house.points[i].id, rounds)) return false;
  return true;
}

/// Panels that this breaker feeds, straight or by way of a transfer position.
std::vector<const Panel*> fed_panels(const House& house, Id<Breaker> breaker) {
  std::vector<const Panel*> panels;
  for (const Panel& panel : house.panels) {
    const Position* position = panel.supply == Supply::position ? find_row(house, panel.position) : nullptr;
    const bool straight = panel.supply == Supply::breaker && panel.feeder == breaker;
    if (straight || (position != nullptr && position->breaker == breaker)) panels.push_back(&panel);
  }
  return panels;
}

/// "Subpanel 'Workshop' in Garage", longest first; with whatever else is on the feeder.
std::vector<std::string> feeder_texts(const WordingFacts& facts, const std::vector<const Panel*>& panels,
                                      const std::vector<FedItem>& items) {
  std::string names;
  for (const Panel* panel : panels) names += (names.empty() ? "" : ",") + quoted_name(panel->name);
  const std::string text = (panels.size() > 1 ? "Subpanels" : "Subpanel") + names;
  std::vector<std::string> texts;
  for (const std::string& more : phrasings(facts, items, Detail::none)) texts.push_back(text + "; " + more);
  if (items.empty()) {
    const Room* room = find_row(facts.house, panels.front()->room);
    const std::string where = room == nullptr ? "" : label_name(room->name, kLongestInText);
    const bool told = panels.size() > 1 || where.empty() || holds_word(names, where);
    if (!told) texts.push_back(text + " in " + where);
    texts.push_back(text);
  }
  const std::string more = items.empty() ? "" : "; " + phrasings(facts, items, Detail::none).back();
  texts.push_back((panels.size() > 1 ? std::to_string(panels.size()) + " subpanels" : std::string("Subpanel")) + more);
  return texts;
}

/// "main" or the number of the handle that may not be on together with this breaker.
std::string interlocked_with(const House& house, Id<Breaker> breaker) {
  const HandleRef self{HandleKind::breaker, breaker.value};
  for (const Interlock& lock : house.interlocks) {
    if (lock.first != self && lock.second != self) continue;
    const HandleRef& other = lock.first == self ? lock.second : lock.first;
    if (other.kind == HandleKind::main) return "main";
    const Breaker* there = find_row(house, Id<Breaker>{other.id});
    const Panel* panel = there == nullptr ? nullptr : find_row(house, there->panel);
    if (panel != nullptr) return breaker_number(*panel, *there);
  }
  return {};
}

std::vector<std::string> inlet_texts(const House& house, const Breaker& breaker) {
  const Source* source = find_row(house, breaker.backfed_from);
  const bool battery = source != nullptr && source->kind == SourceKind::battery_inverter;
  const std::string from = std::string("INLET from ") + (battery ? "inverter" : "generator") + ": keep OFF";
  const std::string other = interlocked_with(house, breaker.id);
  return {other.empty() ? from + " on utility" : from + " unless " + other + " is OFF", from};
}

std::string position_mark(const House& house, Id<Breaker> breaker) {
  std::map<std::uint64_t, std::set<int>> numbers;
  for (const Position& position : house.positions)
    if (position.breaker == breaker) numbers[position.device.value].insert(position.number);
  std::string mark;
  for (const auto& [device, of_device] : numbers) {
    if (!mark.empty()) mark += ' ';
    mark += mark_letter(house, Id<TransferDevice>{device});
    mark += std::to_string(*of_device.begin());
    if (of_device.size() > 1) mark += "-" + std::to_string(*of_device.rbegin());
  }
  return mark;
}

/// The first phrasing that fits with `tail` after it; the last is a mere count and always does.
std::string fitting(const std::vector<std::string>& texts, const std::string& tail) {
  for (const std::string& text : texts)
    if (character_count(text + tail) <= kLongestDescription) return text + tail;
  return texts.back() + tail;
}

/// Number of a breaker tied to this one on which something is recorded; "" for none. Handles that
/// move together cannot be told apart by switching, so what they feed stands beside one of them.
std::string tied_to_one_in_use(const WordingFacts& facts, const Panel& panel, const Breaker& breaker) {
  for (const Breaker& other : facts.house.breakers)
    if (breaker.tie && other.tie == breaker.tie && other.id != breaker.id && !fed_items(facts, other.id).empty())
      return breaker_number(panel, other);
  return {};
}

/// One breaker while the descriptions of its panel are being told apart.
struct Draft {
  CircuitWords words;
  std::vector<FedItem> items;
  std::vector<std::string> texts;  ///< longest first
  std::string number;              ///< "9-11"
};

Draft first_draft(const WordingFacts& facts, const Panel& panel, const Breaker& breaker) {
  const House& house = facts.house;
  Draft draft{{breaker.id, CircuitUse::described, {}, position_mark(house, breaker.id), false},
              fed_items(facts, breaker.id), {}, breaker_number(panel, breaker)};
  const auto panels = fed_panels(house, breaker.id);
  if (breaker.backfed_from) {
    draft.words.use = CircuitUse::inlet;
    draft.texts = inlet_texts(house, breaker);
  } else if (!panels.empty()) {
    draft.words.use = CircuitUse::feeder;
    draft.texts = feeder_texts(facts, panels, draft.items);
  } else if (!draft.items.empty()) {
    draft.texts = phrasings(facts, draft.items, Detail::none);
  } else if (const std::string tied = tied_to_one_in_use(facts, panel, breaker); !tied.empty()) {
    draft.texts = {"Tied to " + tied + ", see there"};
  } else {
    const bool spare = feeds_nothing(house, facts.feeds, breaker.id);
    draft.words.use = spare ? CircuitUse::spare : CircuitUse::not_traced;
    draft.texts = {spare ? kSpare : was_looked_for(house, facts.feeds, breaker.id) ? kNothingFound : kNotTraced};
  }
  draft.words.text = fitting(draft.texts, "");
  return draft;
}

bool may_repeat(const Draft& draft) {
  return draft.words.use == CircuitUse::spare || draft.words.use == CircuitUse::not_traced;
}

/// Drafts whose text another one has too.
std::vector<Draft*> doubles(std::vector<Draft>& drafts) {
  std::map<std::string, std::vector<Draft*>> by_text;
  for (Draft& draft : drafts) {
    std::string plain = draft.words.text;
    std::erase(plain, '?');
    if (!may_repeat(draft)) by_text[plain].push_back(&draft);
  }
  std::vector<Draft*> shared;
  for (auto& [text, same] : by_text)
    if (same.size() > 1) shared.insert(shared.end(), same.begin(), same.end());
  return shared;
}

/// Tells equal descriptions apart: by the places of their points, else by the numbers of their
/// points, else by the breaker's own number, which no other has.
void tell_apart(const WordingFacts& facts, std::vector<Draft>& drafts) {
  for (const Detail detail : {Detail::place, Detail::number})
    for (Draft* draft : doubles(drafts))
      if (draft->words.use == CircuitUse::described)
        draft->words.text = fitting(phrasings(facts, draft->items, detail), "");
  for (Draft* draft : doubles(drafts)) {
    draft->words.text = fitting(draft->texts, " (no. " + draft->number + ")");
  }
}

}  // namespace

char mark_letter(const House& house, Id<TransferDevice> device) {
  std::string used;
  for (const TransferDevice& one : house.transfer_devices) {
    const Source* source = find_row(house, one.source);
    char letter = source != nullptr && source->kind == SourceKind::battery_inverter ? 'B' : 'G';
    while (used.find(letter) != std::string::npos && letter < 'Z') ++letter;
    used += letter;
    if (one.id == device) return letter;
  }
  return 'G';
}

std::vector<CircuitWords> panel_words(const House& house, const Feeds& feeds, Id<Panel> panel) {
  const Panel& of = row(house, panel);
  const WordingFacts facts = wording_facts(house, feeds);
  std::vector<Draft> drafts;
  for (const Breaker& breaker : house.breakers)
    if (breaker.panel == panel) drafts.push_back(first_draft(facts, of, breaker));
  tell_apart(facts, drafts);
  std::vector<CircuitWords> words;
  for (Draft& draft : drafts) {
    draft.words.uncertain = draft.words.text.find('?') != std::string::npos;
    words.push_back(std::move(draft.words));
  }
  return words;
}

std::string circuit_description(const House& house, const Feeds& feeds, Id<Breaker> breaker) {
  for (const CircuitWords& words : panel_words(house, feeds, row(house, breaker).panel))
    if (words.breaker == breaker) return words.text;
  throw Error(ErrorKind::not_found, "There is no breaker with the id '" + breaker.text() + "'.");
}

}  // namespace ohmstead
