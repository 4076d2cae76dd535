#include <algorithm>

#include "house/can_be_seen.h"
#include "house/invariants.h"
#include "house_maker.h"

namespace ohmstead {

/// Says which breaker feeds the hots of one point or device: mostly neighbouring poles of one.
void HouseMaker::declare(Id<Point> point, Id<Device> device, int hots) {
  const Breaker* breaker = &any(house_.breakers);
  for (int tries = 0; tries < 20 && (breaker->poles < hots || breaker->backfed_from); ++tries) breaker = &any(house_.breakers);
  if (breaker->backfed_from) return;
  const int shift = below(breaker->poles);
  for (int hot = 1; hot <= hots; ++hot) {
    if (one_in(25)) continue;
    house_.declared_feeds.push_back({fresh<DeclaredFeed>(), point, device, hot, breaker->id,
                                     (hot - 1 + shift) % breaker->poles + 1, words(), moment()});
  }
}

void HouseMaker::declared_feeds() {
  if (house_.breakers.empty()) return;
  for (const Device& device : house_.devices)
    if (!device.behind && !one_in(8)) declare({}, device.id, device.poles);
  for (const Point& point : house_.points)
    if (!point.behind && !one_in(8)) declare(point.id, {}, point.hots);
}

HandleRef HouseMaker::any_handle() {
  std::vector<HandleRef> refs;
  const auto add = [&](HandleKind kind, const auto& table) {
    if (!table.empty()) refs.push_back({kind, any(table).id.value});
  };
  add(HandleKind::main, house_.panels);
  add(HandleKind::breaker, house_.breakers);
  add(HandleKind::position, house_.positions);
  add(HandleKind::position_breaker, house_.positions);
  add(HandleKind::device, house_.handles);
  return any(refs);
}

void HouseMaker::observations() {
  for (int i = below(4); i > 0; --i) {
    const Round round{fresh<Round>(), any_word<RoundKind>(), moment(), words(), one_in(2)};
    house_.rounds.push_back(round);
    const auto apart_chance = [&](int n) {
      const Apart apart(*this);
      return below(n);
    };
    if (round.kind == RoundKind::proof) {
      const Apart apart(*this);
      house_.rounds.back().utility = one_in(2);
      if (!house_.sources.empty()) house_.rounds.back().source = any(house_.sources).id;
    }
    for (int o = below(3); o > 0; --o)
      house_.opened.push_back({fresh<Opened>(), round.id, any_handle(), round.kind == RoundKind::proof ? apart_chance(3) : 0});
    for (int o = house_.points.empty() ? 0 : below(6); o > 0; --o)
      house_.observations.push_back({fresh<Observation>(), round.id, any(house_.points).id, any_word<Seen>(),
                                     any_word<Method>(), moment(), one_in(10)});
  }
}

/// The plan that was kept, pins, ticks and a log, of no particular sense.
void HouseMaker::outage() {
  const Apart apart(*this);
  for (const Position& position : house_.positions)
    if (position.breaker && !one_in(3)) house_.planned.push_back({fresh<Planned>(), position.breaker, position.pole, one_in(4) ? Id<Position>{} : position.id});
  for (const Breaker& breaker : house_.breakers)
    if (one_in(8)) house_.pins.push_back({fresh<Pin>(), breaker.id, one_in(2), {}});
  for (Pin& pin : house_.pins)
    if (!pin.never && !house_.positions.empty()) pin.position = any(house_.positions).id;
  for (int i = below(4); i > 0; --i) house_.ticks.push_back({fresh<Tick>(), name("step"), moment(), words()});
  for (int i = below(6); i > 0; --i) {
    OutageEvent event{fresh<OutageEvent>(), any_word<OutageEventKind>(), moment(), words()};
    using enum OutageEventKind;
    if ((event.kind == source_started || event.kind == source_stopped) && house_.sources.empty()) event.kind = note;
    if (!house_.sources.empty()) event.source = any(house_.sources).id;
    if (one_in(2) || event.kind == moved) event.handle = any_handle(), event.stands = below(3);
    if (!house_.loads.empty() && one_in(2)) event.load = any(house_.loads).id;
    if (!house_.points.empty() && one_in(2)) event.point = any(house_.points).id, event.running_watts = below(2000), event.starting_watts = below(3000);
    event.text = name("thing");
    event.withdrawn = one_in(5);
    house_.outage_events.push_back(event);
  }
  for (int i = below(4); i > 0; --i)
    house_.printed.push_back({fresh<Printed>(), name("sheet"), words(), "[\"labels\",\"" + std::string(one_in(2) ? "plates" : "dots") + "\"]", moment(), 1 + below(99),
                              "AB3D" + std::to_string(10 + below(90))});
  trouble();
}

/// Trips, and a diagnosis of no particular sense.
void HouseMaker::trouble() {
  if (house_.breakers.empty()) return;
  for (int i = below(5); i > 0; --i)
    house_.trips.push_back({fresh<Trip>(), any_handle(), moment(), words(), words(), house_.rounds.empty() ? Id<Round>{} : any(house_.rounds).id, one_in(6)});
  if (house_.points.empty() || one_in(2)) return;
  house_.diagnoses.push_back({fresh<Diagnosis>(), moment(), words(), any_word<Before>(), {}, one_in(3), one_in(2), words()});
  if (!house_.sources.empty()) house_.diagnoses.back().source = any(house_.sources).id;
  for (int i = 1 + below(5); i > 0; --i) {
    DiagnosisLook look{fresh<DiagnosisLook>(), house_.diagnoses.back().id, any_word<LookAt>(), any(house_.points).id, any_handle(), {}, any_word<LookSaw>(), below(300), moment(), one_in(5)};
    if (house_.sources.empty() && look.what == LookAt::source) look.what = LookAt::neighbors;
    while (!can_be_seen(look.what, look.saw)) look.saw = any_word<LookSaw>();
    if (!house_.sources.empty()) look.source = any(house_.sources).id;
    house_.diagnosis_looks.push_back(look);
  }
}

void HouseMaker::passings() {
  if (house_.breakers.empty() || house_.boxes.empty()) return;
  for (int i = below(size_ + 1); i > 0; --i) {
    const Breaker& breaker = any(house_.breakers);
    house_.passings.push_back({fresh<Passing>(), any(house_.boxes).id, breaker.id, between(1, breaker.poles)});
  }
}

void HouseMaker::notes() {
  const auto note = [&](ThingKind kind, const auto& table) {
    if (table.empty() || !one_in(4)) return;
    house_.notes.push_back({fresh<Note>(), {kind, any(table).id.value}, words(), one_in(3), words(), moment()});
  };
  if (one_in(2)) house_.notes.push_back({fresh<Note>(), {}, std::string(static_cast<std::size_t>(below(9000)), 'n')});
  note(ThingKind::floor, house_.floors), note(ThingKind::room, house_.rooms), note(ThingKind::box, house_.boxes);
  note(ThingKind::point, house_.points), note(ThingKind::load, house_.loads), note(ThingKind::panel, house_.panels);
  note(ThingKind::breaker, house_.breakers), note(ThingKind::circuit, house_.circuits);
  note(ThingKind::device, house_.devices), note(ThingKind::handle, house_.handles);
  note(ThingKind::source, house_.sources), note(ThingKind::transfer_device, house_.transfer_devices);
  note(ThingKind::position, house_.positions);
  for (const Note& about : house_.notes)  // photos where there are notes
    if (!about.who.empty() && about.text.size() < kLongestName)
      house_.photos.push_back({fresh<Photo>(), about.about, about.text, std::string(64, one_in(2) ? 'a' : 'c'), std::string(64, one_in(2) ? 'b' : 'd'), 1 + below(1600), 1 + below(1600), 1 + below(300'000), about.is_private, about.who, about.at});
  for (int i = below(3); i > 0; --i) house_.settings.push_back({fresh<Setting>(), name("setting"), words()});
}

}  // namespace ohmstead
