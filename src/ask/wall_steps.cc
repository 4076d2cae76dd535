#include "ask/wall_steps.h"

#include <algorithm>
#include <set>

#include "ask/sentence.h"
#include "ask/watts.h"
#include "backup/food_times.h"
#include "house/index.h"
#include "house/numbering.h"
#include "rules/wording.h"

namespace ohmstead::wall_words {

using sentence::capital;

namespace {

std::vector<std::string> loads_of(const House& house, const OutageStep& step) {
  std::vector<std::string> loads;
  for (const Id<Load> load : step.loads)
    if (const Load* found = find_row(house, load)) loads.push_back(load_text(house, *found));
  return loads;
}

bool is_position(const HandleRef& handle) { return handle.kind == HandleKind::position; }

std::string stand_words(const HandleRef& handle, int to) {
  if (to == kOff) return "OFF";
  return !is_position(handle) ? "ON" : to == kBackupSide ? "BACKUP" : "UTILITY";
}

/// Where the handle is: "on Transfer", "in panel Main".
std::string owner_words(const House& house, const HandleRef& handle) {
  if (const Position* position = is_position(handle) ? find_row(house, Id<Position>{handle.id}) : nullptr) {
    const TransferDevice* device = find_row(house, position->device);
    return device == nullptr ? "" : "on " + device->name;
  }
  const Breaker* breaker = handle.kind == HandleKind::breaker ? find_row(house, Id<Breaker>{handle.id}) : nullptr;
  const Panel* panel = handle.kind == HandleKind::main ? find_row(house, Id<Panel>{handle.id}) : breaker == nullptr ? nullptr : find_row(house, breaker->panel);
  return panel == nullptr ? "" : "in panel " + panel->name;
}

/// The breaker itself, or the one that a position carries.
Id<Breaker> breaker_behind(const House& house, const HandleRef& handle) {
  if (const Position* position = is_position(handle) ? find_row(house, Id<Position>{handle.id}) : nullptr) return position->breaker;
  return handle.kind == HandleKind::breaker ? Id<Breaker>{handle.id} : Id<Breaker>{};
}

/// What the circuit behind a handle feeds, as on the directory; empty where nobody knows.
std::string circuit_words(const House& house, const Feeds& feeds, const HandleRef& handle) {
  const Id<Breaker> breaker = breaker_behind(house, handle);
  return breaker && find_row(house, breaker) != nullptr ? circuit_description(house, feeds, breaker) : "";
}

/// Writes one step in large words.
class Writer {
 public:
  Writer(const House& house, const Feeds& feeds, const Names& names, std::size_t source) : house_(house), feeds_(feeds), names_(names), source_(house.sources[source]) {}

  [[nodiscard]] WallItem item(const OutageStep& step) const {
    switch (step.kind) {
      case OutageStepKind::move: return move(step);
      case OutageStepKind::switch_off: return {"", "", "Switch off, so that it does not start by itself" + before(step) + ": " + joined(loads_of(house_, step)) + "."};
      case OutageStepKind::switch_on: return {"", "", "Switch on: " + joined(loads_of(house_, step)) + "."};
      case OutageStepKind::end: return {"", "", "Everything is on the utility again."};
      default: return {"", "", of_source(step.kind)};
    }
  }

 private:
  [[nodiscard]] bool is_engine() const { return source_.kind == SourceKind::generator; }

  [[nodiscard]] std::string before(const OutageStep& step) const {
    return step.handles.empty() ? "" : " with " + handle_mark(house_, step.handles.front());
  }

  [[nodiscard]] std::string of_source(OutageStepKind kind) const {
    const std::string& name = source_.name;
    switch (kind) {
      case OutageStepKind::ask_away: return "The transfer device moves by itself and " + name + " starts by itself. Wait, then look that it did.";
      case OutageStepKind::place_source:
        return name + " stands OUTDOORS, at least 20 feet (6 m) from the house, its doors and windows, exhaust pointing away. Never in the garage, on the porch or in a shed: its exhaust kills.";
      case OutageStepKind::connect_source: return "Put its cord into the inlet of the house. Never into a wall receptacle.";
      case OutageStepKind::start_source: return is_engine() ? "Start " + name + "." : "Switch " + name + " on.";
      case OutageStepKind::warm_up: return "Let it run with nothing on it until it runs evenly; its directions say how long.";
      case OutageStepKind::ask_back: return "The transfer device goes back by itself. Wait, then look that " + name + " has stopped.";
      case OutageStepKind::cool_down: return "Let " + name + " run with nothing on it to cool down; its directions say how long.";
      case OutageStepKind::stop_source: return is_engine() ? "Stop " + name + ". Take the cord out of the inlet." : "Switch " + name + " off.";
      default: return "";
    }
  }

  [[nodiscard]] WallItem move(const OutageStep& step) const {
    WallItem item;
    for (const HandleRef& handle : step.handles) item.handle += (item.handle.empty() ? "" : "  ") + handle_mark(house_, handle);
    const HandleRef& first = step.handles.front();
    item.to = stand_words(first, step.to);
    const bool several = step.handles.size() > 1;
    const std::string where = owner_words(house_, first);
    switch (step.reason) {
      case OutageReason::part: item.text = "The main " + where + ": it parts the house from the utility. It stays off until the utility is back."; break;
      case OutageReason::let_in: item.text = capital(names_.name_of(first)) + " lets " + source_.name + " into the house."; break;
      case OutageReason::in_order: item.text = comes_on(step); break;
      case OutageReason::way_home: item.text = several ? "These handles " + where + ", one after another." : way_home_words(first, where); break;
      default: item.text = several ? "These handles " + where + ", one after another." : "This handle " + where + "."; break;
    }
    return item;
  }

  [[nodiscard]] std::string comes_on(const OutageStep& step) const {
    const std::vector<std::string> loads = loads_of(house_, step);
    const std::string circuit = circuit_words(house_, feeds_, step.handles.front());
    std::string text = loads.empty() ? "" : "Comes on: " + joined(loads) + ".";
    if (!circuit.empty() && more_than(step)) text += (text.empty() ? "Gets power: " : " The whole circuit: ") + circuit + ".";
    return text.empty() ? "Nothing is known on it." : text;
  }

  /// Is there more on the circuit than what comes on?
  [[nodiscard]] bool more_than(const OutageStep& step) const {
    const Id<Breaker> breaker = breaker_behind(house_, step.handles.front());
    std::set<Id<Point>> named;
    for (const Id<Load> load : step.loads)
      if (const Load* found = find_row(house_, load)) named.insert(found->point);
    for (std::size_t p = 0; p < house_.points.size(); ++p)
      for (const Tap& tap : feeds_.of_point[p].taps)
        if (tap.breaker == breaker && !named.contains(house_.points[p].id)) return true;
    return false;
  }

  [[nodiscard]] std::string way_home_words(const HandleRef& handle, const std::string& where) const {
    if (handle.kind == HandleKind::main) return "The main " + where + ".";
    const std::string circuit = circuit_words(house_, feeds_, handle);
    return circuit.empty() ? "This handle " + where + "." : circuit + ".";
  }

  const House& house_;
  const Feeds& feeds_;
  const Names& names_;
  const Source& source_;
};

}  // namespace

std::string handle_mark(const House& house, const HandleRef& handle) {
  if (handle.kind == HandleKind::main) return "MAIN";
  if (const Breaker* breaker = handle.kind == HandleKind::breaker ? find_row(house, Id<Breaker>{handle.id}) : nullptr) {
    const Panel* panel = find_row(house, breaker->panel);
    return panel == nullptr ? "?" : breaker_number(*panel, *breaker);
  }
  const Position* position = is_position(handle) ? find_row(house, Id<Position>{handle.id}) : nullptr;
  if (position == nullptr) return "?";
  std::vector<int> numbers;
  for (const Position& other : house.positions)
    if (other.id == position->id || (position->tie && other.tie == position->tie)) numbers.push_back(other.number);
  std::ranges::sort(numbers);
  std::string mark;
  for (const int number : numbers) mark += (mark.empty() ? "" : "-") + std::to_string(number);
  return mark;
}

std::vector<WallItem> step_items(const House& house, const Feeds& feeds, const Names& names, std::size_t source, const std::vector<OutageStep>& steps) {
  const Writer writer(house, feeds, names, source);
  std::vector<WallItem> items;
  for (const OutageStep& step : steps) items.push_back(writer.item(step));
  return items;
}

}  // namespace ohmstead::wall_words
