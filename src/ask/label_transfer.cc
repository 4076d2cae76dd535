#include <map>
#include <set>

#include "ask/answer_words.h"
#include "ask/fed_words.h"
#include "ask/label_parts.h"
#include "ask/watts.h"
#include "backup/plan_problem.h"
#include "house/index.h"
#include "house/numbering.h"
#include "rules/circuit_phrases.h"
#include "rules/panel_text.h"
#include "rules/plain_words.h"
#include "rules/wording.h"

namespace ohmstead {

using namespace label_parts;

namespace {

/// What a position carries, by the record or by the plan.
struct Carried {
  Id<Breaker> breaker;
  int pole = 1;
  bool operator==(const Carried&) const = default;
};

class TransferMaker {
 public:
  explicit TransferMaker(const LabelRecord& from) : from_(from), house_(from.record.house), facts_(wording_facts(house_, from.record.feeds)), proofs_(position_proofs(from.record)) {}
  LabelStrip strip(const TransferDevice& device, std::optional<StripOf> what);

 private:
  [[nodiscard]] Carried carried_by(const Position& position) const;
  void read_plan(const TransferDevice& device);
  [[nodiscard]] std::string watts(Id<Breaker> breaker) const;
  [[nodiscard]] std::vector<std::string> wiring(const Position& position) const;
  void say_circuit(LabelItem& item, Id<Breaker> breaker);
  void offer_codes(LabelItem& item, const std::string& positions, const std::string& wired) const;
  const std::vector<CircuitWords>& words_of(Id<Panel> panel);

  const LabelRecord& from_;
  const House& house_;
  WordingFacts facts_;
  PositionProofs proofs_;
  StripOf of_ = StripOf::wired_now;
  std::optional<BackupCase> backup_;
  Plan plan_;
  std::map<Id<Panel>, std::vector<CircuitWords>> words_;
};

/// The loads of every circuit, as a plan counts them; none where the record is not ready for a plan.
void TransferMaker::read_plan(const TransferDevice& device) {
  backup_.reset(), plan_ = {};
  for (std::size_t source = 0; source < house_.sources.size(); ++source) {
    if (house_.sources[source].id != device.source) continue;
    try {
      backup_ = backup_case(house_, from_.record.feeds, source);
      plan_ = kept_plan(house_, *backup_);
    } catch (const Error&) {
      backup_.reset();  // no watts of the source, or nothing wished for: the strip says what it knows without them
    }
  }
}

Carried TransferMaker::carried_by(const Position& position) const {
  if (of_ == StripOf::wired_now) return {position.breaker, position.pole};
  const auto planned = std::ranges::find(house_.planned, position.id, &Planned::position);
  return planned == house_.planned.end() ? Carried{} : Carried{planned->breaker, planned->pole};
}

/// "350 W, 1,200 W to start; 1,000 W when wanted"
std::string TransferMaker::watts(Id<Breaker> breaker) const {
  if (!backup_) return "watts not known";
  const auto circuit = std::ranges::find_if(backup_->circuits, [&](const CarriedCircuit& one) { return std::ranges::find(one.poles, breaker, &BreakerPole::breaker) != one.poles.end(); });
  if (circuit == backup_->circuits.end() || circuit->loads.empty()) return "nothing wished for";
  const auto at = static_cast<int>(circuit - backup_->circuits.begin());
  const auto placed = std::ranges::find(plan_.placed, at, &Placed::circuit);
  int running = 0, extra = 0, wanted = 0;
  bool unknown = false;
  for (std::size_t i = 0; i < circuit->loads.size(); ++i) {
    const LoadFigures& figures = circuit->loads[i].figures;
    if (placed != plan_.placed.end() && !placed->served[i]) continue;
    unknown = unknown || !figures.known;
    const int draws = figures.known ? planned_running(figures) : 0;
    if (circuit->loads[i].use == LoadUse::on_demand) wanted = std::max(wanted, draws);
    else running += draws, extra = std::max(extra, figures.known ? planned_starting(figures) - draws : 0);
  }
  if (running == 0 && wanted == 0 && !unknown) return "nothing to run";  // what is wished for is too much: it is left off
  std::string text = running > 0 || wanted == 0 ? watts_text(running) : "";
  if (unknown) text = running > 0 ? text + " + ?" : "? W";
  if (extra > 0) text += ", " + watts_text(running + extra) + " to start";
  if (wanted > 0) text += (text.empty() ? "" : "; ") + watts_text(wanted) + " when wanted";
  return text;
}

std::vector<std::string> TransferMaker::wiring(const Position& position) const {
  if (of_ == StripOf::kept_plan && carried_by(position) != Carried{position.breaker, position.pole}) return {"PLAN, not wired yet", "not wired yet"};
  const auto proof = proofs_.find(position.id);
  if (proof == proofs_.end()) return {"wired now"};
  switch (proof->second) {
    case ProofResult::not_yet: return {"wired now, not proved", "not proved"};
    case ProofResult::proved: return {"wired now, proved", "proved"};
    case ProofResult::wrong: break;
  }
  return {"FOUND WRONG, do not use", "FOUND WRONG"};
}

const std::vector<CircuitWords>& TransferMaker::words_of(Id<Panel> panel) {
  const auto [found, fresh] = words_.try_emplace(panel);
  if (fresh) found->second = panel_words(house_, from_.record.feeds, panel);
  return found->second;
}

void TransferMaker::say_circuit(LabelItem& item, Id<Breaker> id) {
  const Breaker* breaker = find_row(house_, id);
  const Panel* panel = breaker == nullptr ? nullptr : find_row(house_, breaker->panel);
  if (panel == nullptr) return;
  const auto& words = words_of(panel->id);
  const auto found = std::ranges::find(words, id, &CircuitWords::breaker);
  const auto items = fed_items(facts_, id);
  const std::string number = breaker_number(*panel, *breaker);
  add_line(item, {found == words.end() ? "" : found->text, items.empty() ? "" : phrasings(facts_, items, Detail::none).back(), "See list"}, true);
  const std::string drawn = watts(id);
  add_line(item, {drawn, drawn.substr(0, drawn.find(';')), drawn.substr(0, drawn.find(" W,") == std::string::npos ? std::string::npos : drawn.find(" W,") + 2)}, true);
  add_line(item, {"Breaker " + number + " of " + panel_title(*panel), "Breaker " + number});
}

/// The lines of a cell as sentences; the breaker's number is among the first words.
void TransferMaker::offer_codes(LabelItem& item, const std::string& positions, const std::string& wired) const {
  if (item.lines.size() < 4) return;
  const std::string breaker = positions + ", " + without_capital(item.lines[3].ways.front()) + ".", as_of = "As of " + from_.as_of + ".";
  const std::string &circuit = item.lines[1].ways.front(), &drawn = item.lines[2].ways.front();
  offer_code(item, {breaker, circuit + ".", with_capital(drawn) + ".", with_capital(wired) + ".", as_of});
  offer_code(item, {breaker, with_capital(drawn) + ".", with_capital(wired) + ".", as_of});
  offer_code(item, {breaker, with_capital(wired) + ".", as_of});
}

LabelStrip TransferMaker::strip(const TransferDevice& device, std::optional<StripOf> what) {
  std::vector<const Position*> positions;
  for (const Position& position : house_.positions)
    if (position.device == device.id) positions.push_back(&position);
  std::ranges::stable_sort(positions, {}, &Position::number);
  const bool any_wired = std::ranges::any_of(positions, [](const Position* position) { return bool(position->breaker); });
  of_ = what.value_or(any_wired || house_.planned.empty() ? StripOf::wired_now : StripOf::kept_plan);
  read_plan(device);
  LabelStrip strip;
  strip.key = "transfer:" + device.id.text();
  strip.head = with_capital(transfer_device_text(house_, device.id)) + (of_ == StripOf::wired_now ? ", as wired" : ", by the plan");
  const std::string name = label_name(device.name, 24), how = of_ == StripOf::wired_now ? ", as wired" : ", by the plan";
  if (!name.empty()) strip.short_heads = {name + how, name};
  else if (house_.transfer_devices.size() == 1) strip.short_heads = {"Transfer device"};
  strip.name = "strip of " + transfer_device_text(house_, device.id);
  strip.down = false;
  for (std::size_t i = 0; i < positions.size(); ++i) {
    const Position& position = *positions[i];
    const Carried carried = carried_by(position);
    std::size_t last = i;  // tied positions beside each other that carry one breaker are one cell
    while (last + 1 < positions.size() && position.tie && positions[last + 1]->tie == position.tie && carried.breaker && carried_by(*positions[last + 1]).breaker == carried.breaker)
      ++last;
    const std::string numbers = std::to_string(position.number) + (last > i ? "-" + std::to_string(positions[last]->number) : "");
    LabelItem item{"transfer:" + position.id.text(), "cell " + numbers + " of " + transfer_device_text(house_, device.id), {}, {}, location_of(house_, device.room)};
    add_line(item, {numbers}, true);
    if (carried.breaker) {
      say_circuit(item, carried.breaker);
      const std::vector<std::string> wired = wiring(position);
      add_line(item, wired, true);
      offer_codes(item, (last > i ? "Positions " : "Position ") + numbers, wired.front());
    } else {
      add_line(item, {of_ == StripOf::wired_now ? "nothing wired" : "not in the plan", "free"}, true);
    }
    strip.cells.push_back({std::move(item), 2 * static_cast<int>(i), 2 * static_cast<int>(last - i + 1)});
    i = last;
  }
  strip.places = static_cast<int>(positions.size());
  return strip;
}

}  // namespace

std::vector<LabelStrip> transfer_strips(const LabelRecord& from, std::optional<StripOf> what) {
  const House& house = from.record.house;
  if (what == StripOf::kept_plan && house.planned.empty())
    throw Error(ErrorKind::not_found, "No plan is kept yet; `ohmstead plan --keep` keeps the best one. Without --planned the strip says what is wired now.");
  TransferMaker maker(from);
  std::vector<LabelStrip> strips;
  for (const TransferDevice& device : house.transfer_devices) {
    if (device.kind != TransferKind::circuits) continue;
    if (LabelStrip strip = maker.strip(device, what); strip.places > 0) strips.push_back(std::move(strip));
  }
  return strips;
}

}  // namespace ohmstead
