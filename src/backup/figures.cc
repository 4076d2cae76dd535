#include "backup/figures.h"

#include <algorithm>
#include <cmath>
#include <optional>

#include "backup/motor.h"
#include "backup/typical_loads.h"
#include "house/index.h"

namespace ohmstead {

namespace {

constexpr const char* kAsGuessed = "as entered, a guess";
constexpr const char* kSurveyTable = "common practice, no source";
constexpr WattRange kNone{};

std::string entered_source(FigureBasis basis) {
  switch (basis) {
    case FigureBasis::nameplate: return "nameplate";
    case FigureBasis::measured: return "measured";
    case FigureBasis::table: return kSurveyTable;
    case FigureBasis::guess: break;
  }
  return kAsGuessed;
}

WattRange times(WattRange range, int factor) { return {range.low * factor, range.high * factor}; }

/// Tenths, halves up.
WattRange ratio_of(WattRange range, StartRatio ratio) { return {(range.low * ratio.low + 5) / 10, (range.high * ratio.high + 5) / 10}; }

WattRange not_below(WattRange range, WattRange floor) {
  const int low = std::max(range.low, floor.low);
  return {low, std::max({range.high, floor.high, low})};
}

/// One load on its way to its figures.
class Finder {
 public:
  Finder(const House& house, const Load& load) : house_(house), load_(load), match_(find_typical_load(load.name)) {
    figures_.power_factor = load.power_factor_percent.value_or(100) / 100.0;
  }

  LoadFigures find() {
    if (!find_running()) return figures_;
    figures_.known = true;
    find_starting();
    figures_.starting = not_below(figures_.starting, figures_.running);
    figures_.motor = figures_.starting.high > figures_.running.high;
    return figures_;
  }

 private:
  bool read() const { return load_.basis == FigureBasis::nameplate || load_.basis == FigureBasis::measured; }
  bool filled_in() const { return load_.basis == FigureBasis::table; }
  bool has_motor_data() const { return load_.horsepower_hundredths > 0 || load_.full_load_deciamps > 0; }

  void set_running(WattRange range, FigureBasis basis, std::string source) {
    figures_.running = range, figures_.running_basis = basis, figures_.running_source = std::move(source);
  }
  void set_starting(WattRange range, FigureBasis basis, std::string source) {
    figures_.starting = range, figures_.starting_basis = basis, figures_.starting_source = std::move(source);
  }

  void take_entered_running() {
    set_running({*load_.running_watts, *load_.running_watts}, load_.basis, entered_source(load_.basis));
  }

  /// Watts of so many voltamperes at the power factor.
  int real(double voltamperes) const { return static_cast<int>(std::lround(voltamperes * figures_.power_factor)); }

  double nameplate_voltamperes() const {
    const Point* point = find_row(house_, load_.point);
    const int hots = point == nullptr ? 1 : point->hots;
    const VoltageSystem system = house_.dwelling.system;
    const int between = volts_between_legs(system);
    const double amps = load_.full_load_deciamps / 10.0;
    if (hots == 3) return amps * 3 * volts_to_neutral(system);
    return amps * (hots == 2 && between > 0 ? between : volts_to_neutral(system));
  }

  bool find_running() {
    const bool entered = load_.running_watts.has_value();
    if (entered && read()) take_entered_running();
    else if (load_.full_load_deciamps > 0)
      set_running({real(nameplate_voltamperes()), real(nameplate_voltamperes())}, FigureBasis::nameplate, "full-load amperes on the nameplate");
    else if (entered && !filled_in()) take_entered_running();
    else if (const auto amps = full_load_deciamps_115(load_.horsepower_hundredths))
      set_running({real(*amps * 11.5), real(*amps * 11.5)}, FigureBasis::table, "NFPA 70 Table 430.248 by horsepower, partly from memory");
    else if (match_.row != nullptr) set_running(times(match_.row->running, match_.pieces), FigureBasis::table, std::string(match_.row->running_source));
    else if (entered) take_entered_running();
    else return false;
    from_row_ = match_.row != nullptr && figures_.running == times(match_.row->running, match_.pieces) && figures_.running_basis == FigureBasis::table;
    return true;
  }

  std::optional<WattRange> by_letter() {
    if (load_.horsepower_hundredths <= 0) return std::nullopt;
    if (!load_.code_letter.empty())
      if (const auto range = locked_rotor_va(load_.horsepower_hundredths, load_.code_letter.front())) {
        set_starting(*range, FigureBasis::nameplate, "horsepower and code letter (NEMA MG 1-10.37.2)");
        return range;
      }
    const auto usual = usual_code_letter(load_.horsepower_hundredths);
    const auto range = usual ? locked_rotor_va(load_.horsepower_hundredths, *usual) : std::nullopt;
    if (range) set_starting(*range, FigureBasis::table, std::string("horsepower and its usual code letter ") + *usual + " (EASA handbook)");
    return range;
  }

  void find_starting() {
    const bool entered = load_.starting_watts && !(filled_in() && from_row_);
    if (entered) return set_starting({*load_.starting_watts, *load_.starting_watts}, load_.basis, entered_source(load_.basis));
    if (by_letter()) return;
    if (from_row_) return start_of_row();
    if (match_.row != nullptr)
      return set_starting(ratio_of(figures_.running, match_.row->ratio), FigureBasis::table,
                          match_.row->starting == kNone ? std::string(match_.row->starting_source) : "running watts times " + ratio_words());
    if (has_motor_data())
      return set_starting(times_motor(figures_.running), FigureBasis::table, "three to five times the running watts: generator manual text");
    set_starting(figures_.running, FigureBasis::guess, "no starting watts are known: taken as its running watts");
  }

  void start_of_row() {
    const bool even = match_.row->starting == kNone;
    set_starting(even ? figures_.running : times_one_start(), FigureBasis::table, std::string(match_.row->starting_source));
  }

  /// Several pieces do not start at one moment: all run, one starts.
  WattRange times_one_start() const {
    const WattRange rest = times(match_.row->running, match_.pieces - 1), one = match_.row->starting;
    return {rest.low + one.low, rest.high + one.high};
  }

  static WattRange times_motor(WattRange running) { return {running.low * 3, running.high * 5}; }

  std::string ratio_words() const {
    const auto tenths = [](int n) { return std::to_string(n / 10) + (n % 10 == 0 ? "" : "." + std::to_string(n % 10)); };
    const StartRatio ratio = match_.row->ratio;
    const std::string range = ratio.low == ratio.high ? tenths(ratio.low) : tenths(ratio.low) + " to " + tenths(ratio.high);
    return range + ", as published figures of " + std::string(match_.row->name) + " have it";
  }

  const House& house_;
  const Load& load_;
  TypicalMatch match_;
  LoadFigures figures_;
  bool from_row_ = false;  ///< running watts are those of the table of typical loads
};

}  // namespace

LoadFigures figures_of(const House& house, const Load& load) { return Finder(house, load).find(); }

LoadFigures typical_figures(std::string_view name) {
  Load load;
  load.name = name;
  return figures_of(House{}, load);
}

int planned_running(const LoadFigures& figures) {
  return static_cast<int>(std::ceil(figures.running.high / figures.power_factor - 1e-9));
}

int planned_starting(const LoadFigures& figures) {
  return std::max(planned_running(figures), figures.motor ? figures.starting.high : 0);
}

LoadUse wanted_use(const Load& load) {
  if (load.use != LoadUse::not_said) return load.use;
  const TypicalLoad* kind = find_typical_load(load.name).row;
  if (kind != nullptr && (kind->name == "smoke alarm" || kind->name == "CO alarm")) return LoadUse::not_wanted;  // it has a battery of its own
  const bool matters = load.importance == Importance::high || load.importance == Importance::life_safety;
  return matters ? LoadUse::together : LoadUse::not_wanted;
}

bool starts_itself(const Load& load) {
  if (load.starts_itself) return true;
  const TypicalMatch match = find_typical_load(load.name);
  return match.row != nullptr && match.row->starts_itself;
}

int duty_percent(const Load& load) {
  if (load.duty_percent) return *load.duty_percent;
  const TypicalMatch match = find_typical_load(load.name);
  return match.row != nullptr && match.row->duty_percent > 0 ? match.row->duty_percent : 100;
}

}  // namespace ohmstead
