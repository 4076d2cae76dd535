#include "ask/signs.h"

#include <algorithm>

#include "ask/label_parts.h"
#include "ask/panel_schedule.h"
#include "ask/paper_names.h"
#include "ask/sentence.h"
#include "ask/words.h"
#include "house/index.h"
#include "rules/panel_text.h"

namespace ohmstead {

namespace {

constexpr double kLeastMessageMm = 4.064;  ///< 0.16 in

std::string in_room(const House& house, Id<Room> id) {
  const Room* room = find_row(house, id);
  return room == nullptr ? "" : " in " + room->name;
}

std::string panel_words(const House& house, const Panel& panel) { return "panel " + panel_label(house, panel.id) + in_room(house, panel.room); }

/// Devices and backfed breakers through which a source meets the house, in words.
std::vector<std::string> meets_at(const House& house, const Source& source) {
  std::vector<std::string> places;
  for (const TransferDevice& device : house.transfer_devices)
    if (device.source == source.id) places.push_back(transfer_device_text(house, device.id) + in_room(house, device.room));
  for (const Breaker& breaker : house.breakers)
    if (const Panel* panel = breaker.backfed_from == source.id ? find_row(house, breaker.panel) : nullptr)
      places.push_back("breaker " + breaker_number(*panel, breaker) + " of " + panel_words(house, *panel));
  return places;
}

bool begins_at_utility(const House& house, const Panel& panel) {
  if (panel.supply == Supply::utility) return true;
  return panel.supply == Supply::position && !feeder_of(house, panel);
}

/// By cord and inlet, to be rolled away; else it stands where it is.
bool comes_by_cord(const Source& source) { return source.kind == SourceKind::generator && (source.inlet_amps > 0 || source.cord_amps > 0); }

class SignMaker {
 public:
  explicit SignMaker(const House& house) : house_(house) {}

  SignSet make() {
    for (const Panel& panel : house_.panels)
      if (begins_at_utility(house_, panel)) at_service(panel);
    for (const Source& source : house_.sources)
      if (!meets_at(house_, source).empty()) at_source(source);
    for (const TransferDevice& device : house_.transfer_devices) at_transfer(device);
    for (const Panel& panel : house_.panels) at_panel(panel);
    not_decided();
    return std::move(set_);
  }

 private:
  void at_service(const Panel& panel) {
    const std::string place = "main breaker of " + panel_words(house_, panel);
    if (panel.supply == Supply::position) set_.not_decided.push_back("A transfer device stands between the utility and " + panel_words(house_, panel) + ". Which handle is the service disconnect is not recorded; it is marked as one (NFPA 70 230.70(B), from memory).");
    if (panel.main_amps > 0 && panel.supply == Supply::utility)
      set_.signs.push_back({SignWord::none, "SERVICE DISCONNECT", {"Main of panel " + panel_label(house_, panel.id) + ", " + std::to_string(panel.main_amps) + " A"}, {}, "Beside the handle of the " + place + ".",
                            "NFPA 70 230.70(B), from memory", "It is the main that the utility feeds. If there is a disconnect outdoors before it, that one is the service disconnect."});
    std::vector<const Source*> sources;
    for (const Source& source : house_.sources)
      if (!meets_at(house_, source).empty()) sources.push_back(&source);
    for (std::size_t first = 0; first < sources.size(); first += 2)
      second_source({sources.begin() + static_cast<long>(first), sources.begin() + static_cast<long>(std::min(first + 2, sources.size()))}, panel.main_amps > 0 ? place : panel_words(house_, panel));
  }

  void second_source(const std::vector<const Source*>& sources, const std::string& place) {
    Sign sign{SignWord::warning, "THIS HOUSE HAS MORE THAN ONE SOURCE OF POWER", {}, {}, "At the service disconnect, beside its handle: " + place + ". If there is an emergency disconnect outdoors, there.",
              "NFPA 70 702.7(A), secondary; its part for dwellings from memory", "With the main off, what a second source feeds is live. Whoever turns off the main must find the others.", 1219, false};
    for (const Source* source : sources) {
      const std::string kind = source->kind == SourceKind::generator ? "generator" : "battery inverter";
      const bool said = folded(source->name).find(folded(kind)) != std::string::npos;
      sign.lines.push_back(source->name + (said ? "" : " (" + kind + ")") + ", at " + joined(meets_at(house_, *source)) + ".");
      sign.to_fill.push_back("To shut down " + source->name + ":");
    }
    set_.signs.push_back(std::move(sign));
  }

  void at_source(const Source& source) {
    if (source.kind == SourceKind::generator && source.fuel != Fuel::natural_gas)
      set_.signs.push_back({SignWord::danger, "CARBON MONOXIDE KILLS", {"Run " + source.name + " outdoors only, at least 20 ft (6 m) from the house, exhaust away from it. Never in a garage or on a porch. Windows shut."}, {},
                            "At the inlet, and on the machine.", "US Consumer Product Safety Commission 2020 to 2022, text; no article asks for it", "Its exhaust kills people indoors. DANGER is for what will kill.", 1219, false});
    if (comes_by_cord(source)) at_inlet(source);
    if (source.output != SourceOutput::full)
      set_.signs.push_back({SignWord::warning, "SINGLE 120-VOLT SUPPLY", {"Do not connect multiwire branch circuits to " + source.name + ". 240-volt equipment does not work on it."}, {}, "At " + joined(meets_at(house_, source)) + ".",
                            source.output == SourceOutput::one_120_both_legs ? "NFPA 70 710.15(C), from memory" : "the reason of NFPA 70 710.15(C), from memory; the article speaks of a supply on both legs",
                            "Its output is one 120 V leg: a shared neutral would carry the sum of two circuits, and no breaker sees it."});
  }

  void at_inlet(const Source& source) {
    if (source.neutral == NeutralBond::not_known) {
      set_.not_decided.push_back("At the inlet of " + source.name + " a sign says whether it is for a bonded or a floating neutral only (NFPA 70 702.7(C), from memory). Which one is not recorded: find out, write it down, and print again.");
      return;
    }
    const bool bonded = source.neutral == NeutralBond::bonded;
    set_.signs.push_back({SignWord::warning, bonded ? "FOR CONNECTION OF A SEPARATELY DERIVED (BONDED NEUTRAL) SYSTEM ONLY" : "FOR CONNECTION OF A NONSEPARATELY DERIVED (FLOATING NEUTRAL) SYSTEM ONLY", {}, {},
                          "At the power inlet for " + source.name + ".", "NFPA 70 702.7(C), its words from memory",
                          source.name + (bonded ? " has its neutral bonded to its frame" : " has a floating neutral") + ". Whoever wires the inlet decides whether the transfer gear fits it.", 1219, false});
  }

  void at_transfer(const TransferDevice& device) {
    const Source* source = find_row(house_, device.source);
    if (source == nullptr) return;
    std::vector<std::string> lines{"Utility and " + source->name + " both enter this box. Turn both off before it is opened, and test."};
    if (device.automatic) lines.push_back("It moves by itself, without warning.");
    set_.signs.push_back({SignWord::warning, "TWO SOURCES INSIDE", std::move(lines), {}, "On the cover of " + transfer_device_text(house_, device.id) + in_room(house_, device.room) + ".",
                          "NFPA 70 110.21(B) for its form, from memory; that there is one is common practice, no source", "With one of its sources off, the other keeps parts of it live."});
  }

  void at_panel(const Panel& panel) {
    for (const Breaker& breaker : house_.breakers)
      if (breaker.panel == panel.id && breaker.backfed_from) at_backfed(panel, breaker);
    std::vector<std::pair<int, std::string>> moved;
    for (const Breaker& breaker : house_.breakers)
      if (breaker.panel == panel.id && std::ranges::any_of(house_.positions, [&](const Position& p) { return p.breaker == breaker.id; })) moved.emplace_back(breaker.space * 2 + (breaker.half == Half::b ? 1 : 0), breaker_number(panel, breaker));
    std::ranges::sort(moved);
    std::vector<std::string> numbers;
    for (const auto& [place, number] : moved) numbers.push_back(number);
    if (!numbers.empty())
      set_.signs.push_back({SignWord::warning, "LIVE WITH THE BREAKER OFF", {"Wires of " + std::string(numbers.size() == 1 ? "circuit " : "circuits ") + joined(numbers) + " in this panel can be live from the backup source when their breakers here, or the main, are off. Test."}, {},
                            "On the door or the dead front of " + panel_words(house_, panel) + ".", "common practice, no source", "These circuits ride on positions of a transfer device, and their wires pass through this panel."});
    if (const Id<Breaker> feeder = feeder_of(house_, panel))
      set_.signs.push_back({SignWord::none, "PANEL " + panel_label(house_, panel.id), {"Fed from " + feeder_words(feeder) + "."}, {}, "On " + panel_words(house_, panel) + ".", "NFPA 70 408.4(B), from memory; not asked of one- and two-family houses, good practice",
                            "Its disconnect is in another panel."});
  }

  [[nodiscard]] std::string feeder_words(Id<Breaker> id) const {
    const Breaker& feeder = row(house_, id);
    const Panel* above = find_row(house_, feeder.panel);
    return above == nullptr ? breaker_label(house_, id) : "breaker " + breaker_number(*above, feeder) + (feeder.amps > 0 ? ", " + std::to_string(feeder.amps) + " A," : "") + " of " + panel_words(house_, *above);
  }

  void at_backfed(const Panel& panel, const Breaker& breaker) {
    const Source* source = find_row(house_, breaker.backfed_from);
    const std::string name = source == nullptr ? "a source" : source->name, number = breaker_number(panel, breaker);
    const HandleRef own{HandleKind::breaker, breaker.id.value};
    const bool locked = std::ranges::any_of(house_.interlocks, [&](const Interlock& lock) { return lock.first == own || lock.second == own; });
    const std::string where = "Beside breaker " + number + " and the main of " + panel_words(house_, panel) + ".";
    if (!locked) {
      set_.signs.push_back({SignWord::danger, "DO NOT TURN ON BREAKER " + number, {"It is fed from " + name + ", and nothing keeps it from feeding the utility's lines, where it kills people at work."}, {}, where,
                            "NFPA 70 702.5, secondary; the words are ours", "No interlock is recorded. This sign takes the place of none: have one put in, and write it down."});
      return;
    }
    set_.signs.push_back({SignWord::warning, "BREAKER " + number + " IS FED FROM " + sentence::capital(name), {"Keep it OFF unless the main is OFF. Do not remove or bypass the interlock."}, {}, where,
                          "NFPA 70 702.5, secondary; the words are ours", "The breaker is fed from its load side, and an interlock keeps the two apart."});
  }

  void not_decided() {
    set_.not_decided.push_back("Emergency disconnect outdoors (NFPA 70 230.85, 2020 and 2023, secondary; reported as deleted there in 2026): where there is one it is marked \"EMERGENCY DISCONNECT, SERVICE DISCONNECT\", or \"EMERGENCY DISCONNECT, METER DISCONNECT, "
                               "NOT SERVICE EQUIPMENT\", or \"EMERGENCY DISCONNECT, NOT SERVICE EQUIPMENT\", in white letters of at least 1/2 in (13 mm) on red (from memory). Whether this house has one is not recorded.");
    const bool any = std::ranges::any_of(house_.sources, [&](const Source& source) { return !meets_at(house_, source).empty(); });
    if (any)
      set_.not_decided.push_back("Where the neutral of a source is grounded at a place of its own, a second sign stands at that place (NFPA 70 702.7(B), secondary). The record does not know where anything is grounded.");
    for (const Source& source : house_.sources) {
      if (meets_at(house_, source).empty() || comes_by_cord(source)) continue;
      if (source.kind == SourceKind::generator) set_.not_decided.push_back(source.name + " may stand in its place for good: then it has a shut-down outdoors (NFPA 70 445.19(C), 2020, from memory), which is named on the sign at the service.");
      else set_.not_decided.push_back(source.name + ": a battery has markings of its own, with figures that are not recorded (NFPA 70 article 706, from memory).");
    }
  }

  const House& house_;
  SignSet set_;
};

}  // namespace

const char* signal_word(SignWord word) {
  static constexpr const char* kWords[] = {"DANGER", "WARNING", "CAUTION", "NOTICE", ""};
  return kWords[static_cast<std::size_t>(word)];
}

SignLetters letters_for(double distance_mm, bool good_light) {
  const double message = std::max(kLeastMessageMm, distance_mm / (good_light ? 300 : 144));
  return {message, std::max(distance_mm / 150, message * 1.5)};
}

std::string sign_code_text(const Sign& sign, const std::string& as_of) {
  const std::string word = sign.word == SignWord::none ? "" : std::string(signal_word(sign.word)) + ".";
  std::vector<std::string> sentences{word, sign.title + ".", "As of " + as_of + "."};
  const std::string shortest = label_parts::code_text(sentences);
  sentences.insert(sentences.end() - 1, sign.lines.begin(), sign.lines.end());
  if (!sign.to_fill.empty()) sentences.insert(sentences.end() - 1, "How to shut down is written on the sign.");
  std::string whole = label_parts::code_text(sentences);
  return whole.size() <= kMostSignCodeBytes ? whole : shortest;
}

SignSet signs_for(const Record& record) {
  const Record named = with_paper_names(record);
  return SignMaker(named.house).make();
}

}  // namespace ohmstead
