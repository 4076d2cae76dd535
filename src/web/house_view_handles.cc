// Handles, sources, and the diagrams that say what they do.

#include "ask/answers.h"
#include "ask/watts.h"
#include "house/numbering.h"
#include "web/house_view_parts.h"

namespace ohmstead::web::view_parts {

namespace {

struct HandleWords {
  std::string kind, shortly;
  Json room;
};

/// As marked on it or beside it.
HandleWords words_of(const ViewInput& in, const HandleRef& ref) {
  const House& house = in.record.house;
  switch (ref.kind) {
    case HandleKind::main: return {"main", "MAIN", room_no(in, row(house, Id<Panel>{ref.id}).room)};
    case HandleKind::breaker: {
      const Breaker& breaker = row(house, Id<Breaker>{ref.id});
      const Panel& panel = row(house, breaker.panel);
      return {"breaker", breaker_number(panel, breaker), room_no(in, panel.room)};
    }
    case HandleKind::position:
    case HandleKind::position_breaker: {
      const Position& position = row(house, Id<Position>{ref.id});
      const bool own = ref.kind == HandleKind::position_breaker;
      return {text_of(ref.kind).data(), std::to_string(position.number) + (own ? " breaker" : ""), room_no(in, row(house, position.device).room)};
    }
    case HandleKind::device: {
      const Handle& handle = row(house, Id<Handle>{ref.id});
      const Device& device = row(house, handle.device);
      return {text_of(device.kind).data(), handle.name.empty() ? device.name : handle.name, room_no(in, handle.room)};
    }
    case HandleKind::none: break;
  }
  return {"none", "", nullptr};
}

Json throw_words(const GraphHandle& handle) {
  if (handle.ref.kind == HandleKind::position) return {"off", "utility", "backup"};
  if (handle.ref.kind == HandleKind::device && handle.usual == kOff) return {"one way", "the other way"};
  return {"off", "on"};
}

Json handle_json(const ViewInput& in, std::uint32_t h, std::uint32_t variable) {
  const GraphHandle& handle = in.record.graph.handles[h];
  const HandleWords words = words_of(in, handle.ref);
  const OffAnswer away = what_goes_off(in.record, {{handle.ref, away_from_usual(handle)}}, {});
  return {{"ref", text_of_ref(handle.ref)}, {"name", in.names.name_of(handle.ref)}, {"short", words.shortly}, {"kind", words.kind},
          {"throws", throw_words(handle)}, {"usual", handle.usual}, {"variable", variable}, {"may_isolate", handle.may_isolate},
          {"room", words.room}, {"carries", away.change.off}};
}

Json source_json(const House& house, std::size_t s) {
  if (s == 0) return {{"id", ""}, {"name", "Utility"}, {"kind", "utility"}, {"words", ""}, {"variable", 0}};
  const Source& source = house.sources[s - 1];
  std::string words;
  if (source.running_watts > 0) words = watts_text(source.running_watts) + " running";
  if (source.starting_watts > source.running_watts) words += std::string(words.empty() ? "" : ", ") + watts_text(source.starting_watts) + " for a start";
  return {{"id", source.id.text()}, {"name", source.name}, {"kind", text_of(source.kind)}, {"words", words.empty() ? "" : words + "."}, {"variable", s}};
}

Json node_json(const Diagrams& diagrams, const DiagramNode& node) {
  Json made = Json::array({node.variable});
  for (std::size_t value = 0; value < diagrams.variables[node.variable].throws; ++value) made.push_back(node.next[value]);
  return made;
}

}  // namespace

void add_handles(const ViewInput& in, Json& view) {
  const Graph& graph = in.record.graph;
  std::vector<std::uint32_t> variable_of(graph.handles.size(), 0);
  Json variables = Json::array();
  for (std::uint32_t v = 0; v < in.diagrams.variables.size(); ++v) {
    const DiagramVariable& variable = in.diagrams.variables[v];
    Json handles = Json::array();
    for (const std::uint32_t h : variable.handles) variable_of[h] = v, handles.push_back(handle_no(h));
    variables.push_back({{"usual", variable.usual}, {"throws", variable.throws}, {"handles", handles}, {"source", variable.source < 0 ? Json() : Json(variable.source)}});
  }
  view["handles"] = Json::array(), view["sources"] = Json::array();
  for (std::uint32_t h = 1; h < graph.handles.size(); ++h) view["handles"].push_back(handle_json(in, h, variable_of[h]));
  for (std::size_t s = 0; s <= in.record.house.sources.size(); ++s) view["sources"].push_back(source_json(in.record.house, s));
  view["variables"] = variables;
  Json nodes = Json::array();
  for (const DiagramNode& node : in.diagrams.nodes) nodes.push_back(node_json(in.diagrams, node));
  view["diagrams"] = {{"nodes", nodes}};
  view["joined"] = in.diagrams.joined;
  view["interlocks"] = Json::array();
  for (const InterlockedPair& pair : graph.interlocks) view["interlocks"].push_back({handle_no(pair.first), handle_no(pair.second)});
}

}  // namespace ohmstead::web::view_parts
