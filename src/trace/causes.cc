#include "trace/causes.h"

#include <algorithm>
#include <set>

#include "house/index.h"
#include "trace/cause_weights.h"
#include "trace/fault.h"

namespace ohmstead {

using trace_detail::Fault, trace_detail::FaultBench;

namespace {

class CauseList {
 public:
  explicit CauseList(const CauseInput& input) : in_(input), bench_(input), weights_(input.house, input.before) {
    dead_ = input.complaints;
    dead_.insert(dead_.end(), input.also_dead.begin(), input.also_dead.end());
  }

  Causes list() {
    out_.base = bench_.expects({});
    for (std::uint32_t h = 1; h < in_.graph.handles.size(); ++h) add_handle(h);
    add_sources();
    if (is_live(0)) add_neutrals();
    for (const std::size_t p : dead_) add_at_point(p);
    return std::move(out_);
  }

 private:
  [[nodiscard]] bool is_live(int source) const { return in_.base.live_legs[static_cast<std::size_t>(source)] != 0; }
  [[nodiscard]] bool explains(const std::vector<WouldBe>& points) const {
    return std::ranges::any_of(dead_, [&](std::size_t p) { return out_.base[p] == WouldBe::live && may_be_dead(points[p]); });
  }

  /// A scenario of a new cause, or one more of the cause that was added last.
  Scenario& add(const Cause& cause, double weight, std::vector<WouldBe> points) {
    if (out_.causes.empty() || !(out_.causes.back() == cause)) out_.causes.push_back(cause);
    Scenario scenario{out_.causes.size() - 1, weight, std::move(points), {}, 0.96, {}, {}};
    for (std::size_t s = 0; s < in_.base.live_legs.size(); ++s) scenario.source_runs.push_back(in_.base.live_legs[s] != 0 ? 0.97 : 0.03);
    out_.scenarios.push_back(std::move(scenario));
    return out_.scenarios.back();
  }

  void add_handle(std::uint32_t h) {
    const GraphHandle& handle = in_.graph.handles[h];
    const auto first = std::ranges::find(in_.graph.handles, handle.group, &GraphHandle::group);
    if (static_cast<std::uint32_t>(first - in_.graph.handles.begin()) == h && is_first_of_device(handle.ref)) add_open(h);
    if (handle.ref.kind != HandleKind::position && handle.ref.kind != HandleKind::position_breaker && is_first_of_device(handle.ref)) add_nothing_out(h);
    add_lost_poles(h);
  }

  /// A group of wall switches is one cause: which of them was moved, no look can tell.
  [[nodiscard]] bool is_first_of_device(const HandleRef& ref) const {
    if (ref.kind != HandleKind::device) return true;
    const Handle* handle = find_row(in_.house, Id<Handle>{ref.id});
    return handle != nullptr && std::ranges::find(in_.house.handles, handle->device, &Handle::device)->id == handle->id;
  }

  void add_open(std::uint32_t h) {
    const GraphHandle& handle = in_.graph.handles[h];
    const Throw base = in_.base.throws[h];
    const Cause cause{.kind = CauseKind::handle_open, .handle = handle.ref};
    for (Throw to = 0; to < handle.throws; ++to) {
      if (to == base) continue;
      std::vector<WouldBe> points = bench_.expects({.moves = {{h, to}}});
      if (!explains(points)) continue;
      if (weights_.trips(handle.ref) > 0 && to == kOff)
        add(cause, weights_.trips(handle.ref), points).handles = {{handle.group, Stand::tripped}};
      add(cause, weights_.left_off(handle.ref), std::move(points)).handles = {{handle.group, stand_of(handle, to)}};
    }
  }

  void add_nothing_out(std::uint32_t h) {
    std::vector<WouldBe> points = bench_.expects({.handle = h});
    if (explains(points)) add({.kind = CauseKind::nothing_out, .handle = in_.graph.handles[h].ref}, weights_.fails(in_.graph.handles[h].ref), std::move(points));
  }

  void add_lost_poles(std::uint32_t h) {
    const HandleRef ref = in_.graph.handles[h].ref;
    Nodes ends{kNoNode, kNoNode, kNoNode};
    if (ref.kind == HandleKind::breaker) ends = in_.graph.breaker_load[place(in_.house.breakers, ref.id)];
    if (ref.kind == HandleKind::main) ends = in_.graph.panel_bus[place(in_.house.panels, ref.id)];
    if (ends[1] == kNoNode) return;
    for (int pole = 1; pole <= kMostPoles && ends[static_cast<std::size_t>(pole - 1)] != kNoNode; ++pole) {
      std::vector<WouldBe> points = bench_.expects({.handle = h, .only_at = ends[static_cast<std::size_t>(pole - 1)]});
      if (explains(points)) add({.kind = CauseKind::pole_lost, .handle = ref, .pole = pole}, weights_.pole(ref), lost_leg(std::move(points)));
    }
  }

  /// Where a leg is lost, what is dead may glow through a 240 V load.
  [[nodiscard]] std::vector<WouldBe> lost_leg(std::vector<WouldBe> points) const {
    for (std::size_t p = 0; p < points.size(); ++p)
      if (points[p] == WouldBe::dead && out_.base[p] == WouldBe::live && in_.house.points[p].hots == 1) points[p] = WouldBe::leg_gone;
    return points;
  }

  template <class Row>
  [[nodiscard]] static std::size_t place(const std::vector<Row>& table, std::uint64_t id) {
    return static_cast<std::size_t>(std::ranges::find(table, Id<Row>{id}, &Row::id) - table.begin());
  }

  void add_sources() {
    for (int s = 0; s < in_.graph.source_count; ++s) {
      const std::uint8_t legs = in_.base.live_legs[static_cast<std::size_t>(s)];
      if (legs == 0) continue;
      const std::vector<WouldBe> none = bench_.expects({.lost_legs = {{s, legs}}});
      if (explains(none)) add_whole_source(s, none);
      for (int leg = 1; leg <= kMostPoles; ++leg) {
        const auto bit = static_cast<std::uint8_t>(1U << (leg - 1));
        if ((legs & bit) == 0 || legs == bit) continue;
        std::vector<WouldBe> points = bench_.expects({.lost_legs = {{s, bit}}});
        if (explains(points)) add({.kind = CauseKind::leg_lost, .source = s, .leg = leg}, weights_.leg(s), lost_leg(std::move(points))).neighbors_have_power = 0.75;
      }
    }
  }

  void add_whole_source(int s, const std::vector<WouldBe>& none) {
    if (s == 0) {
      add({.kind = CauseKind::utility_gone, .source = 0}, weights_.utility(), none).neighbors_have_power = 0.03;
      add({.kind = CauseKind::service_lost, .source = 0}, weights_.service(), none).neighbors_have_power = 0.97;
    } else {
      add({.kind = CauseKind::source_stopped, .source = s}, weights_.stopped(), none).source_runs[static_cast<std::size_t>(s)] = 0.03;
    }
  }

  /// With the neutral open, 120 V things between two legs share 240 V: those on the loaded leg get less, the others more.
  void add_neutral(const Cause& cause, double weight, const std::vector<bool>& on_it) {
    std::set<int> legs;
    for (std::size_t p = 0; p < on_it.size(); ++p)
      if (on_it[p]) legs.insert(bench_.base_leg(p));
    legs.erase(0);
    if (legs.size() < 2) return;
    for (const int light : legs) {
      std::vector<WouldBe> points = out_.base;
      for (std::size_t p = 0; p < points.size(); ++p)
        if (on_it[p] && points[p] == WouldBe::live) points[p] = bench_.base_leg(p) == light ? WouldBe::strong : WouldBe::weak;
      if (explains(points)) add(cause, weight / static_cast<double>(legs.size()), std::move(points));
    }
  }

  void add_neutrals() {
    std::vector<bool> all(in_.house.points.size());
    for (std::size_t p = 0; p < all.size(); ++p) all[p] = in_.house.points[p].hots == 1;
    add_neutral({.kind = CauseKind::neutral_of_service}, weights_.neutral(), all);
    std::set<Id<Circuit>> shared;
    for (const Circuit& circuit : in_.house.circuits)
      if (circuit.multiwire) shared.insert(circuit.multiwire);
    for (const Id<Circuit> group : shared) {
      std::vector<bool> on_it(all.size());
      HandleRef first;
      for (const Circuit& circuit : in_.house.circuits) {
        if (circuit.multiwire != group) continue;
        if (!first) first = {HandleKind::breaker, circuit.breaker.value};
        for (std::size_t p = 0; p < on_it.size(); ++p)
          on_it[p] = on_it[p] || (all[p] && std::ranges::any_of(in_.feeds.of_point[p].taps, [&](const Tap& tap) { return tap.breaker == circuit.breaker; }));
      }
      add_neutral({.kind = CauseKind::neutral_shared, .handle = first}, weights_.shared_neutral(), on_it);
    }
  }

  void add_at_point(std::size_t p) {
    if (out_.base[p] != WouldBe::live) {
      std::vector<WouldBe> points = out_.base;
      points[p] = WouldBe::dead;
      if (out_.base[p] == WouldBe::unknown) add({.kind = CauseKind::not_recorded, .point = p}, weights_.not_recorded(), std::move(points));
      return;
    }
    std::vector<WouldBe> alone = out_.base;
    alone[p] = WouldBe::dead;
    add({.kind = CauseKind::itself, .point = p}, weights_.itself(in_.house.points[p].kind), std::move(alone)).works_with_other_lamp = {p};
    for (const Tap& tap : in_.feeds.of_point[p].taps) add_loose(p, tap);
  }

  /// Which part of the circuit is dead is not known, only that it is not all of it. Of a few points each part is a scenario.
  void add_loose(std::size_t p, const Tap& tap) {
    const Cause cause{.kind = CauseKind::loose_on_circuit, .handle = {HandleKind::breaker, tap.breaker.value}, .pole = tap.pole};
    if (std::ranges::find(out_.causes, cause) != out_.causes.end()) return;
    std::vector<std::size_t> others;
    for (std::size_t q = 0; q < out_.base.size(); ++q) {
      const bool on_it = std::ranges::any_of(in_.feeds.of_point[q].taps, [&](const Tap& other) { return other.breaker == tap.breaker && other.pole == tap.pole; });
      if (q != p && on_it && out_.base[q] == WouldBe::live) others.push_back(q);
    }
    if (others.empty()) return;
    constexpr std::size_t kFew = 4;
    const bool few = others.size() <= kFew;
    const std::size_t parts = few ? (std::size_t{1} << others.size()) - 1 : 1;
    for (std::size_t part = 0; part < parts; ++part) {
      std::vector<WouldBe> points = out_.base;
      points[p] = WouldBe::dead;
      for (std::size_t i = 0; i < others.size(); ++i) points[others[i]] = !few ? WouldBe::half : (part >> i & 1U) != 0 ? WouldBe::dead : WouldBe::live;
      add(cause, weights_.loose() / static_cast<double>(parts), std::move(points));
    }
  }

  const CauseInput& in_;
  FaultBench bench_;
  trace_detail::CauseWeights weights_;
  std::vector<std::size_t> dead_;
  Causes out_;
};

/// What is found with two faults: the worse of the two.
WouldBe worse(WouldBe a, WouldBe b) {
  const auto rank = [](WouldBe expect) {
    switch (expect) {
      case WouldBe::dead: return 0;
      case WouldBe::leg_gone: return 1;
      case WouldBe::part: return 2;
      case WouldBe::weak: return 3;
      case WouldBe::strong: return 4;
      case WouldBe::half: return 5;
      case WouldBe::unknown: return 6;
      case WouldBe::live: break;
    }
    return 7;
  };
  return rank(a) <= rank(b) ? a : b;
}

Scenario both_of(const Scenario& a, const Scenario& b, std::size_t cause) {
  Scenario both = a;
  both.cause = cause;
  std::ranges::transform(a.points, b.points, both.points.begin(), worse);
  both.handles.insert(both.handles.end(), b.handles.begin(), b.handles.end());
  both.works_with_other_lamp.clear();  // another lamp helps only where nothing else is wrong
  both.neighbors_have_power = std::min(a.neighbors_have_power, b.neighbors_have_power);
  for (std::size_t s = 0; s < both.source_runs.size(); ++s) both.source_runs[s] = std::min(a.source_runs[s], b.source_runs[s]);
  return both;
}

}  // namespace

Causes single_causes(const CauseInput& input) { return CauseList(input).list(); }

void add_pairs(Causes& causes, const std::vector<std::size_t>& likely) {
  const std::size_t singles = causes.causes.size(), scenarios = causes.scenarios.size();
  double all = 0;
  for (const Scenario& scenario : causes.scenarios) all += scenario.weight;
  for (std::size_t i = 0; i < likely.size(); ++i)
    for (std::size_t b = 0; b < singles; ++b) {
      const std::size_t a = likely[i];
      if (a == b || std::ranges::find(likely.begin(), likely.begin() + static_cast<long>(i), b) != likely.begin() + static_cast<long>(i)) continue;
      const std::size_t cause = causes.causes.size();
      causes.causes.push_back({.kind = CauseKind::two_faults, .both = {std::min(a, b), std::max(a, b)}});
      for (std::size_t s = 0; s < scenarios; ++s)
        for (std::size_t t = 0; t < scenarios; ++t) {
          if (causes.scenarios[s].cause != a || causes.scenarios[t].cause != b) continue;
          Scenario both = both_of(causes.scenarios[s], causes.scenarios[t], cause);
          both.weight = causes.scenarios[s].weight * causes.scenarios[t].weight / all * trace_detail::kTwoAtOnce;
          causes.scenarios.push_back(std::move(both));
        }
    }
}

Stand stand_of(const GraphHandle& handle, Throw stands) {
  if (stands == kOff) return Stand::off;
  return handle.ref.kind == HandleKind::position && stands == kBackupSide ? Stand::backup : Stand::on;
}

bool may_be_dead(WouldBe expect) { return expect != WouldBe::live && expect != WouldBe::strong && expect != WouldBe::unknown; }

std::string cause_key(const House& house, const Cause& cause) {
  std::string key(text_of(cause.kind));
  if (cause.handle) key += " " + text_of_ref(cause.handle);
  if (cause.pole > 0) key += " pole " + std::to_string(cause.pole);
  if (cause.source >= 0) key += cause.source == 0 ? " utility" : " source:" + house.sources[static_cast<std::size_t>(cause.source - 1)].id.text();
  if (cause.leg > 0) key += " leg " + std::to_string(cause.leg);
  if (cause.kind == CauseKind::itself || cause.kind == CauseKind::not_recorded) key += " point:" + house.points[cause.point].id.text();
  return key;
}

}  // namespace ohmstead
