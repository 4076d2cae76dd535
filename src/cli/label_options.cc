#include "cli/label_options.h"

#include <algorithm>
#include <charconv>
#include <set>

#include "ask/printable.h"
#include "cli/print_files.h"
#include "house/error.h"
#include "house/index.h"

namespace ohmstead {

namespace {

struct Pair {
  double x = 0, y = 0;
};

std::optional<double> number_in(std::string_view text) {
  double value = 0;
  const auto [end, fault] = std::from_chars(text.data(), text.data() + text.size(), value, std::chars_format::fixed);
  if (fault != std::errc{} || end != text.data() + text.size() || !(value >= -2000 && value <= 2000)) return std::nullopt;
  return value;
}

/// "66x25.4" (or "0.5,-1" with a comma) as two numbers.
Pair pair_of(const Arguments& arguments, const std::string& option, char between, const char* example) {
  const std::string text = arguments.text(option);
  const std::size_t at = text.find(between);
  const auto x = at == std::string::npos ? std::nullopt : number_in(std::string_view(text).substr(0, at));
  const auto y = at == std::string::npos ? std::nullopt : number_in(std::string_view(text).substr(at + 1));
  if (!x || !y) throw Error(ErrorKind::invalid_input, option + " needs two numbers as in " + example + ", not '" + terminal::printable(text.substr(0, 40)) + "'.");
  return {*x, *y};
}

Pair page_of(const Arguments& arguments) {
  const std::string name = arguments.text("--sheet", "letter");
  if (name == "letter" || name == "Letter") return {215.9, 279.4};
  if (name == "a4" || name == "A4") return {210, 297};
  return pair_of(arguments, "--sheet", 'x', "letter, a4 or 100x150");
}

LabelStock tape_of(const Arguments& arguments, double dpi) {
  for (const char* option : {"--label", "--grid", "--margin", "--pitch", "--corner", "--start", "--sheet"})
    if (arguments.has(option)) throw Error(ErrorKind::invalid_input, std::string(option) + " is of a sheet and --tape of a tape; give one of them.");
  LabelStock stock = tape_stock(arguments.number("--tape", 12, 1, 400), arguments.number("--printable", 0, 0, 400), dpi);
  stock.cut_between = !arguments.has("--no-cut");
  return stock;
}

LabelStock sheet_of(const Arguments& arguments, UsualLabel usual) {
  StockMeasures measures;
  const Pair page = page_of(arguments);
  measures.page_width_mm = page.x, measures.page_height_mm = page.y;
  if (arguments.has("--grid") && !arguments.has("--label")) throw Error(ErrorKind::invalid_input, "--grid needs the size of a label, too, as in --label 66x25.4.");
  const Pair label = arguments.has("--label") ? pair_of(arguments, "--label", 'x', "66x25.4") : Pair{usual.width_mm, usual.height_mm};
  measures.label_width_mm = label.x, measures.label_height_mm = label.y;
  if (arguments.has("--grid")) {
    const Pair grid = pair_of(arguments, "--grid", 'x', "3x10");
    measures.columns = static_cast<int>(grid.x), measures.rows = static_cast<int>(grid.y);
    const bool whole = grid.x == measures.columns && grid.y == measures.rows;
    if (!whole || measures.columns < 1 || measures.rows < 1) measures.columns = measures.rows = -1;  // refused as no grid that a sheet can have
  }
  for (const char* option : {"--margin", "--pitch"})
    if (arguments.has(option) && !arguments.has("--grid")) throw Error(ErrorKind::invalid_input, std::string(option) + " is of a sheet of labels; give --grid, too, as in --grid 3x10.");
  if (arguments.has("--margin")) {
    const Pair margin = pair_of(arguments, "--margin", 'x', "5x12.7");
    measures.left_mm = std::max(0.0, margin.x), measures.top_mm = std::max(0.0, margin.y);
  }
  if (arguments.has("--pitch")) {
    const Pair pitch = pair_of(arguments, "--pitch", 'x', "70x25.4");
    measures.pitch_x_mm = pitch.x, measures.pitch_y_mm = pitch.y;
  }
  measures.corner_mm = arguments.number("--corner", 0, 0, 500);
  LabelStock stock = sheet_stock(measures);
  stock.start = static_cast<int>(arguments.number("--start", 1, 1, 10'000));
  return stock;
}

void add_points(const House& house, Id<Room> room, std::set<std::size_t>& points) {
  for (std::size_t p = 0; p < house.points.size(); ++p)
    if (house.points[p].room == room) points.insert(p);
}

void add_named(const House& house, const Names& names, const std::string& words, std::set<std::size_t>& points) {
  std::vector<ThingRef> things = names.group(words);
  if (things.empty()) things = {ThingRef{ThingKind::point, names.one_point(words).value}};
  for (const ThingRef& thing : things) points.insert(static_cast<std::size_t>(std::ranges::find(house.points, Id<Point>{thing.id}, &Point::id) - house.points.begin()));
}

bool is_fed_from(const Record& record, std::size_t point, Id<Panel> panel) {
  return std::ranges::any_of(record.feeds.of_point[point].taps, [&](const Tap& tap) {
    const Breaker* breaker = find_row(record.house, tap.breaker);
    return breaker != nullptr && breaker->panel == panel;
  });
}

}  // namespace

LabelOptions label_options(const Arguments& arguments, UsualLabel usual) {
  LabelOptions options;
  const double dpi = arguments.number("--dpi", 300, 100, 1200);
  options.stock = arguments.has("--tape") ? tape_of(arguments, dpi) : sheet_of(arguments, usual);
  options.stock.dpi = dpi;
  options.stock.printer_margin_mm = arguments.number("--printer-margin", options.stock.printer_margin_mm, 0, 100);
  if (arguments.has("--shift")) {
    const Pair shift = pair_of(arguments, "--shift", ',', "0.5,-1");
    if (std::max(std::abs(shift.x), std::abs(shift.y)) > 25) throw Error(ErrorKind::invalid_input, "--shift moves by at most 25 mm; correct --margin where a sheet is farther off.");
    options.stock.shift_x_mm = shift.x, options.stock.shift_y_mm = shift.y;
  }
  if (arguments.has("--codes") && arguments.has("--no-codes")) throw Error(ErrorKind::invalid_input, "--codes asks for codes and --no-codes for none; give one of them.");
  options.codes = !arguments.has("--no-codes"), options.strip_codes = arguments.has("--codes"), options.location = place_named(arguments);
  if (arguments.has("--strip")) {
    const Pair strip = pair_of(arguments, "--strip", 'x', "25.4x60");
    options.strip_pitch_mm = strip.x, options.strip_height_mm = strip.y;
    if (!(strip.y > 0)) throw Error(ErrorKind::invalid_input, "The height of a strip must be more than 0 mm, as in --strip 25.4x60.");
  }
  return options;
}

std::vector<std::size_t> points_meant(const Record& record, const Names& names, const Arguments& arguments) {
  const House& house = record.house;
  std::set<std::size_t> chosen;
  for (const std::string& room : arguments.texts("--room")) add_points(house, names.one_room(room), chosen);
  for (const std::string& words : arguments.texts("--of")) add_named(house, names, words, chosen);
  const bool all = !arguments.has("--room") && !arguments.has("--of");
  const std::optional<Id<Panel>> panel = arguments.has("--panel") ? std::optional(names.one_panel(arguments.text("--panel"))) : std::nullopt;
  std::vector<std::size_t> points;
  const auto take = [&](Id<Room> room) {
    for (std::size_t p = 0; p < house.points.size(); ++p)
      if (house.points[p].room == room && (all || chosen.contains(p)) && (!panel || is_fed_from(record, p, *panel))) points.push_back(p);
  };
  for (const Room& room : house.rooms) take(room.id);
  return points;
}

}  // namespace ohmstead
