#include "rules/panel_cells.h"

#include <algorithm>
#include <map>
#include <set>

#include "house/numbering.h"

namespace ohmstead {

namespace {

std::string number_of(const PolePlace& place) {
  return std::to_string(place.space) + (place.half == Half::whole ? "" : std::string(text_of(place.half)));
}

struct Halves {
  int column = 0, first = 0, count = 2;
};

Halves halves_of(const Panel& panel, const PolePlace& place) {
  const PanelPlace at = place_of(panel, place.space).value_or(PanelPlace{});
  return {at.column, 2 * at.row + (place.half == Half::b ? 1 : 0), place.half == Half::whole ? 2 : 1};
}

/// Cells of one breaker: one, or two for the outer pair of a quad, whose poles are apart.
std::vector<PanelCell> cells_of(const Panel& panel, const Breaker& breaker, const CircuitWords& words) {
  std::vector<PanelCell> cells;
  for (const PolePlace& place : pole_places(panel, breaker)) {
    const Halves at = halves_of(panel, place);
    if (!cells.empty() && cells.back().first_half + cells.back().halves == at.first) {
      cells.back().halves += at.count;
      cells.back().numbers.push_back(number_of(place));
      continue;
    }
    cells.push_back({breaker.id, at.column, at.first, at.count, {number_of(place)}, words.text, words.mark, breaker.amps});
  }
  for (std::size_t i = 1; i < cells.size(); ++i) {
    cells[i].text = "other pole of " + cells[0].numbers[0];
    cells[0].text += " (with " + cells[i].numbers[0] + ")";
  }
  return cells;
}

void add_empty_cells(const Panel& panel, std::vector<PanelCell>& cells) {
  std::set<std::pair<int, int>> taken;
  for (const PanelCell& cell : cells)
    for (int half = 0; half < cell.halves; ++half) taken.insert({cell.column, cell.first_half + half});
  for (int space = 1; space <= panel.spaces; ++space) {
    const Halves at = halves_of(panel, {space, Half::whole});
    const bool upper = taken.contains({at.column, at.first}), lower = taken.contains({at.column, at.first + 1});
    const auto add = [&](Half half) {
      const PolePlace place{space, half};
      const Halves here = halves_of(panel, place);
      cells.push_back({{}, here.column, here.first, here.count, {number_of(place)}, "", "", 0});
    };
    if (!upper && !lower) add(Half::whole);
    else if (!upper) add(Half::a);
    else if (!lower) add(Half::b);
  }
}

std::vector<double> weights_of(const Panel& panel, const std::vector<PanelCell>& cells) {
  std::vector<double> weights(static_cast<std::size_t>(row_count(panel)), kEmptyRowWeight);
  for (const PanelCell& cell : cells) {
    if (!cell.breaker) continue;
    for (int half = cell.first_half; half < cell.first_half + cell.halves; ++half) {
      double& weight = weights[static_cast<std::size_t>(half / 2)];
      weight = std::max(weight, 1.0);
    }
    const bool starts_split = cell.first_half % 2 == 1, ends_split = (cell.first_half + cell.halves) % 2 == 1;
    if (starts_split) weights[static_cast<std::size_t>(cell.first_half / 2)] = kTandemRowWeight;
    if (ends_split) weights[static_cast<std::size_t>((cell.first_half + cell.halves) / 2)] = kTandemRowWeight;
  }
  return weights;
}

std::vector<TieBracket> ties_of(const House& house, const Panel& panel) {
  std::map<Id<Breaker>, TieBracket> ties;
  for (const Breaker& breaker : house.breakers) {
    if (breaker.panel != panel.id || !breaker.tie) continue;
    for (const PolePlace& place : pole_places(panel, breaker)) {
      const Halves at = halves_of(panel, place);
      const int last = at.first + at.count - 1;
      const auto [tie, fresh] = ties.emplace(breaker.tie, TieBracket{at.column, at.first, last});
      tie->second.first_half = std::min(tie->second.first_half, at.first);
      tie->second.last_half = std::max(tie->second.last_half, last);
    }
  }
  std::vector<TieBracket> brackets;
  for (const auto& [id, tie] : ties) brackets.push_back(tie);
  std::ranges::sort(brackets, {}, [](const TieBracket& t) { return std::pair{t.first_half, t.column}; });
  return brackets;
}

}  // namespace

PanelCells panel_cells(const House& house, const Panel& panel, const std::vector<CircuitWords>& words) {
  PanelCells table;
  table.columns = column_count(panel);
  for (const Breaker& breaker : house.breakers) {
    const auto found = std::ranges::find(words, breaker.id, &CircuitWords::breaker);
    if (breaker.panel != panel.id || found == words.end()) continue;
    std::ranges::move(cells_of(panel, breaker, *found), std::back_inserter(table.cells));
  }
  table.row_weights = weights_of(panel, table.cells);
  add_empty_cells(panel, table.cells);
  std::ranges::sort(table.cells, {}, [](const PanelCell& c) { return std::tuple{c.first_half / 2, c.column, c.first_half}; });
  table.ties = ties_of(house, panel);
  return table;
}

}  // namespace ohmstead
