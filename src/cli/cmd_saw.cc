#include <algorithm>
#include <chrono>
#include <ostream>
#include <string>

#include "ask/printable.h"
#include "ask/saw.h"
#include "cli/exit_code.h"
#include "cli/open_house.h"
#include "cli/run.h"
#include "house/error.h"

namespace ohmstead {

namespace {

Error refused(const std::string& message) { return {ErrorKind::invalid_input, message}; }

/// "2026-03-01", "2026-03-01 18:30" or "2026-03-01T18:30:00Z" as the last of these.
std::string time_of(const std::string& given, const std::string& now) {
  static const std::string kPattern = "dddd-dd-ddTdd:dd:ddZ";
  std::string at = given;
  if (at.size() == 10) at += "T00:00:00Z";
  if (at.size() == 16) at += ":00Z";
  if (at.size() == 20 && at[10] == ' ') at[10] = 'T';
  bool fits = at.size() == kPattern.size();
  for (std::size_t i = 0; fits && i < at.size(); ++i) fits = kPattern[i] == 'd' ? at[i] >= '0' && at[i] <= '9' : at[i] == kPattern[i];
  const auto number = [&](std::size_t from) { return std::stoi(at.substr(from, 2)); };
  const auto exists = [&] {
    using namespace std::chrono;
    return (year{std::stoi(at.substr(0, 4))} / number(5) / number(8)).ok();
  };
  fits = fits && exists() && number(11) < 24 && number(14) < 60 && number(17) < 60;
  if (!fits)
    throw refused("--when needs a time in UTC, such as 2026-03-01 or '2026-03-01 18:30', not '" + terminal::printable(given.substr(0, 40)) + "'.");
  if (at > now) throw refused("--when " + at + " lies in the future (it is " + now + "); give the time at which it was seen.");
  return at;
}

/// What was told, on the command line or as free words.
std::string told(const Arguments& arguments) {
  std::string text = phrase(arguments.texts("THING"));
  for (const std::string& line : arguments.texts("--line")) text += (text.empty() ? "" : ";") + line;
  return text;
}

Sighting sighting_of(const House& house, const Names& names, const Arguments& arguments, const std::string& now) {
  Sighting sighting;
  const auto add = [&](const HandleRef& handle) {
    if (std::ranges::find(sighting.off, handle) == sighting.off.end()) sighting.off.push_back(handle);
  };
  const std::string text = told(arguments);
  if (text.empty()) throw refused("Say what was seen, such as `ohmstead saw hall light dead --off 12`; nothing was recorded.");
  sighting.at = arguments.has("--when") ? time_of(arguments.text("--when"), now) : now;
  sighting.who = arguments.text("--who");
  for (const std::string& handle : arguments.texts("--off")) add(names.one_handle(handle));
  read_saw(house, names, text, sighting);
  sighting.cause = arguments.text("--cause");
  if (!sighting.cause.empty() && sighting.tripped.empty()) throw refused("--cause tells why something tripped, but nothing is said to have tripped; nothing was recorded. Say it, such as '12 tripped'.");
  if (sighting.seen.empty() && sighting.tripped.empty()) throw refused("What was off is said, but not what was dead or live then; nothing was recorded. Say it, such as 'hall dark'; or '12 tripped', to keep that it did.");
  const bool said_off = !sighting.off.empty(), nothing_off = arguments.has("--nothing-off");
  if (said_off && nothing_off) throw refused("--nothing-off cannot be true when something is said to be off; nothing was recorded.");
  const bool some_dead = std::ranges::any_of(sighting.seen, &SeenPoint::dead);
  if (some_dead && !said_off && !nothing_off)
    throw refused("Say what was off when it was dead, such as --off 12, or --nothing-off if every breaker was on; nothing was recorded.");
  if (!arguments.has("--when") && !nothing_off)
    for (const HandleRef& handle : standing_off(house)) add(handle);
  return sighting;
}

int take_back(Session& session, HouseFile& file) {
  const auto revision = file.change("took back what was seen in daily life", [&](House& house) {
    auto next = without_last_sighting(house);
    if (!next) throw Error(ErrorKind::not_found, "Nothing was told with `saw` that could be taken back.");
    house = std::move(*next);
  });
  session.out << "Taken back: what was told last counts no more (it stays in the record, withdrawn). Saved as revision " << revision << ".\n";
  return kDone;
}

}  // namespace

int run_saw(Session& session, const Arguments& arguments) {
  HouseFile file = open_house(session, Access::change);
  if (arguments.has("--take-back")) {
    if (!told(arguments).empty()) throw refused("--take-back takes back what was told last, and tells nothing new; give it alone.");
    return take_back(session, file);
  }
  Sighting sighting;
  House before;
  const auto revision = file.change("seen in daily life", [&](House& house) {
    sighting = sighting_of(house, Names(house), arguments, session.now());
    before = house;
    house = with_sighting(house, sighting);
  });
  const Record was = make_record(std::move(before)), is = make_record(file.load());
  show(session, words_of_sighting(is.house, Names(is.house), sighting));
  show(session, words_of_change(was, is));
  show(session, words_of_contradictions(is.house, how_it_stands(is).contradictions));
  session.out << "Saved as revision " << revision << ".\n";
  return kDone;
}

}  // namespace ohmstead
