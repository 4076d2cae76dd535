#include "ask/packet.h"

#include <algorithm>
#include <map>
#include <set>

#include "ask/house_findings.h"
#include "ask/paper_names.h"
#include "ask/photos.h"
#include "ask/printable.h"
#include "ask/sentence.h"
#include "ask/watts.h"
#include "house/index.h"

namespace ohmstead {

namespace {

using sentence::counted;

const char* standing_word(Standing standing) {
  static constexpr const char* kWords[] = {"open", "disputed", "likely", "declared", "proved"};
  return kWords[static_cast<std::size_t>(standing)];
}

std::string circuits_of(const House& house, const Feed& feed) {
  std::vector<std::string> names;
  for (const Tap& tap : feed.taps)
    if (const std::string name = breaker_label(house, tap.breaker); std::ranges::find(names, name) == names.end()) names.push_back(name);
  return names.empty() ? "not found" : joined(names);
}

/// What a point without looks of its own is known by: the device that it stands behind, the other half of its receptacle.
std::string looked_at_by(const House& house, const Point& point) {
  const Device* device = find_row(house, point.behind);
  if (device == nullptr) return point.mate ? "its other half" : "another point";
  return device->kind == DeviceKind::gfci_receptacle ? "its GFCI" : device->kind == DeviceKind::wall_switch ? "its switch" : "its disconnect";
}

std::vector<PacketPoint> points_of(const Record& record) {
  const House& house = record.house;
  std::vector<PacketPoint> points;
  for (const Room& room : house.rooms)
    for (std::size_t p = 0; p < house.points.size(); ++p) {
      if (house.points[p].room != room.id) continue;
      const WhereAnswer where = where_is(record, p);
      points.push_back({room.name, house.points[p].name, where.feed.standing == Standing::open ? "not found" : circuits_of(house, where.feed), standing_word(where.feed.standing), where.seen_dead,
                        where.seen_live, where.last_seen.substr(0, 10), where.feed.standing != Standing::proved || where.seen_dead + where.seen_live > 0 ? "" : looked_at_by(house, house.points[p])});
    }
  return points;
}

/// Names of whoever recorded or saw something, most often first.
std::string who_recorded(const House& house) {
  std::map<std::string, int> counts;
  const auto count = [&](const std::string& who) {
    if (!who.empty()) ++counts[terminal::printable(who)];
  };
  for (const Round& round : house.rounds) count(round.who);
  for (const DeclaredFeed& feed : house.declared_feeds) count(feed.who);
  for (const Tick& tick : house.ticks) count(tick.who);
  std::vector<std::pair<std::string, int>> names(counts.begin(), counts.end());
  std::ranges::stable_sort(names, std::ranges::greater{}, &std::pair<std::string, int>::second);
  std::vector<std::string> list;
  for (const auto& [name, times] : names) list.push_back(name);
  if (list.size() > 8) list.resize(8), list.push_back("others");
  return list.empty() ? "no name is recorded" : joined(list);
}

std::string looks_words(const House& house) {
  std::string first, last;
  std::size_t looks = 0;
  for (const Observation& seen : house.observations) {
    if (seen.withdrawn || (seen.seen != Seen::dead && seen.seen != Seen::live)) continue;
    ++looks;
    if (first.empty() || seen.at < first) first = seen.at;
    last = std::max(last, seen.at);
  }
  return looks == 0 ? "none" : counted(looks, "look", "looks") + ", " + first.substr(0, 10) + (first.substr(0, 10) == last.substr(0, 10) ? "" : " to " + last.substr(0, 10));
}

/// Points that nobody looked at are told apart from those that were.
std::string proved_words(const std::vector<PacketPoint>& points) {
  std::map<std::string, std::size_t> without_looks;
  std::size_t proved = 0, seen = 0;
  for (const PacketPoint& point : points) {
    if (point.standing != "proved") continue;
    ++proved;
    if (point.by.empty()) ++seen;
    else ++without_looks[point.by];
  }
  std::string words = std::to_string(proved) + ": " + (without_looks.empty() ? "" : std::to_string(seen) + " ") + "seen dead with exactly their breaker off, and live with it on";
  for (const auto& [by, count] : without_looks) words += "; " + std::to_string(count) + " with no look of their own, proved by the looks at " + (by.starts_with("its ") ? "their " + by.substr(4) : by);
  return words;
}

std::vector<PacketFact> cover_of(const Record& record, const std::vector<PacketPoint>& known, std::int64_t revision) {
  const House& house = record.house;
  const StandAnswer stand = how_it_stands(record);
  const auto of_points = [&](const std::vector<std::size_t>& points) { return std::to_string(points.size()); };
  std::vector<PacketFact> facts{
      {"House", house.dwelling.name.empty() ? "no name is recorded" : house.dwelling.name},
      {"Service", system_words(house.dwelling.system)},
      {"Panels", counted(house.panels.size(), "panel", "panels") + ", " + counted(house.breakers.size(), "breaker", "breakers")},
      {"Points", counted(house.points.size(), "point", "points") + " in " + counted(house.rooms.size(), "room", "rooms") + ", " + counted(house.loads.size(), "load", "loads")},
      {"Proved", proved_words(known)},
      {"Declared", of_points(stand.declared) + ": somebody said so; not looked at"},
      {"Likely", of_points(stand.likely) + ": some evidence, not enough to rely on"},
      {"Disputed", of_points(stand.disputed) + ": what was seen contradicts itself"},
      {"Open", of_points(stand.open) + ": nothing established"},
      {"Evidence", looks_words(house)},
      {"Recorded by", who_recorded(house)},
      {"Revision", std::to_string(revision)}};
  for (const Source& source : house.sources)
    facts.insert(facts.begin() + 4, {source.kind == SourceKind::generator ? "Generator" : "Battery", source.name + (source.running_watts > 0 ? ", " + watts_text(source.running_watts) : ", watts not recorded")});
  return facts;
}

/// Circuits that carry the same multiwire id.
std::vector<PacketGroup> shared_neutrals(const House& house) {
  std::vector<PacketGroup> groups;
  std::set<std::uint64_t> done;
  for (const Circuit& first : house.circuits) {
    if (!first.multiwire || !done.insert(first.multiwire.value).second) continue;
    PacketGroup group;
    std::vector<std::string> names;
    std::set<std::uint64_t> ties;
    for (const Circuit& circuit : house.circuits) {
      if (circuit.multiwire != first.multiwire) continue;
      const Breaker* breaker = find_row(house, circuit.breaker);
      const Panel* panel = breaker == nullptr ? nullptr : find_row(house, breaker->panel);
      if (panel == nullptr) continue;
      names.push_back(breaker_label(house, breaker->id));
      ties.insert(breaker->tie ? breaker->tie.value : breaker->id.value);
      std::string legs;
      for (const PolePlace& place : pole_places(*panel, *breaker)) legs += (legs.empty() ? "" : " and ") + std::to_string(bus_leg(*panel, place.space, std::max(1, panel_legs(house, *panel))));
      group.items.push_back(names.back() + ": leg " + legs + (breaker->amps > 0 ? ", " + std::to_string(breaker->amps) + " A" : ", rating not read") + (circuit.wire.empty() ? "" : ", wire " + circuit.wire));
    }
    group.head = joined(names) + (names.size() == 1 ? " feeds both legs with one neutral" : " share one neutral") + (ties.size() <= 1 ? "; they open together." : "; their handles are NOT tied.");
    groups.push_back(std::move(group));
  }
  return groups;
}

bool stands_behind(const House& house, Id<Device> from, Id<Device> device) {
  std::size_t steps = 0;
  for (Id<Device> at = from; at && steps++ <= house.devices.size();) {
    if (at == device) return true;
    const Device* found = find_row(house, at);
    at = found == nullptr ? Id<Device>{} : found->behind;
  }
  return false;
}

std::vector<PacketGroup> gfci_chains(const Record& record) {
  const House& house = record.house;
  std::vector<PacketGroup> groups;
  for (std::size_t d = 0; d < house.devices.size(); ++d) {
    const Device& device = house.devices[d];
    if (device.kind != DeviceKind::gfci_receptacle) continue;
    const Point* at = find_row(house, device.at_point);
    const Room* room = at == nullptr ? nullptr : find_row(house, at->room);
    const Feed& feed = record.feeds.of_device[d];
    PacketGroup group;
    group.head = "GFCI at " + (room == nullptr ? "" : room->name + " ") + (at == nullptr ? std::string("a place that is not recorded") : at->name) + ", on " + (feed.standing == Standing::open ? "a breaker that is not found" : circuits_of(house, feed)) +
                 (relied_on(feed.standing) || feed.standing == Standing::open ? "" : std::string(" (") + standing_word(feed.standing) + ")");
    std::vector<std::size_t> behind;
    for (std::size_t p = 0; p < house.points.size(); ++p)
      if (house.points[p].id != device.at_point && stands_behind(house, house.points[p].behind, device.id)) behind.push_back(p);
    for (const std::string& item : points_by_room(house, behind)) group.items.push_back("downstream: " + item);
    if (behind.empty()) group.items.push_back("nothing is recorded downstream of it");
    groups.push_back(std::move(group));
  }
  return groups;
}

PacketGroup protected_breakers(const PanelSchedules& schedules) {
  PacketGroup group{"Breakers that protect people or against arcs", {}};
  for (const PanelSchedule& panel : schedules.panels)
    for (const ScheduleEntry& entry : panel.entries)
      if (entry.kind.find("FCI") != std::string::npos) group.items.push_back(panel.name + " " + entry.number + ": " + entry.kind + ", " + entry.words.text);
  return group;
}

/// Names go on paper without persons; the words of the old directory are looked at as they were. What was printed is left out: a packet
/// would be no longer true as soon as it is printed.
Record with_old_labels(Record record, const House& whole) {
  record.house.printed.clear();
  for (std::size_t b = 0; b < record.house.breakers.size(); ++b) record.house.breakers[b].old_label = whole.breakers[b].old_label;
  return record;
}

/// The same findings as everywhere (rules/findings.h), but for those that would quote words which may name a person, and what was printed; at
/// the end what was not checked.
std::vector<PacketFinding> findings_of(const Findings& findings) {
  std::vector<PacketFinding> made;
  for (const Finding& finding : findings.found)
    if (finding.rule != "label_of_a_person" && finding.rule != "labels_the_same" && finding.rule != "signs_not_printed") made.push_back({finding_text(finding), finding.citation, finding.severity == Severity::danger});
  if (made.empty()) made.push_back({"Nothing in this record stands against the rules that were looked at.", "", false});
  std::string rest = "Not checked.";
  for (const std::string& sentence : findings.not_checked) rest += " " + sentence;
  made.push_back({rest, "", false});
  return made;
}

/// Is it a step of tracing, as sessions write them down (trace/step_text.h, history_text)?
bool is_step(const std::string& what) {
  for (const char* start : {"Opened ", "Closed ", "Skipped ", "Will not close", "Read the caution", "Lamp ", "No lamp ", "The lamp "})
    if (what.starts_with(start)) return true;
  return std::ranges::any_of(std::initializer_list<const char*>{": seen live", ": seen dead", ": not sure", ": skipped", ": done"}, [&](const char* end) { return what.ends_with(end); });
}

/// Steps of tracing are told together; so are changes of one day that say the same.
std::vector<std::string> history_of(const Record& record, std::int64_t revision, const std::vector<RecordedChange>& changes) {
  std::vector<std::string> lines;
  for (std::size_t i = 0; i < changes.size();) {
    std::size_t end = i + 1;
    const bool steps = is_step(changes[i].what);
    while (end < changes.size() && changes[end].at.substr(0, 10) == changes[i].at.substr(0, 10) && (steps ? is_step(changes[end].what) : changes[end].what == changes[i].what)) ++end;
    const std::string upto = end - i > 1 ? " to " + std::to_string(changes[end - 1].revision) : "";
    lines.push_back(changes[i].at.substr(0, 10) + ", revision " + std::to_string(changes[i].revision) + upto + ": " + (steps && end - i > 1 ? std::string("steps of tracing") : terminal::printable(changes[i].what)) + (end - i > 1 ? " (" + counted(end - i, "change", "changes") + ")" : ""));
    i = end;
  }
  if (!lines.empty()) return lines;
  lines.push_back("No list of changes came with this record. It is revision " + std::to_string(revision) + ".");
  std::map<std::string, std::size_t> rounds;
  for (const Round& round : record.house.rounds) ++rounds[round.at.substr(0, 10)];
  for (const auto& [day, count] : rounds) lines.push_back(day + ": " + counted(count, "round", "rounds") + " of looking");
  return lines;
}

/// Those of one thing stand together.
void add_photos(const Record& record, Packet& made) {
  const Names names(record.house);
  for (const Photo& photo : record.house.photos) {
    if (photo.is_private) {
      ++made.private_photos;
      continue;
    }
    const PhotoWords words = words_of_photo(names, photo);
    made.photos.push_back({words.about, words.caption, words.date, words.id, photo.picture, photo.width, photo.height});
  }
  std::ranges::stable_sort(made.photos, {}, &PacketPhoto::about);
  if (!made.photos.empty()) made.inside.push_back("Photos");
}

}  // namespace

Packet packet(const Record& whole, std::int64_t revision, const std::vector<RecordedChange>& changes) {
  const Record record = with_paper_names(whole);
  Packet made;
  made.points = points_of(record);
  made.cover = cover_of(record, made.points, revision);
  made.inside = {"One-line diagram", "Panel schedules, with connected loads", "Shared neutrals", "GFCI chains, and breakers with GFCI or AFCI", "Evidence: every point, its circuit, and how well that is known", "Findings", "History"};
  made.limits = {"Drawn from what a household recorded. Nothing behind a wall was opened for it: routes of cables, boxes and splices are known only where they are named.",
                 "Proved says which breaker a point hangs on; it does not say that the wiring is to code. Test before you touch.",
                 "Loads are connected loads as recorded, each with the source of its figure; this is no load calculation (NFPA 70 article 220)."};
  made.line = one_line(whole);
  made.schedules = panel_schedules(whole);
  made.shared = shared_neutrals(record.house);
  made.chains = gfci_chains(record);
  if (PacketGroup breakers = protected_breakers(made.schedules); !breakers.items.empty()) made.chains.push_back(std::move(breakers));
  made.findings = findings_of(house_findings(with_old_labels(record, whole.house), contradictions_of(whole.house, conclude_units(whole.house))));
  add_photos(record, made);
  made.history = history_of(record, revision, changes);
  return made;
}

}  // namespace ohmstead
