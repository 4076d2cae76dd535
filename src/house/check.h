#pragma once
// Internal to invariants: where problems are collected, and the checks by row.

#include <string>
#include <tuple>
#include <unordered_map>
#include <utility>

#include "house/index.h"
#include "house/invariants.h"

namespace ohmstead::house_detail {

/// Collects problems; `at` sets the path of the row being looked at. Everything a check looks up is
/// found in constant time, so that a hostile document costs no more than its length.
class Report {
 public:
  explicit Report(const House& house);
  void at(const char* table, std::size_t index) { table_ = table, index_ = index; }
  void at_dwelling() { table_ = nullptr; }
  /// A problem with a field of that row; "" with the row as a whole.
  void add(const std::string& field, const std::string& message);
  /// Row with this id, or nullptr.
  template <class Row>
  [[nodiscard]] const Row* find(Id<Row> id) const {
    const long at = std::get<Index<Row>>(rows_).at(id);
    return at < 0 ? nullptr : &table_of<Row>(house_)[static_cast<std::size_t>(at)];
  }
  [[nodiscard]] bool has(const HandleRef& ref) const;
  [[nodiscard]] bool has(const ThingRef& ref) const;
  [[nodiscard]] int handle_count(Id<Device> device) const;
  /// Legs of a panel's bus (house/numbering.h).
  [[nodiscard]] int legs(const Panel& panel) const;
  /// Does following the supply, or `behind`, from here come round in a circle?
  [[nodiscard]] bool circular(const Panel& panel) const { return circular_panels_[place_of_row(panel)]; }
  [[nodiscard]] bool circular(const Device& device) const { return circular_devices_[place_of_row(device)]; }
  [[nodiscard]] const House& house() const { return house_; }
  [[nodiscard]] std::vector<Problem> take() { return std::move(problems_); }

 private:
  template <class Row>
  [[nodiscard]] std::size_t place_of_row(const Row& row) const {
    return static_cast<std::size_t>(&row - table_of<Row>(house_).data());
  }
  /// Place in house.panels of the panel that feeds this one; -1 for none.
  [[nodiscard]] long panel_above(const Panel& panel) const;

  const House& house_;
  std::tuple<Index<Floor>, Index<Room>, Index<Walk>, Index<Box>, Index<Source>, Index<Panel>, Index<Breaker>,
             Index<Circuit>, Index<TransferDevice>, Index<Position>, Index<Interlock>, Index<Device>, Index<Handle>,
             Index<Point>, Index<Load>, Index<Passing>, Index<DeclaredFeed>, Index<Round>, Index<Opened>,
             Index<Observation>, Index<Note>, Index<Photo>, Index<Setting>, Index<Planned>, Index<Pin>, Index<Tick>, Index<OutageEvent>,
             Index<Printed>, Index<Trip>, Index<Diagnosis>, Index<DiagnosisLook>>
      rows_;
  std::unordered_map<std::uint64_t, int> handles_of_device_, positions_of_tie_;
  std::vector<bool> circular_panels_, circular_devices_;
  const char* table_ = nullptr;  ///< none: the dwelling
  std::size_t index_ = 0;
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
    } else if constexpr (!std::is_same_v<Row, Dwelling>) {  // nothing names the dwelling
      if (id && report.find(id) == nullptr)
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
void check_row(Report& report, const Photo& photo);
void check_row(Report& report, const Setting& setting);
void check_row(Report& report, const Planned& planned);
void check_row(Report& report, const Pin& pin);
void check_row(Report& report, const Tick& tick);
void check_row(Report& report, const OutageEvent& event);
void check_row(Report& report, const Printed& printed);
void check_row(Report& report, const Trip& trip);
void check_row(Report& report, const DiagnosisLook& look);
inline void check_row(Report&, const Diagnosis&) {}
inline void check_row(Report&, const Round&) {}
inline void check_row(Report&, const Note&) {}

// What must hold between the breakers, and between the positions, of a house.
void check_spaces_taken_once(Report& report);
void check_breaker_ties(Report& report);
void check_position_ties(Report& report);
void check_plan(Report& report);
void check_photos_together(Report& report);

inline constexpr int kMostAmps = 2000;
inline constexpr int kMostWatts = 1'000'000;

}  // namespace ohmstead::house_detail
