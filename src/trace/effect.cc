#include "trace/effect.h"

#include <algorithm>
#include <map>

#include "feed/graph.h"
#include "feed/liveness.h"
#include "house/index.h"

namespace ohmstead {

namespace {

/// The graph of a house of which no feed is known: panels, breakers and transfer positions only.
class Wiring {
 public:
  explicit Wiring(const House& house)
      : house_(house),
        graph_(build_graph(house, {std::vector<Feed>(house.points.size()), std::vector<Feed>(house.devices.size())})),
        usual_(usual_state(graph_)) {}

  [[nodiscard]] Effect effect_of(std::span<const HandleRef> open) const {
    Effect effect;
    State state = usual_;
    for (const HandleRef& ref : open) {
      const auto handle = std::ranges::find(graph_.handles, ref, &GraphHandle::ref);
      if (!ref || handle == graph_.handles.end()) continue;
      effect.nothing_open = false;
      effect.device_open = effect.device_open || ref.kind == HandleKind::device || carries_what_nobody_wrote_down(ref);
      if (!is_one_of_a_group(ref)) move_handle(graph_, state, static_cast<std::uint32_t>(handle - graph_.handles.begin()), kOff);
    }
    mark_poles(effect, state);
    mark_own_handles(effect, open);
    return effect;
  }

 private:
  /// A switch of a 3-way or 4-way group has two throws, and neither of them is 'off': moved the other
  /// way it makes dead what the group works, and no breaker.
  [[nodiscard]] bool is_one_of_a_group(const HandleRef& ref) const {
    const Handle* handle = ref.kind == HandleKind::device ? find_row(house_, Id<Handle>{ref.id}) : nullptr;
    return handle != nullptr && std::ranges::count(house_.handles, handle->device, &Handle::device) > 1;
  }

  /// A position whose circuit is not recorded takes something down, and nobody can say what.
  [[nodiscard]] bool carries_what_nobody_wrote_down(const HandleRef& ref) const {
    const Position* position = ref.kind == HandleKind::position ? find_row(house_, Id<Position>{ref.id}) : nullptr;
    const TransferDevice* device = position == nullptr ? nullptr : find_row(house_, position->device);
    return device != nullptr && device->kind == TransferKind::circuits && !position->breaker;
  }

  void mark_poles(Effect& effect, const State& state) const {
    const Liveness live = liveness(graph_, state);
    effect.dead_poles.assign(house_.breakers.size(), 0);
    for (std::size_t b = 0; b < house_.breakers.size(); ++b)
      for (int p = 0; p < house_.breakers[b].poles; ++p) {
        const Node node = graph_.circuit[b][static_cast<std::size_t>(p)];
        if (node == kNoNode || live.live(node)) continue;
        if (!live.touches_unknown.empty() && live.touches_unknown[node]) continue;
        effect.dead_poles[b] = static_cast<std::uint8_t>(effect.dead_poles[b] | 1U << p);
      }
  }

  void mark_own_handles(Effect& effect, std::span<const HandleRef> open) const {
    effect.own_handle.assign(house_.breakers.size(), false);
    for (const HandleRef& ref : open) {
      const Breaker* opened = ref.kind == HandleKind::breaker ? find_row(house_, Id<Breaker>{ref.id}) : nullptr;
      if (opened == nullptr) continue;
      for (std::size_t b = 0; b < house_.breakers.size(); ++b) {
        const Breaker& mine = house_.breakers[b];
        if (opened->id == mine.id || (mine.tie && mine.tie == opened->tie)) effect.own_handle[b] = true;
      }
    }
  }

  const House& house_;
  Graph graph_;
  State usual_;
};

}  // namespace

Effect effect_of(const House& house, std::span<const HandleRef> open) { return Wiring(house).effect_of(open); }

std::vector<Effect> effects_of_rounds(const House& house) {
  const Index<Round> round_at(house.rounds);
  std::vector<std::vector<HandleRef>> open(house.rounds.size());
  for (const Opened& opened : house.opened)
    if (const long at = round_at.at(opened.round); at >= 0) open[static_cast<std::size_t>(at)].push_back(opened.handle);
  const Wiring wiring(house);
  std::map<std::vector<HandleRef>, Effect> known;
  std::vector<Effect> effects;
  for (auto& handles : open) {
    std::ranges::sort(handles);
    auto found = known.find(handles);
    if (found == known.end()) found = known.emplace(handles, wiring.effect_of(handles)).first;
    effects.push_back(found->second);
  }
  return effects;
}

}  // namespace ohmstead
