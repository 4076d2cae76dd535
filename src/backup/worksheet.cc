#include "backup/worksheet.h"

#include <algorithm>
#include <set>
#include <string_view>

#include "backup/proof_start.h"
#include "backup/proof_wiring.h"
#include "feed/what_if.h"
#include "house/index.h"

namespace ohmstead {

namespace {

constexpr const char* kWired = "wired.";      ///< in front of a key: a tick of the work that was recorded as connected last
constexpr const char* kEarlier = "earlier.";  ///< of the work before that

std::string pole_key(Id<Breaker> breaker, int pole) { return breaker.text() + "." + std::to_string(pole); }
std::string wiring_key(const char* what, const Position& position, Id<Breaker> breaker, int pole) {
  return std::string(what) + ":" + position.id.text() + ":" + pole_key(breaker, pole);
}

class SheetMaker {
 public:
  explicit SheetMaker(const House& house) : house_(house) {
    if (house.planned.empty())
      throw Error(ErrorKind::not_found, "No plan is kept yet; make one and keep it with `ohmstead plan --keep`.");
    for (const Planned& planned : house.planned) {
      const Position* position = planned.position ? find_row(house, planned.position) : nullptr;
      if (position != nullptr) devices_.insert(position->device);
    }
    sheet_.source = source();
  }

  Worksheet make() {
    const std::vector<WorkStep> middle = middle_steps();
    sheet_.wires_move = std::ranges::any_of(middle, [](const WorkStep& step) { return step.moves_wire(); });
    sheet_.connected = !sheet_.wires_move && std::ranges::any_of(house_.ticks, [](const Tick& tick) { return tick.step.starts_with(kWired); });
    before();
    if (sheet_.connected) add_taken_off();
    sheet_.steps.insert(sheet_.steps.end(), middle.begin(), middle.end());
    after();
    if (sheet_.connected) std::ranges::for_each(sheet_.steps, [&](WorkStep& step) { show_as_wired(step); });
    for (WorkStep& step : sheet_.steps) mark(step);
    if (sheet_.connected) std::erase_if(sheet_.steps, [](const WorkStep& step) { return !step.done && is_over(step.kind); });
    return std::move(sheet_);
  }

 private:
  [[nodiscard]] Id<Source> source() const {
    for (const TransferDevice& device : house_.transfer_devices)
      if (devices_.contains(device.id)) return device.source;
    for (const Breaker& breaker : house_.breakers)
      if (breaker.backfed_from) return breaker.backfed_from;
    return house_.sources.size() == 1 ? house_.sources[0].id : Id<Source>{};
  }

  /// Positions of the devices of the plan that carry circuits, in the order of their numbers.
  [[nodiscard]] std::vector<const Position*> positions() const {
    std::vector<const Position*> found;
    for (const Position& position : house_.positions) {
      const TransferDevice* device = find_row(house_, position.device);
      if (device != nullptr && device->kind == TransferKind::circuits && devices_.contains(device->id)) found.push_back(&position);
    }
    std::ranges::stable_sort(found, {}, [](const Position* position) { return position->number; });
    return found;
  }

  [[nodiscard]] const Planned* planned_on(const Position& position) const {
    const auto row = std::ranges::find(house_.planned, position.id, &Planned::position);
    return row == house_.planned.end() ? nullptr : &*row;
  }

  /// Of what was connected by this worksheet the step that did it is shown, not that it stays.
  void show_as_wired(WorkStep& step) const {
    if (step.kind != WorkKind::unchanged) return;
    const Position& position = row(house_, step.position);
    if (tick_of(kWired + wiring_key("connect", position, step.breaker, step.pole)) != nullptr) step = circuit_step(WorkKind::connect, position, step.breaker, step.pole);
  }

  static bool carries(const Position& position, const Planned* planned) {
    return planned == nullptr ? !position.breaker : position.breaker == planned->breaker && position.pole == planned->pole;
  }

  void add(WorkKind kind) { sheet_.steps.push_back({kind, std::string(text_of(kind))}); }

  void before() {
    add(WorkKind::permit);
    add(WorkKind::neutral_fits);
    if (!sheet_.wires_move && !sheet_.connected) return;
    add(WorkKind::readings);
    WorkStep people{WorkKind::people, "people"};
    for (const Load& load : house_.loads)
      if (load.hurt_by_power_loss) people.loads.push_back(load.id);
    if (!people.loads.empty()) sheet_.steps.push_back(people);
    for (const WorkKind kind : {WorkKind::sources_stopped, WorkKind::main_off, WorkKind::test_dead}) add(kind);
  }

  void after() {
    const bool wired = sheet_.wires_move || sheet_.connected;
    if (wired)
      for (const WorkKind kind : {WorkKind::bars, WorkKind::torque}) add(kind);
    for (const WorkKind kind : {WorkKind::labels, WorkKind::signs}) add(kind);
    if (wired)
      for (const WorkKind kind : {WorkKind::checked, WorkKind::power_up}) add(kind);
    if (!devices_.empty()) add(WorkKind::prove);
    if (comes_in_backfed())
      for (const WorkKind kind : {WorkKind::try_interlock, WorkKind::first_run}) add(kind);
  }

  [[nodiscard]] bool comes_in_backfed() const {
    return std::ranges::any_of(house_.breakers, [&](const Breaker& breaker) { return breaker.backfed_from && breaker.backfed_from == sheet_.source; });
  }

  /// Belongs to work that is recorded as done: not to be asked for afterwards.
  static bool is_over(WorkKind kind) { return kind >= WorkKind::readings && kind <= WorkKind::test_dead; }

  [[nodiscard]] const Tick* tick_of(const std::string& key) const {
    const auto found = std::ranges::find(house_.ticks, key, &Tick::step);
    return found == house_.ticks.end() ? nullptr : &*found;
  }

  /// What was taken off for the wiring of now is on no position any more: the ticks alone tell of it.
  void add_taken_off() {
    for (const Position& position : house_.positions)
      for (const Breaker& breaker : house_.breakers)
        for (int pole = 1; pole <= breaker.poles; ++pole)
          if (devices_.contains(position.device) && tick_of(kWired + wiring_key("disconnect", position, breaker.id, pole)) != nullptr)
            sheet_.steps.push_back(circuit_step(WorkKind::disconnect, position, breaker.id, pole));
  }

  /// What is taken off first, then what is connected, then what stays as it is, then what stays on.
  [[nodiscard]] std::vector<WorkStep> middle_steps() const {
    std::vector<WorkStep> off, on, same, keep;
    for (const Position* position : positions()) {
      const Planned* planned = planned_on(*position);
      if (carries(*position, planned)) {
        if (planned != nullptr) same.push_back(circuit_step(WorkKind::unchanged, *position, planned->breaker, planned->pole));
        continue;
      }
      if (position->breaker) off.push_back(circuit_step(WorkKind::disconnect, *position, position->breaker, position->pole));
      if (planned != nullptr) on.push_back(circuit_step(WorkKind::connect, *position, planned->breaker, planned->pole));
    }
    if (!on.empty()) on.front().cautions.push_back(WorkCaution::two_wires);
    add_handles(keep);
    for (auto* part : {&on, &same, &keep}) off.insert(off.end(), part->begin(), part->end());
    return off;
  }

  [[nodiscard]] WorkStep circuit_step(WorkKind kind, const Position& position, Id<Breaker> breaker, int pole) const {
    WorkStep step{kind, wiring_key(std::string(text_of(kind)).c_str(), position, breaker, pole), position.id, breaker, pole};
    const Breaker* row = find_row(house_, breaker);
    if (row == nullptr) return step;
    for (const std::size_t partner : neutral_partners(house_, breaker)) step.partners.push_back(house_.breakers[partner].id);
    if (kind != WorkKind::disconnect && overloads_shared_neutral(house_, sheet_.source, breaker)) step.cautions.push_back(WorkCaution::multiwire_never);
    else if (!step.partners.empty() || shares_own_neutral(breaker)) step.cautions.push_back(WorkCaution::multiwire);
    else if (row->poles > 1 && kind == WorkKind::connect) step.cautions.push_back(WorkCaution::two_pole);
    if (kind == WorkKind::disconnect) return step;
    if (position.amps > 0 && row->amps > position.amps) step.cautions.push_back(WorkCaution::receptacles_of_20);
    if (row->protection != Protection::plain) step.cautions.push_back(WorkCaution::protection_bypassed);
    return step;
  }

  /// A two-pole breaker that feeds 120 V points on both poles.
  [[nodiscard]] bool shares_own_neutral(Id<Breaker> breaker) const {
    const auto circuit = std::ranges::find(house_.circuits, breaker, &Circuit::breaker);
    return circuit != house_.circuits.end() && circuit->multiwire == circuit->id && row(house_, breaker).poles > 1;
  }

  /// The plan's circuits without a position: breakers that stay on, and the rest of their panels.
  void add_handles(std::vector<WorkStep>& steps) const {
    std::vector<Id<Breaker>> kept;
    std::vector<Id<Panel>> panels;
    for (const Planned& planned : house_.planned) {
      const Breaker* breaker = find_row(house_, planned.breaker);
      if (planned.position || breaker == nullptr || std::ranges::find(kept, breaker->id) != kept.end()) continue;
      kept.push_back(breaker->id);
      if (std::ranges::find(panels, breaker->panel) == panels.end()) panels.push_back(breaker->panel);
    }
    for (const Id<Breaker> breaker : kept) {
      WorkStep step{WorkKind::keep_on, "keep_on:" + breaker.text()};
      step.breaker = breaker;
      steps.push_back(step);
    }
    for (const Id<Panel> panel : panels) {
      WorkStep step{WorkKind::off_list, "off_list:" + panel.text()};
      step.panel = panel;
      steps.push_back(step);
    }
  }

  void mark(WorkStep& step) const {
    const Tick* tick = tick_of((sheet_.connected ? kWired : "") + step.key);
    if (tick == nullptr) return;
    step.done = true, step.at = tick->at, step.who = tick->who;
  }

  const House& house_;
  std::set<Id<TransferDevice>> devices_;
  Worksheet sheet_;
};

}  // namespace

Worksheet worksheet(const House& house) { return SheetMaker(house).make(); }

void tick_step(House& house, const std::string& key, const std::string& at, const std::string& who) {
  const Worksheet sheet = worksheet(house);
  const auto step = std::ranges::find(sheet.steps, key, &WorkStep::key);
  if (step == sheet.steps.end())
    throw Error(ErrorKind::not_found, "The worksheet has no step '" + key + "'; `ohmstead worksheet` lists its steps with their numbers.");
  if (!step->done) house.ticks.push_back({Id<Tick>::fresh(), (sheet.connected ? kWired : "") + key, at, who});
}

bool untick_step(House& house, const std::string& key) {
  const std::string kept_as = (!house.planned.empty() && worksheet(house).connected ? kWired : "") + key;
  return std::erase_if(house.ticks, [&](const Tick& tick) { return tick.step == kept_as; }) > 0;
}

std::vector<std::size_t> wiring_not_done(const Worksheet& sheet) {
  std::vector<std::size_t> missing;
  for (std::size_t i = 0; i < sheet.steps.size(); ++i)
    if (sheet.steps[i].is_wiring() && !sheet.steps[i].done) missing.push_back(i);
  return missing;
}

void plan_is_connected(House& house) {
  const Worksheet sheet = worksheet(house);
  if (const auto missing = wiring_not_done(sheet); !missing.empty())
    throw Error(ErrorKind::invalid_input, std::to_string(missing.size()) + (missing.size() == 1 ? " step of the wiring is" : " steps of the wiring are") +
                                              " not ticked yet; tick each when it is done: `ohmstead worksheet --done next`.");
  for (const WorkStep& step : sheet.steps)
    if (step.kind == WorkKind::disconnect) row(house, step.position).breaker = {}, row(house, step.position).pole = 1;
  for (const WorkStep& step : sheet.steps) {
    if (step.kind != WorkKind::connect) continue;
    Position& position = row(house, step.position);
    position.breaker = step.breaker, position.pole = step.pole;
  }
  if (!sheet.wires_move) return;
  for (Tick& tick : house.ticks) {
    if (tick.step.starts_with(kWired)) tick.step = kEarlier + tick.step.substr(std::string_view(kWired).size());
    else if (std::ranges::find(sheet.steps, tick.step, &WorkStep::key) != sheet.steps.end()) tick.step = kWired + tick.step;
  }
  prove_anew(house);
}

}  // namespace ohmstead
