#include "house/invariants.h"

#include <map>

#include "house/check.h"
#include "house/error.h"

namespace ohmstead {

namespace {

using house_detail::FieldCheck, house_detail::Report;

template <class Row>
void check_fields(Report& report, const Row& row) {
  constexpr bool is_long = std::is_same_v<Row, Note> || std::is_same_v<Row, Printed>;
  Row::fields(row, FieldCheck{report, is_long ? kLongestNote : kLongestName});
}

/// No two rows of a table may share `key`; `what` says what they share.
template <class Row, class Key>
void check_unique(Report& report, const std::vector<Row>& table, const Key& key, const char* field) {
  std::map<decltype(key(table[0])), std::size_t> seen;
  for (std::size_t i = 0; i < table.size(); ++i) {
    const auto [first, fresh] = seen.emplace(key(table[i]), i);
    if (fresh) continue;
    report.at(Row::kTable, i);
    report.add(field, std::string("It has the same ") + field + " as " + Row::kTable + "[" +
                          std::to_string(first->second) + "].");
  }
}

template <class Row>
void check_table(Report& report, const std::vector<Row>& table) {
  for (std::size_t i = 0; i < table.size(); ++i) {
    report.at(Row::kTable, i);
    check_fields(report, table[i]);
    check_row(report, table[i]);
  }
}

}  // namespace

std::vector<Problem> problems_of(const House& house) {
  Report report(house);
  report.at_dwelling();
  Dwelling::fields(house.dwelling, FieldCheck{report, kLongestName});
  for_each_table(house, [&](const auto& table) {
    check_unique(report, table, [](const auto& row) { return row.id; }, "id");
    check_table(report, table);
  });
  const auto both = [](const auto& first, const auto& second) { return std::pair{first, second}; };
  report.at(Source::kTable, kMostSources);
  if (house.sources.size() > kMostSources) report.add("", "A house has at most " + std::to_string(kMostSources) + " sources.");
  check_unique(report, house.rooms, [&](const Room& r) { return both(r.floor, r.name); }, "name");
  check_unique(report, house.points, [&](const Point& p) { return both(p.room, p.name); }, "name");
  check_unique(report, house.panels, [](const Panel& p) { return p.name; }, "name");
  check_unique(report, house.circuits, [](const Circuit& c) { return c.breaker; }, "breaker");
  check_unique(report, house.positions, [&](const Position& p) { return both(p.device, p.number); }, "number");
  check_unique(report, house.settings, [](const Setting& s) { return s.name; }, "name");
  check_spaces_taken_once(report);
  check_breaker_ties(report);
  check_position_ties(report);
  check_plan(report);
  check_photos_together(report);
  return report.take();
}

void require_sound(const House& house) {
  const auto problems = problems_of(house);
  if (!problems.empty())
    throw Error(ErrorKind::invalid_input, problems.front().path + ": " + problems.front().message);
}

}  // namespace ohmstead
