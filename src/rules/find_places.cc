// What the place of a point asks for: protection, circuits of its own, and nothing in the way of alarms.

#include <algorithm>
#include <set>

#include "rules/findings_look.h"
#include "rules/plain_words.h"

namespace ohmstead::findings_detail {

namespace {

/// A kind of place, the words that name it, and since when the code has asked for protection there (years from memory).
struct PlaceRule {
  std::vector<const char*> words;
  const char* what;
  const char* since;
};
const std::vector<PlaceRule>& gfci_places() {
  static const std::vector<PlaceRule> rows{
      {{"bath", "powder room", "shower"}, "bathroom", "1975"},
      {{"yard", "backyard", "outside", "outdoor", "deck", "patio", "porch", "driveway"}, "outdoors", "1973"},
      {{"garage", "carport"}, "garage", "1978"},
      {{"crawl"}, "crawl space", "1990"},
      {{"basement", "cellar"}, "basement", "1990, for unfinished parts"},
      {{"kitchen"}, "kitchen counter", "1987, for counters"},
      {{"laundry"}, "laundry", "2014"},
  };
  return rows;
}
const std::vector<PlaceRule>& afci_places() {
  static const std::vector<PlaceRule> rows{{{"bedroom"}, "bedroom", "2002"}, {{"living", "dining", "family", "den", "hall", "closet", "library", "sunroom", "parlor"}, "living rooms and halls", "2008"}, {{"kitchen", "laundry"}, "kitchen and laundry", "2014"}};
  return rows;
}

/// Does a word of the name begin so: "bath" in "Upper Bathroom", but not "den" in "garden"?
bool has_start(const std::string& name, const char* word) { return holds_word(" " + name, std::string(" ") + word); }

bool is_named(const std::string& room, const PlaceRule& rule) {
  return std::ranges::any_of(rule.words, [&](const char* word) { return has_start(room, word); });
}

std::string room_of(const House& house, const Point& point) {
  const Room* room = find_row(house, point.room);
  return room == nullptr ? "" : room->name;
}

/// Devices between a point and its breaker, nearest first.
std::vector<const Device*> chain_of(const House& house, Id<Device> nearest) {
  std::vector<const Device*> chain;
  for (const Device* at = find_row(house, nearest); at != nullptr && chain.size() <= house.devices.size(); at = find_row(house, at->behind)) chain.push_back(at);
  return chain;
}

bool has_device(const House& house, const Point& point, DeviceKind kind) {
  return std::ranges::any_of(chain_of(house, point.behind), [&](const Device* device) { return device->kind == kind; });
}

/// The breaker of a point whose feed may be relied on; else none.
const Breaker* sure_breaker(const Look& look, std::size_t place) {
  const Feed& feed = look.input.feeds.of_point[place];
  return relied_on(feed.standing) && !feed.taps.empty() ? find_row(look.house(), feed.taps.front().breaker) : nullptr;
}

bool is_gfci(Protection protection) { return protection == Protection::gfci || protection == Protection::dual; }
bool is_afci(Protection protection) { return protection == Protection::afci || protection == Protection::dual; }

void tell_rooms(Look& look, const std::vector<std::size_t>& points, const char* rule, const PlaceRule& place, const std::string& protection) {
  if (points.empty()) return;
  std::vector<ThingRef> things;
  std::vector<std::string> names;
  for (const std::size_t p : points) {
    things.push_back(thing(look.house().points[p].id));
    if (names.size() < 6) names.push_back(point_label(look.house(), p));
  }
  if (points.size() > names.size()) names.push_back(std::to_string(points.size() - names.size()) + " more");
  look.add(rule, Severity::note, things, "No " + protection + " is recorded before " + joined(names) + ". New work there (" + place.what + ") has had to have it since " + place.since + "; the year of this work is not recorded.",
           protection == "GFCI" ? "A GFCI opens before a current through a person kills." : "An AFCI opens when a damaged cord or wire arcs, before it starts a fire.");
  look.cite(std::string(protection == "GFCI" ? "NFPA 70 210.8(A)" : "NFPA 70 210.12") + ", years from memory");
  look.rests_on(points);
}

void find_gfci(Look& look) {
  for (const PlaceRule& place : gfci_places()) {
    std::vector<std::size_t> without;
    for (std::size_t p = 0; p < look.house().points.size(); ++p) {
      const Point& point = look.house().points[p];
      if (point.kind != PointKind::receptacle || point.hots != 1 || !is_named(room_of(look.house(), point), place)) continue;
      const Breaker* breaker = sure_breaker(look, p);
      if (breaker != nullptr && !is_gfci(breaker->protection) && !has_device(look.house(), point, DeviceKind::gfci_receptacle)) without.push_back(p);
    }
    tell_rooms(look, without, "gfci_expected", place, "GFCI");
  }
}

void find_afci(Look& look) {
  for (const PlaceRule& place : afci_places()) {
    std::vector<std::size_t> without;
    for (std::size_t p = 0; p < look.house().points.size(); ++p) {
      const Point& point = look.house().points[p];
      const bool outlet = point.kind == PointKind::receptacle || point.kind == PointKind::light;
      const std::string room = room_of(look.house(), point);
      if (!outlet || point.hots != 1 || !is_named(room, place) || is_named(room, gfci_places()[0])) continue;  // a hall bath is a bathroom
      const Breaker* breaker = sure_breaker(look, p);
      if (breaker != nullptr && breaker->amps > 0 && breaker->amps <= 20 && !is_afci(breaker->protection)) without.push_back(p);
    }
    tell_rooms(look, without, "afci_expected", place, "AFCI");
  }
}

/// Points of a circuit that are not where (or what) it is for.
struct Dedicated {
  const char* rule;
  const char* what;      ///< "a laundry receptacle"
  const char* citation;
  bool (*is_it)(const House&, const Point&);
  bool (*may_share)(const House&, const Point&);
};

bool named(const House& house, const Point& point, const char* word) { return has_start(room_of(house, point), word) || has_start(point.name, word); }
bool is_receptacle_in(const House& house, const Point& point, const char* room) { return point.kind == PointKind::receptacle && point.hots == 1 && has_start(room_of(house, point), room); }
bool is_heating(const Point& point) { return (has_start(point.name, "furnace") || has_start(point.name, "boiler")) && point.kind != PointKind::light; }

const Dedicated kDedicated[] = {
    {"laundry_shared", "a laundry receptacle", "NFPA 70 210.11(C)(2), text", [](const House& h, const Point& p) { return is_receptacle_in(h, p, "laundry") || (p.hots == 1 && p.name == "washer"); }, [](const House& h, const Point& p) { return named(h, p, "laundry") && p.kind != PointKind::light; }},
    {"bath_shared", "a bathroom receptacle", "NFPA 70 210.11(C)(3), text", [](const House& h, const Point& p) { return is_receptacle_in(h, p, "bath"); }, [](const House& h, const Point& p) { return named(h, p, "bath"); }},
    {"kitchen_shared", "a kitchen receptacle", "NFPA 70 210.52(B)(2), from memory", [](const House& h, const Point& p) { return is_receptacle_in(h, p, "kitchen"); },
     [](const House& h, const Point& p) { return (named(h, p, "kitchen") || named(h, p, "dining") || named(h, p, "pantry") || named(h, p, "breakfast")) && p.kind == PointKind::receptacle; }},
    {"heating_shared", "the furnace or boiler", "NFPA 70 422.12, from memory", [](const House&, const Point& p) { return is_heating(p); }, [](const House&, const Point& p) { return has_start(p.name, "furnace") || has_start(p.name, "boiler") || holds_word(p.name, "pump"); }},
};

void find_shared(Look& look, const Breaker& breaker, const Dedicated& rule) {
  std::vector<std::size_t> own, others;
  for (const std::size_t p : points_on(look, breaker.id)) {
    if (sure_breaker(look, p) == nullptr) continue;
    const Point& point = look.house().points[p];
    if (rule.is_it(look.house(), point)) own.push_back(p);
    else if (!rule.may_share(look.house(), point)) others.push_back(p);
  }
  if (own.empty() || others.empty()) return;
  std::vector<ThingRef> things{thing(breaker.id), thing(look.house().points[own[0]].id)};
  for (const std::size_t p : others) things.push_back(thing(look.house().points[p].id));
  look.add(rule.rule, Severity::note, things, breaker_label(look.house(), breaker.id) + " feeds " + rule.what + " (" + point_label(look.house(), own[0]) + ") and also " + point_label(look.house(), others[0]) + (others.size() > 1 ? " and " + std::to_string(others.size() - 1) + " more" : "") + ".",
           "New work gives it a circuit of its own, so that what else is plugged in does not trip it.");
  look.cite(std::string(rule.citation) + "; older work may stand");
  others.push_back(own[0]);
  look.rests_on(others);
}

bool keeps_alive(const House& house, const Point& point) {
  return point.kind == PointKind::alarm || std::ranges::any_of(house.loads, [&](const Load& load) { return load.point == point.id && load.importance == Importance::life_safety; });
}

void find_switched(Look& look, std::size_t place) {
  const Point& point = look.house().points[place];
  for (const Device* device : chain_of(look.house(), point.behind)) {
    if (device->kind != DeviceKind::wall_switch) continue;
    look.add("life_safety_switched", Severity::danger, {thing(point.id), {ThingKind::device, device->id.value}}, point_label(look.house(), place) + " stands behind the wall switch '" + device->name + "'.", "Somebody switches it off without knowing, and it is not there when it is needed.");
    look.cite("NFPA 72 and the maker's directions, from memory");
    return;
  }
}

void find_untraced(Look& look, const std::vector<std::size_t>& places, Standing standing) {
  std::vector<ThingRef> things;
  std::vector<std::string> names;
  for (const std::size_t p : places)
    if (look.input.feeds.of_point[p].standing == standing) things.push_back(thing(look.house().points[p].id)), names.push_back(point_label(look.house(), p));
  if (names.empty()) return;
  look.add("life_safety_untraced", Severity::fix, things, joined(names) + ": what feeds " + (names.size() == 1 ? "it" : "them") + " is " + (standing == Standing::open ? "not found yet." : standing == Standing::likely ? "likely, not proved." : "disputed by what was seen."),
           "In an outage nobody would know whether there is power, and work elsewhere could take it away.");
}

}  // namespace

void sort_points(Look& look) {
  for (std::size_t p = 0; p < look.house().points.size(); ++p) {
    const Feed& feed = look.input.feeds.of_point[p];
    if (feed.standing == Standing::open) continue;
    for (const Tap& tap : feed.taps)
      if (std::vector<std::size_t>& points = look.on_breaker[tap.breaker.value]; points.empty() || points.back() != p) points.push_back(p);
  }
}

std::vector<std::size_t> points_on(const Look& look, Id<Breaker> breaker) {
  const auto found = look.on_breaker.find(breaker.value);
  return found == look.on_breaker.end() ? std::vector<std::size_t>{} : found->second;
}

void find_protection(Look& look) {
  if (look.house().dwelling.system == VoltageSystem::single_230) return;  // places and years are of NFPA 70
  find_gfci(look);
  find_afci(look);
}

void find_dedicated(Look& look) {
  if (look.house().dwelling.system == VoltageSystem::single_230) return;
  for (const Breaker& breaker : look.house().breakers)
    for (const Dedicated& rule : kDedicated) find_shared(look, breaker, rule);
}

void find_life_safety(Look& look) {
  std::vector<std::size_t> places;
  for (std::size_t p = 0; p < look.house().points.size(); ++p)
    if (keeps_alive(look.house(), look.house().points[p])) places.push_back(p);
  for (const std::size_t p : places) find_switched(look, p);
  for (const Standing standing : {Standing::open, Standing::disputed, Standing::likely}) find_untraced(look, places, standing);
}

}  // namespace ohmstead::findings_detail
