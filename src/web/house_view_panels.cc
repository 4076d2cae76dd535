// Panels in their physical order, and transfer devices.

#include "ask/label_items.h"
#include "rules/panel_cells.h"
#include "rules/panel_text.h"
#include "rules/wording.h"
#include "web/house_view_parts.h"

namespace ohmstead::web::view_parts {

namespace {

Json panel_json(const ViewInput& in, const Panel& panel) {
  const PanelCells drawn = panel_cells(in.record.house, panel, panel_words(in.record.house, in.record.feeds, panel.id));
  Json cells = Json::array(), ties = Json::array();
  for (const PanelCell& cell : drawn.cells)
    cells.push_back({{"handle", cell.breaker ? handle_no(in.record.graph, {HandleKind::breaker, cell.breaker.value}) : Json()}, {"column", cell.column},
                     {"first_half", cell.first_half}, {"halves", cell.halves}, {"numbers", cell.numbers}, {"text", cell.text}, {"mark", cell.mark}, {"amps", cell.amps}});
  for (const TieBracket& tie : drawn.ties) ties.push_back({{"column", tie.column}, {"first_half", tie.first_half}, {"last_half", tie.last_half}});
  const std::string from = fed_by_text(in.record.house, panel);
  return {{"id", panel.id.text()}, {"name", panel.name}, {"title", panel_title(panel)}, {"fed_by", from}, {"volts", volts_text(in.record.house.dwelling.system)}, {"place", room_name(in.record.house, panel.room)},
          {"main", panel.main_amps > 0 ? handle_no(in.record.graph, {HandleKind::main, panel.id.value}) : Json()}, {"main_amps", panel.main_amps},
          {"columns", drawn.columns}, {"rows", drawn.row_weights.size()}, {"cells", cells}, {"ties", ties}};
}

std::string way_of(const LabelItem& item, std::size_t line) { return line < item.lines.size() ? item.lines[line].ways.front() : ""; }

/// Positions as on the strip above them: number, what it carries, its watts, its breaker, how far it is wired.
Json strip_json(const ViewInput& in, const LabelStrip& strip) {
  Json positions = Json::array();
  for (const LabelCell& cell : strip.cells) {
    const auto id = parse_id(cell.item.key.substr(cell.item.key.rfind(':') + 1));
    const bool carries = cell.item.lines.size() > 2;
    positions.push_back({{"handle", handle_no(in.record.graph, {HandleKind::position, id.value_or(0)})}, {"label", way_of(cell.item, 0)}, {"text", way_of(cell.item, 1)},
                         {"watts", carries ? way_of(cell.item, 2) : ""}, {"wiring", carries ? cell.item.lines.back().ways.front() : ""}});
  }
  return positions;
}

/// Of a device that carries the whole house.
Json whole_house_json(const ViewInput& in, Id<TransferDevice> device) {
  Json positions = Json::array();
  for (const Position& position : in.record.house.positions)
    if (position.device == device)
      positions.push_back({{"handle", handle_no(in.record.graph, {HandleKind::position, position.id.value})}, {"label", std::to_string(position.number)},
                           {"text", "the whole house, leg " + std::to_string(position.pole)}, {"watts", ""}, {"wiring", ""}});
  return positions;
}

}  // namespace

void add_panels(const ViewInput& in, Json& view) {
  const House& house = in.record.house;
  view["panels"] = Json::array(), view["transfer"] = Json::array();
  for (const Panel& panel : house.panels) view["panels"].push_back(panel_json(in, panel));
  const std::vector<LabelStrip> strips = transfer_strips({in.record, ""}, StripOf::wired_now);
  const Index<Source> source_at(house.sources);
  for (const TransferDevice& device : house.transfer_devices) {
    const auto strip = std::ranges::find(strips, "transfer:" + device.id.text(), &LabelStrip::key);
    const long source = source_at.at(device.source);
    view["transfer"].push_back({{"id", device.id.text()}, {"name", device.name}, {"place", room_name(house, device.room)},
                                {"source", source < 0 ? Json() : Json(source + 1)}, {"automatic", device.automatic},
                                {"positions", strip == strips.end() ? whole_house_json(in, device.id) : strip_json(in, *strip)}});
  }
}

}  // namespace ohmstead::web::view_parts
