#include "ask/wish.h"

#include <algorithm>
#include <cmath>
#include <optional>

#include "ask/words.h"
#include "ask/wish_marks.h"
#include "house/error.h"
#include "house/index.h"

namespace ohmstead {

namespace {

using wish_detail::Marks, wish_detail::quoted;

/// What a wish is about: loads that are there, and points that get one.
struct About {
  std::vector<Id<Load>> loads;
  std::vector<std::pair<Id<Point>, std::string>> fresh;  ///< point, and name of the load
};

void add_point(const House& house, const Point& point, About& about) {
  bool has = false;
  for (const Load& load : house.loads)
    if (load.point == point.id) about.loads.push_back(load.id), has = true;
  if (!has) about.fresh.emplace_back(point.id, point.name);
}

About about_of(const House& house, const Names& names, const std::string& words) {
  About about;
  const std::size_t at = words.rfind(" at ");
  if (const auto same = names.group(words, Kinds{ThingKind::load, ThingKind::point}); !same.empty()) {
    const bool loads = std::ranges::any_of(same, [](const ThingRef& ref) { return ref.kind == ThingKind::load; });
    for (const ThingRef& ref : same) {
      if (ref.kind == ThingKind::load) about.loads.push_back(Id<Load>{ref.id});
      else if (!loads) add_point(house, row(house, Id<Point>{ref.id}), about);
    }
    std::ranges::sort(about.loads);
    about.loads.erase(std::ranges::unique(about.loads).begin(), about.loads.end());
    return about;
  }
  if (at != std::string::npos && at > 0) {
    about.fresh.emplace_back(names.one_point(words.substr(at + 4)), words.substr(0, at));
    return about;
  }
  (void)names.one(words, Kinds{ThingKind::load, ThingKind::point});  // says what comes near
  return about;
}

void apply(const Marks& marks, Load& load) {
  if (marks.running) load.running_watts = marks.running;
  if (marks.starting) load.starting_watts = marks.starting;
  if (marks.running && !marks.starting && load.starting_watts && *load.starting_watts < *load.running_watts) load.starting_watts.reset();
  if (marks.running) load.full_load_deciamps = load.horsepower_hundredths = 0, load.code_letter.clear();  // the watts are newer
  if (marks.duty) load.duty_percent = marks.duty;
  if (marks.importance) load.importance = *marks.importance;
  if (marks.basis) load.basis = *marks.basis;
  else if (marks.running) load.basis = FigureBasis::guess;
  if (marks.power_factor) load.power_factor_percent = marks.power_factor;
  if (marks.longest_off_min) load.longest_off_min = marks.longest_off_min;
  if (marks.horsepower_hundredths > 0) load.horsepower_hundredths = marks.horsepower_hundredths;
  if (marks.full_load_deciamps > 0) load.full_load_deciamps = marks.full_load_deciamps;
  if (!marks.code_letter.empty()) load.code_letter = marks.code_letter;
  load.continuous = load.continuous || marks.continuous;
  load.starts_itself = load.starts_itself || marks.starts_itself;
  load.hurt_by_power_loss = load.hurt_by_power_loss || marks.hurt;
  load.use = marks.use;
}

}  // namespace

Wished with_wishes(const House& house, const Names& names, std::string_view text) {
  if (text.size() > kLongestWish) throw Error(ErrorKind::invalid_input, "The wishes are longer than " + std::to_string(kLongestWish) + " bytes; give them in parts.");
  Wished wished{house, {}};
  for (const std::string& wish : wish_detail::wishes_in(text)) {
    const Marks marks = wish_detail::read_wish(wish);
    const About about = about_of(house, names, marks.thing);
    std::vector<Id<Load>> loads = about.loads;
    for (const auto& [point, name] : about.fresh) {
      wished.house.loads.push_back({.id = Id<Load>::fresh(), .point = point, .name = name, .basis = FigureBasis::table});
      loads.push_back(wished.house.loads.back().id);
    }
    for (const Id<Load> id : loads) {
      Load& load = row(wished.house, id);
      apply(marks, load);
      if (load.starting_watts && load.running_watts && *load.starting_watts < *load.running_watts)
        throw Error(ErrorKind::invalid_input, quoted(wish) + ": it needs fewer watts to start than to run; give both as in '100/400 W'.");
      if (std::ranges::find(wished.loads, id) == wished.loads.end()) wished.loads.push_back(id);
    }
  }
  if (wished.loads.empty()) throw Error(ErrorKind::invalid_input, "No wish was given; say what must run in an outage, such as 'freezer 100/400 W nameplate'.");
  return wished;
}

}  // namespace ohmstead
