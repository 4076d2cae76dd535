#include "ask/panel_schedule.h"

#include <algorithm>

#include "ask/sentence.h"
#include "ask/watts.h"
#include "backup/figures.h"
#include "house/index.h"
#include "rules/panel_text.h"
#include "rules/plain_words.h"
#include "rules/room_words.h"

namespace ohmstead {

namespace {

constexpr std::size_t kLongestName = 40;

std::size_t at_pole(int pole) { return static_cast<std::size_t>(std::clamp(pole, 1, kMostPoles) - 1); }

/// What is connected to every pole of every breaker.
class LoadBook {
 public:
  explicit LoadBook(const Record& record) : house_(record.house), breaker_at_(record.house.breakers), va_(record.house.breakers.size()), done_(record.house.panels.size()) {
    for (std::size_t l = 0; l < house_.loads.size(); ++l) loads_.push_back(placed(record, l));
    for (std::size_t p = 0; p < house_.panels.size(); ++p) add_panels_behind(p);
  }
  [[nodiscard]] const LegVa& on(Id<Breaker> breaker) const { return va_[static_cast<std::size_t>(breaker_at_.at(breaker))]; }  // by pole
  [[nodiscard]] std::vector<ScheduleLoad> take_loads() { return std::move(loads_); }

  /// Leg of each pole of a breaker, and what is on it.
  [[nodiscard]] std::vector<SchedulePole> poles_of(const Panel& panel, const Breaker& breaker) const {
    std::vector<SchedulePole> poles;
    const int legs = std::max(1, panel_legs(house_, panel));
    for (const PolePlace& place : pole_places(panel, breaker)) {
      const std::size_t pole = std::min<std::size_t>(poles.size(), kMostPoles - 1);
      poles.push_back({place, bus_leg(panel, place.space, legs), on(breaker.id)[pole]});
    }
    return poles;
  }

 private:
  ScheduleLoad placed(const Record& record, std::size_t l);
  void add_panels_behind(std::size_t p);

  const House& house_;
  Index<Breaker> breaker_at_;
  std::vector<LegVa> va_;      ///< of house.breakers, by pole
  std::vector<bool> done_;     ///< panels whose feeder carries them already
  std::vector<ScheduleLoad> loads_;
};

std::string load_name(const House& house, const Load& load, const Point* point) {
  const std::string name = label_name(load.name.empty() && point != nullptr ? point->name : load.name, kLongestName);
  const Room* room = point == nullptr ? nullptr : find_row(house, point->room);
  const std::string where = room == nullptr ? "" : label_name(room->name, kLongestRoomWords);
  return (name.empty() ? "a load" : name) + (where.empty() ? "" : " (" + where + ")");
}

ScheduleLoad LoadBook::placed(const Record& record, std::size_t l) {
  const Load& load = house_.loads[l];
  const LoadFigures figures = figures_of(house_, load);
  const Point* point = find_row(house_, load.point);
  ScheduleLoad made{l, load_name(house_, load, point), "", figures.known ? planned_running(figures) : 0,
                    figures.known ? basis_text(figures.running_basis, figures.running_source) : "not known: counts as nothing", ""};
  if (point == nullptr) return made.why_not = "it is at no point", made;
  const Feed& feed = record.feeds.of_point[static_cast<std::size_t>(point - house_.points.data())];
  if (feed.standing == Standing::disputed) return made.why_not = "what was seen of its circuit contradicts itself", made;
  if (feed.standing == Standing::open || feed.taps.empty()) return made.why_not = "its circuit is not found yet", made;
  std::vector<Tap> taps = feed.taps;
  std::ranges::sort(taps);
  for (std::size_t i = 1; i < taps.size(); ++i)
    if (taps[i].hot == taps[i - 1].hot) return made.why_not = "one conductor of it is fed from two breakers", made;
  made.circuit = breaker_label(house_, taps.front().breaker);
  const auto hots = static_cast<long long>(std::max<std::size_t>(static_cast<std::size_t>(std::max(1, point->hots)), taps.size()));
  long long left = made.va;
  for (std::size_t i = 0; i < taps.size(); ++i) {  // the odd voltampere goes to the last hot
    const long long share = i + 1 == taps.size() && static_cast<long long>(taps.size()) == hots ? left : made.va / hots;
    if (const long at = breaker_at_.at(taps[i].breaker); at >= 0) va_[static_cast<std::size_t>(at)][at_pole(taps[i].pole)] += share;
    left -= share;
  }
  return made;
}

/// Everything on a panel's legs goes to the poles that feed it; panels behind it first.
void LoadBook::add_panels_behind(std::size_t p) {
  if (done_[p]) return;
  done_[p] = true;
  const Panel& panel = house_.panels[p];
  for (std::size_t q = 0; q < house_.panels.size(); ++q) {
    const Breaker* feeder = find_row(house_, feeder_of(house_, house_.panels[q]));
    if (feeder != nullptr && feeder->panel == panel.id) add_panels_behind(q);
  }
  LegVa total{};
  for (const Breaker& breaker : house_.breakers)
    if (breaker.panel == panel.id)
      for (const SchedulePole& pole : poles_of(panel, breaker)) total[at_pole(pole.leg)] += pole.va;
  const std::vector<LineSide> above = line_side(house_, panel);
  for (std::size_t leg = 0; leg < above.size() && leg < total.size(); ++leg)
    if (const long at = breaker_at_.at(above[leg].breaker); at >= 0) va_[static_cast<std::size_t>(at)][at_pole(above[leg].pole)] += total[leg];
}

std::string kind_of(const House& house, const Breaker& breaker) {
  std::vector<std::string> words;
  if (breaker.backfed_from) words.push_back("backfed");
  for (const Panel& panel : house.panels)
    if (feeder_of(house, panel) == breaker.id) words.push_back("feeder");
  if (breaker.protection != Protection::plain)
    words.push_back(breaker.protection == Protection::gfci ? "GFCI" : breaker.protection == Protection::afci ? "AFCI" : "AFCI/GFCI");
  if (breaker.tie) words.push_back("tied");
  std::string text;
  for (const std::string& word : words)
    if (text.find(word) == std::string::npos) text += (text.empty() ? "" : ", ") + word;
  return text;
}

std::string wire_words(const House& house, Id<Breaker> breaker) {
  for (const Circuit& circuit : house.circuits) {
    if (circuit.breaker != breaker || (circuit.wire.empty() && circuit.length_m == 0)) continue;
    const std::string size = label_name(circuit.wire, 12);
    const bool metric = size.find("mm") != std::string::npos;
    const std::string metal = circuit.material == WireMaterial::not_known ? "" : circuit.material == WireMaterial::copper ? " copper" : circuit.material == WireMaterial::aluminium ? " aluminum" : " copper-clad aluminum";
    return (size.empty() ? "wire size not recorded" : "wire " + size + (metric ? "" : " AWG") + metal) + (circuit.length_m > 0 ? ", " + std::to_string(circuit.length_m) + " m" : "");
  }
  return "wire not recorded";
}

std::string fed_by(const House& house, const Panel& panel) {
  if (panel.supply == Supply::utility) return "Fed by the utility.";
  const Position* position = panel.supply == Supply::position ? find_row(house, panel.position) : nullptr;
  const TransferDevice* device = position == nullptr ? nullptr : find_row(house, position->device);
  const std::string through = device == nullptr ? "" : " through " + transfer_device_text(house, device->id);
  const Breaker* feeder = find_row(house, feeder_of(house, panel));
  if (feeder == nullptr) return through.empty() ? "What feeds it is not recorded." : "Fed by the utility" + through + ".";
  return "Fed from " + breaker_label(house, feeder->id) + " (" + (feeder->amps > 0 ? std::to_string(feeder->amps) + " A" : "rating not read") + ", " + wire_words(house, feeder->id) + ")" + through + ".";
}

std::vector<std::string> facts_of(const House& house, const Panel& panel) {
  std::string where = "Place not recorded";
  for (std::size_t r = 0; r < house.rooms.size(); ++r)
    if (house.rooms[r].id == panel.room) where = "In " + room_words(house).rooms[r];
  const std::string main = panel.main_amps > 0 ? "main breaker " + std::to_string(panel.main_amps) + " A" : "no main breaker";
  return {where + ". " + system_words(house.dwelling.system) + ", " + sentence::counted(static_cast<std::size_t>(panel.spaces), "space", "spaces") + ", " + main + ".", fed_by(house, panel),
          "Not recorded: rating of the bus, interrupting rating, mounting."};
}

std::vector<std::string> sums_of(const House& house, const PanelSchedule& schedule) {
  std::vector<std::string> sums;
  const VoltageSystem system = house.dwelling.system;
  const bool plain = system == VoltageSystem::split_phase_120_240 || system == VoltageSystem::single_230;  // else currents do not add up as numbers
  long long whole = 0;
  for (int leg = 0; leg < schedule.legs; ++leg) {
    const long long va = schedule.total[static_cast<std::size_t>(leg)];
    whole += va;
    sums.push_back("Leg " + std::to_string(leg + 1) + ": " + thousands(va) + " VA" + (plain ? ", " + amps_text(static_cast<double>(va) / volts_to_neutral(system)) : ""));
  }
  sums.push_back("In all: " + thousands(whole) + " VA");
  return sums;
}

PanelSchedule schedule_of(const Record& record, const Panel& panel, const LoadBook& book) {
  const House& house = record.house;
  PanelSchedule schedule{panel.id, panel_label(house, panel.id), facts_of(house, panel), std::max(1, panel_legs(house, panel)), {}, {}, {}};
  for (const CircuitWords& words : panel_words(house, record.feeds, panel.id)) {
    const Breaker& breaker = row(house, words.breaker);
    schedule.entries.push_back({words, breaker_number(panel, breaker), breaker.amps > 0 ? std::to_string(breaker.amps) : "?", breaker.poles, kind_of(house, breaker), book.poles_of(panel, breaker)});
    for (const SchedulePole& pole : schedule.entries.back().poles) schedule.total[at_pole(pole.leg)] += pole.va;
  }
  schedule.sums = sums_of(house, schedule);
  return schedule;
}

}  // namespace

PanelSchedules panel_schedules(const Record& record) {
  PanelSchedules schedules;
  LoadBook book(record);
  for (const Panel& panel : record.house.panels) schedules.panels.push_back(schedule_of(record, panel, book));
  schedules.loads = book.take_loads();
  return schedules;
}

std::string system_words(VoltageSystem system) {
  switch (system) {
    case VoltageSystem::split_phase_120_240: return "120/240 V, 1 phase";
    case VoltageSystem::wye_120_208: return "208Y/120 V, two legs of a wye";
    case VoltageSystem::wye_120_208_3: return "208Y/120 V, 3 phase";
    case VoltageSystem::single_230: break;
  }
  return "230 V, 1 phase";
}

}  // namespace ohmstead
