#pragma once
// Internal to invariants: where problems are collected, and the checks by row.

#include <set>
#include <string>
#include <utility>

#include "house/invariants.h"

namespace ohmstead::house_detail {

/// Collects problems; `at` sets the path of the row being looked at.
class Report {
 public:
  explicit Report(const House& house);
  void at(const char* table, std::size_t index) { path_ = std::string(table) + "[" + std::to_string(index) + "]"; }
  void at_dwelling() { path_ = "dwelling"; }
  /// A problem with a field of that row; "" with the row as a whole.
  void add(const std::string& field, const std::string& message);
  [[nodiscard]] bool has(std::string_view table, std::uint64_t id) const { return ids_.contains({table, id}); }
  [[nodiscard]] const House& house() const { return house_; }
  [[nodiscard]] std::vector<Problem> take() { return std::move(problems_); }

 private:
  const House& house_;
  std::set<std::pair<std::string_view, std::uint64_t>> ids_;
  std::string path_;
  std::vector<Problem> problems_;
};

/// Checks that hold of a field by its type alone: references lead somewhere, text is UTF-8 of at
/// most `longest` bytes without control characters (tab and new line may be). One for each row.
struct FieldCheck {
  Report& report;
  std::size_t longest;
  bool own_id = true;  ///< the first id of a row is its own

  template <class Row>
  void operator()(const char* name, const Id<Row>& id) {
    if (own_id) {
      own_id = false;
      if (!id) report.add(name, "A row has no id.");
    } else if (id && !report.has(Row::kTable, id.value)) {
      report.add(name, std::string("It names a ") + Row::kTable + " that is not in the house: '" + id.text() + "'.");
    }
  }
  void operator()(const char* name, const std::string& text);
  void operator()(const char* name, const HandleRef& ref);
  void operator()(const char* name, const ThingRef& ref);
  template <class T>
  void operator()(const char*, const T&) {}
};

void check_range(Report& report, const char* field, int value, int low, int high);
void check_name(Report& report, const std::string& name);

// What must hold of one row by itself and of what it names (check_panels.cc, check_rows.cc).
void check_row(Report& report, const Floor& floor);
void check_row(Report& report, const Room& room);
void check_row(Report& report, const Walk& walk);
void check_row(Report& report, const Box& box);
void check_row(Report& report, const Passing& passing);
void check_row(Report& report, const Source& source);
void check_row(Report& report, const Panel& panel);
void check_row(Report& report, const Breaker& breaker);
void check_row(Report& report, const Circuit& circuit);
void check_row(Report& report, const TransferDevice& device);
void check_row(Report& report, const Position& position);
void check_row(Report& report, const Interlock& interlock);
void check_row(Report& report, const Device& device);
void check_row(Report& report, const Handle& handle);
void check_row(Report& report, const Point& point);
void check_row(Report& report, const Load& load);
void check_row(Report& report, const DeclaredFeed& feed);
void check_row(Report& report, const Opened& opened);
void check_row(Report& report, const Observation& observation);
void check_row(Report& report, const Setting& setting);
inline void check_row(Report&, const Round&) {}
inline void check_row(Report&, const Note&) {}

// What must hold between the breakers, and between the positions, of a house.
void check_spaces_taken_once(Report& report);
void check_breaker_ties(Report& report);
void check_position_ties(Report& report);

inline constexpr int kMostAmps = 2000;
inline constexpr int kMostWatts = 1'000'000;

}  // namespace ohmstead::house_detail
