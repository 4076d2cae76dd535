#include "ask/one_line.h"

#include <algorithm>
#include <set>

#include "ask/panel_schedule.h"
#include "ask/sentence.h"
#include "ask/supply_ways.h"
#include "ask/watts.h"
#include "house/index.h"
#include "rules/panel_text.h"
#include "rules/plain_words.h"
#include "rules/room_words.h"

namespace ohmstead {

namespace {

std::string name_or(const std::string& name, const char* other) {
  const std::string words = label_name(name, kLongestRoomWords);
  return words.empty() ? other : words;
}

std::string amps_or(int amps, const char* other) { return amps > 0 ? std::to_string(amps) + " A" : other; }

OneLineDevice source_device(const Source& source) {
  OneLineDevice made{source.kind == SourceKind::generator ? OneLineSymbol::generator : OneLineSymbol::battery, name_or(source.name, source.kind == SourceKind::generator ? "Generator" : "Battery inverter"), {}, {}, {}};
  made.words.push_back(source.running_watts > 0 ? watts_text(source.running_watts) + (source.starting_watts > 0 ? ", " + watts_text(source.starting_watts) + " to start" : "") : "watts not recorded");
  made.words.push_back(source.output == SourceOutput::full ? "all legs" : source.output == SourceOutput::one_leg ? "one leg only" : "one 120 V output on all legs");
  made.words.push_back(source.neutral == NeutralBond::not_known ? "neutral: bond not recorded" : source.neutral == NeutralBond::bonded ? "neutral bonded" : "neutral floating");
  return made;
}

/// From the source: itself, and the inlet if one is recorded.
std::vector<OneLineDevice> source_chain(const House& house, Id<Source> id) {
  const Source* source = find_row(house, id);
  if (source == nullptr) return {{OneLineSymbol::not_known, "Source not recorded", {}, {}, {}}};
  std::vector<OneLineDevice> chain{source_device(*source)};
  if (source->inlet_amps > 0 || source->cord_amps > 0)
    chain.push_back({OneLineSymbol::inlet, "Inlet " + amps_or(source->inlet_amps, "not rated"), {source->cord_amps > 0 ? "cord " + std::to_string(source->cord_amps) + " A" : "cord not recorded"}, {}, {}});
  return chain;
}

std::string poles_words(int poles) { return std::to_string(poles) + (poles == 1 ? " pole" : " poles"); }

OneLineDevice breaker_device(const House& house, Id<Breaker> id) {
  const Breaker& breaker = row(house, id);
  const Panel* panel = find_row(house, breaker.panel);
  OneLineDevice made{OneLineSymbol::breaker, "Breaker " + (panel == nullptr ? std::to_string(breaker.space) : breaker_number(*panel, breaker)),
                     {amps_or(breaker.amps, "rating not read") + ", " + poles_words(breaker.poles)}, {HandleKind::breaker, id.value}, {}};
  for (const Circuit& circuit : house.circuits)
    if (circuit.breaker == id && !circuit.wire.empty()) made.words.push_back("wire " + label_name(circuit.wire, 12) + (circuit.wire.find("mm") == std::string::npos ? " AWG" : ""));
  return made;
}

OneLineDevice transfer_device(const House& house, const TransferDevice& device, const std::vector<int>& numbers) {
  OneLineDevice made{OneLineSymbol::transfer, with_capital(transfer_device_text(house, device.id)), {}, {}, source_chain(house, device.source)};
  const auto own = std::ranges::count(house.positions, device.id, &Position::device);
  std::string list;
  for (const int number : numbers) list += (list.empty() ? "" : ", ") + std::to_string(number);
  made.words.push_back(static_cast<std::size_t>(own) == numbers.size() ? sentence::counted(numbers.size(), "position", "positions") : (numbers.size() == 1 ? "position " : "positions ") + list);
  made.words.push_back(device.automatic ? "moves by itself" : "moved by hand");
  return made;
}

std::vector<const Position*> set_of(const House& house, const Position& named) {
  std::vector<const Position*> set;
  for (const Position& position : house.positions)
    if (position.id == named.id || (named.tie && position.tie == named.tie)) set.push_back(&position);
  return set;
}

std::vector<OneLineDevice> devices_of(const House& house, const std::vector<HandleRef>& way, const Panel& panel) {
  std::vector<OneLineDevice> chain;
  for (const HandleRef& ref : way) {
    if (ref.kind == HandleKind::main) {
      chain.push_back({OneLineSymbol::breaker, "Main breaker", {amps_or(panel.main_amps, "rating not read")}, ref, {}});
    } else if (ref.kind == HandleKind::breaker) {
      chain.push_back(breaker_device(house, Id<Breaker>{ref.id}));
    } else if (ref.kind == HandleKind::position) {
      const Position& position = row(house, Id<Position>{ref.id});
      const TransferDevice* device = find_row(house, position.device);
      std::vector<int> numbers;
      for (const Position* one : set_of(house, position)) numbers.push_back(one->number);
      std::ranges::sort(numbers);
      if (device == nullptr) continue;
      chain.push_back(transfer_device(house, *device, numbers));
      chain.back().handle = ref;  // tied: they move together
    }
  }
  return chain;
}

/// Builds the tree panel by panel.
class Drawer {
 public:
  explicit Drawer(const Record& record) : house_(record.house), ways_(record), rooms_(room_words(record.house)) {}

  OneLine draw() {
    for (const Panel& panel : house_.panels) line_.panels.push_back(panel_of(panel));
    for (std::size_t p = 0; p < house_.panels.size(); ++p) hang(p);
    for (std::size_t p = 0; p < house_.panels.size(); ++p) add_transfer_branches(p), count_circuits(p);
    add_notes();
    return std::move(line_);
  }

 private:
  OneLinePanel panel_of(const Panel& panel) {
    OneLinePanel made;
    const std::string label = panel_label(house_, panel.id);
    made.panel = panel.id, made.name = holds_word(label, "panel") ? with_capital(label) : "Panel " + label;
    for (std::size_t r = 0; r < house_.rooms.size(); ++r)
      if (house_.rooms[r].id == panel.room) made.words.push_back("in " + rooms_.rooms[r]);
    made.words.push_back(sentence::counted(static_cast<std::size_t>(panel.spaces), "space", "spaces"));
    for (const Breaker& breaker : house_.breakers)
      if (breaker.panel == panel.id && breaker.backfed_from) add_backfed(made, panel, breaker);
    return made;
  }

  void add_backfed(OneLinePanel& made, const Panel& panel, const Breaker& breaker) {
    std::vector<OneLineDevice> chain = source_chain(house_, breaker.backfed_from);
    chain.push_back(breaker_device(house_, breaker.id));
    chain.back().words.push_back("backfed");
    const HandleRef own{HandleKind::breaker, breaker.id.value}, main{HandleKind::main, panel.id.value};
    std::string words = "NO INTERLOCK IS RECORDED";
    bool with_main = false;
    for (const Interlock& lock : house_.interlocks) {
      if (lock.first != own && lock.second != own) continue;
      const HandleRef other = lock.first == own ? lock.second : lock.first;
      with_main = with_main || other == main;
      words = other == main ? "interlock: never on together with the main" : "interlock: never on together with another handle";
    }
    if (made.backfed.size() >= kMostBackfed) return line_.notes.push_back(made.name + ": breaker " + breaker_number(panel, breaker) + " is fed from a source, too; " + words + ".");
    made.backfed.push_back(std::move(chain)), made.interlocks.push_back(words), made.interlocked.push_back(with_main);
  }

  /// Puts a panel under the one above it, or gives it a supply of its own.
  void hang(std::size_t p) {
    const Panel& panel = house_.panels[p];
    int above = -1;
    std::vector<OneLineDevice> chain = devices_of(house_, ways_.way_to(p, above), panel);
    if (above >= 0) {
      line_.panels[static_cast<std::size_t>(above)].branches.push_back({std::move(chain), static_cast<int>(p), ""});
      return;
    }
    if (panel.main_amps > 0 && chain.empty()) chain.push_back({OneLineSymbol::breaker, "Main breaker", {amps_or(panel.main_amps, "rating not read")}, {HandleKind::main, panel.id.value}, {}});
    const bool utility = ways_.by_utility(p);
    OneLineDevice start{utility ? OneLineSymbol::utility : OneLineSymbol::not_known, utility ? "Utility service" : "Supply not recorded", {}, {}, {}};
    if (utility) start.words = {system_words(house_.dwelling.system)};
    if (!ways_.reached(p)) start.name = "Not fed on an ordinary day", start.words = {feeder_of(house_, panel) ? "hangs on " + breaker_label(house_, feeder_of(house_, panel)) : "its supply is off"};
    chain.insert(chain.begin(), std::move(start));
    line_.panels[p].supply = std::move(chain);
    line_.roots.push_back(p);
  }

  /// Positions that carry branch circuits of this panel: one branch a transfer device.
  void add_transfer_branches(std::size_t p) {
    std::set<std::uint64_t> at_panels;  // positions that stand before a panel are drawn there
    for (const Panel& panel : house_.panels)
      if (const Position* named = panel.supply == Supply::position ? find_row(house_, panel.position) : nullptr)
        for (const Position* one : set_of(house_, *named)) at_panels.insert(one->id.value);
    for (const Panel& panel : house_.panels)
      for (const Position& position : house_.positions)
        if (panel.supply == Supply::breaker && position.breaker == panel.feeder) at_panels.insert(position.id.value);
    for (const TransferDevice& device : house_.transfer_devices) {
      std::vector<int> numbers;
      std::vector<Id<Breaker>> breakers;
      for (const Position& position : house_.positions) {
        const Breaker* breaker = find_row(house_, position.breaker);
        if (position.device != device.id || breaker == nullptr || breaker->panel != house_.panels[p].id || at_panels.contains(position.id.value)) continue;
        numbers.push_back(position.number);
        if (std::ranges::find(breakers, breaker->id) == breakers.end()) breakers.push_back(breaker->id);
      }
      if (breakers.empty()) continue;
      std::ranges::sort(numbers);
      line_.panels[p].branches.push_back(transfer_branch(house_.panels[p], device, numbers, breakers));
    }
  }

  /// "each 20 A"; "15 to 20 A, see the schedule"; "ratings not read".
  [[nodiscard]] std::string ratings_of(const std::vector<Id<Breaker>>& breakers) const {
    std::set<int> amps;
    for (const Id<Breaker> id : breakers) amps.insert(row(house_, id).amps);
    const bool some = amps.erase(0) > 0;
    if (amps.empty()) return "ratings not read";
    const std::string words = amps.size() == 1 ? "each " + std::to_string(*amps.begin()) + " A" : std::to_string(*amps.begin()) + " to " + std::to_string(*amps.rbegin()) + " A, see the schedule";
    return words + (some ? "; some not read" : "");
  }

  OneLineBranch transfer_branch(const Panel& panel, const TransferDevice& device, const std::vector<int>& numbers, const std::vector<Id<Breaker>>& breakers) const {
    OneLineBranch branch;
    std::vector<std::pair<int, std::string>> labels;
    for (const Id<Breaker> id : breakers) labels.emplace_back(row(house_, id).space, breaker_number(panel, row(house_, id)));
    std::ranges::sort(labels);
    std::string list;
    for (const auto& [space, number] : labels) list += (list.empty() ? "" : ", ") + number;
    OneLineDevice first = breakers.size() == 1 ? breaker_device(house_, breakers.front()) : OneLineDevice{OneLineSymbol::breaker, "Breakers " + list, {ratings_of(breakers)}, {}, {}};
    branch.chain = {std::move(first), transfer_device(house_, device, numbers)};
    branch.ends = sentence::counted(breakers.size(), "circuit", "circuits") + " on " + sentence::counted(numbers.size(), "position", "positions");
    return branch;
  }

  void count_circuits(std::size_t p) {
    std::set<std::uint64_t> elsewhere;  // feeders, backfed breakers, and those on a transfer device
    for (const Panel& panel : house_.panels)
      if (const Id<Breaker> feeder = feeder_of(house_, panel)) elsewhere.insert(feeder.value);
    for (const Position& position : house_.positions) elsewhere.insert(position.breaker.value);
    const auto own = std::ranges::count_if(house_.breakers, [&](const Breaker& b) { return b.panel == house_.panels[p].id && !b.backfed_from && !elsewhere.contains(b.id.value); });
    if (own > 0) line_.panels[p].circuits = sentence::counted(static_cast<std::size_t>(own), "other breaker", "other breakers");
    if (own > 0 && line_.panels[p].branches.empty()) line_.panels[p].circuits = sentence::counted(static_cast<std::size_t>(own), "breaker", "breakers");
  }

  void add_notes() {
    for (const Source& source : house_.sources) {
      const bool used = std::ranges::any_of(house_.transfer_devices, [&](const TransferDevice& d) { return d.source == source.id; }) ||
                        std::ranges::any_of(house_.breakers, [&](const Breaker& b) { return b.backfed_from == source.id; });
      if (!used) line_.notes.push_back("Source " + name_or(source.name, "without a name") + " is recorded, and nothing that connects it to the house.");
    }
    for (const TransferDevice& device : house_.transfer_devices) {
      const bool wired = std::ranges::any_of(house_.positions, [&](const Position& p) { return p.device == device.id && p.breaker; });
      const bool before_panel = device.kind == TransferKind::whole_house;
      if (!wired && !before_panel) line_.notes.push_back(with_capital(transfer_device_text(house_, device.id)) + " is recorded; none of its positions carries a circuit yet.");
    }
    line_.notes.push_back("Grounding and the bond of the neutral are not recorded; they belong at the service disconnect only (NFPA 70 250.24(A)(5), from memory).");
  }

  const House& house_;
  SupplyWays ways_;
  RoomWords rooms_;
  OneLine line_;
};

}  // namespace

OneLine one_line(const Record& record) { return Drawer(record).draw(); }

}  // namespace ohmstead
