#include "house/numbering.h"

#include <algorithm>
#include <string>

namespace ohmstead {

namespace {
/// Spaces in the left column of a panel numbered straight down; the odd one goes left.
int left_column_spaces(const Panel& panel) { return (panel.spaces + 1) / 2; }
}  // namespace

std::optional<PanelPlace> place_of(const Panel& panel, int space) {
  if (space < 1 || space > panel.spaces) return std::nullopt;
  switch (panel.numbering) {
    case Numbering::odd_left_even_right: return PanelPlace{(space + 1) % 2, (space - 1) / 2};
    case Numbering::sequential_down: {
      const int left = left_column_spaces(panel);
      return space <= left ? PanelPlace{0, space - 1} : PanelPlace{1, space - 1 - left};
    }
    case Numbering::single_column: break;
  }
  return PanelPlace{0, space - 1};
}

std::optional<int> space_below(const Panel& panel, int space) {
  const auto here = place_of(panel, space);
  if (!here) return std::nullopt;
  const int below = panel.numbering == Numbering::odd_left_even_right ? space + 2 : space + 1;
  const auto there = place_of(panel, below);
  if (!there || there->column != here->column) return std::nullopt;
  return below;
}

int row_count(const Panel& panel) { return column_count(panel) == 2 ? (panel.spaces + 1) / 2 : panel.spaces; }

int column_count(const Panel& panel) { return panel.numbering == Numbering::single_column ? 1 : 2; }

int bus_leg(const Panel& panel, int space, int legs) {
  const auto place = place_of(panel, space);
  return place && legs > 0 ? place->row % legs + 1 : 1;
}

std::vector<PolePlace> pole_places(const Panel& panel, const Breaker& breaker) {
  std::vector<PolePlace> places;
  std::optional<int> space = place_of(panel, breaker.space) ? std::optional(breaker.space) : std::nullopt;
  Half half = breaker.half;
  for (int pole = 0; pole < std::min(breaker.poles, 3) && space; ++pole) {
    places.push_back({*space, half});
    space = space_below(panel, *space);
    if (half != Half::whole) half = half == Half::a ? Half::b : Half::a;
  }
  return places;
}

std::string breaker_number(const Panel& panel, const Breaker& breaker) {
  std::string text;
  for (const PolePlace& place : pole_places(panel, breaker)) {
    if (!text.empty()) text += '-';
    text += std::to_string(place.space);
    if (place.half != Half::whole) text += text_of(place.half);
  }
  return text.empty() ? std::to_string(breaker.space) : text;
}

int panel_legs(const House& house, const Panel& panel) {
  const int all = leg_count(house.dwelling.system);
  if (panel.supply == Supply::breaker) {
    for (const Breaker& breaker : house.breakers)
      if (breaker.id == panel.feeder) return std::min(all, breaker.poles);
  }
  if (panel.supply == Supply::position) {
    const auto first = std::ranges::find(house.positions, panel.position, &Position::id);
    if (first == house.positions.end() || !first->tie) return 1;
    return std::min(all, static_cast<int>(std::ranges::count(house.positions, first->tie, &Position::tie)));
  }
  return all;
}

}  // namespace ohmstead
