#include "feed/graph.h"

#include <algorithm>

#include "feed/graph_builder.h"
#include "house/error.h"

namespace ohmstead {

std::uint32_t Graph::handle_of(const HandleRef& ref) const {
  const auto found = std::ranges::find(handles, ref, &GraphHandle::ref);
  if (!ref || found == handles.end())
    throw Error(ErrorKind::not_found, "There is no handle '" + text_of_ref(ref) + "' in this house.");
  return static_cast<std::uint32_t>(found - handles.begin());
}

Graph build_graph(const House& house, const Feeds& feeds) { return feed_detail::Builder(house, feeds).build(); }

State usual_state(const Graph& graph) {
  State state;
  for (const GraphHandle& handle : graph.handles) state.throws.push_back(handle.usual);
  state.live_legs.assign(static_cast<std::size_t>(graph.source_count), 0);
  for (const Terminal& terminal : graph.terminals)
    if (terminal.source == 0) state.live_legs[0] = static_cast<std::uint8_t>(state.live_legs[0] | 1 << (terminal.leg - 1));
  return state;
}

State backup_state(const House& house, const Graph& graph, std::size_t source) {
  State state = usual_state(graph);
  state.live_legs[0] = 0;
  for (const Terminal& terminal : graph.terminals)
    if (terminal.source == static_cast<int>(source) + 1)
      state.live_legs[source + 1] = static_cast<std::uint8_t>(state.live_legs[source + 1] | 1 << (terminal.leg - 1));
  const Id<Source> id = house.sources[source].id;
  for (const Position& position : house.positions) {
    const auto device = std::ranges::find(house.transfer_devices, position.device, &TransferDevice::id);
    if (device != house.transfer_devices.end() && device->source == id)
      move_handle(graph, state, graph.handle_of({HandleKind::position, position.id.value}), kBackupSide);
  }
  for (const Breaker& breaker : house.breakers) {
    if (breaker.backfed_from != id) continue;
    const auto handle = graph.handle_of({HandleKind::breaker, breaker.id.value});
    for (const InterlockedPair& pair : graph.interlocks) {
      if (pair.first == handle) move_handle(graph, state, pair.second, kOff);
      if (pair.second == handle) move_handle(graph, state, pair.first, kOff);
    }
    move_handle(graph, state, handle, kOn);
  }
  return state;
}

void move_handle(const Graph& graph, State& state, std::uint32_t handle, Throw to) {
  const std::uint32_t group = graph.handles[handle].group;
  for (std::size_t h = 1; h < graph.handles.size(); ++h)
    if (graph.handles[h].group == group) state.throws[h] = to;
}

}  // namespace ohmstead
