// Questions whose things are found: each is handed to the function that answers it.

#include <algorithm>

#include "ask/ask_parts.h"
#include "ask/ask_things.h"
#include "ask/notes.h"
#include "ask/sentence.h"
#include "house/error.h"
#include "rules/record_names.h"

namespace ohmstead::ask_detail {

using sentence::capital, sentence::say;

namespace {

std::string names_of(const Names& names, const std::vector<ThingRef>& things) {
  constexpr std::size_t kMost = 4;
  std::vector<std::string> all;
  for (std::size_t i = 0; i < things.size() && i < kMost; ++i) all.push_back(names.name_of(things[i]));
  if (things.size() > kMost) all.push_back(std::to_string(things.size() - kMost) + " more");
  return joined(all);
}

void add(Lines& lines, Lines more) { std::ranges::move(more, std::back_inserter(lines)); }

void add_notes(const AskFrom& from, AskAnswer& answer) {
  for (const ThingRef& thing : answer.things)
    if (thing.kind != ThingKind::house) add(answer.lines, words_of_notes(from.record.house, from.names, notes_about(from.record.house, thing)));
}

AskAnswer answer_off(const AskFrom& from, const std::vector<ThingRef>& things) {
  std::vector<AskedMove> moves;
  for (const ThingRef& thing : things) moves.push_back({handle_of_thing(thing), kOff});
  const OffAnswer off = what_goes_off(from.record, moves, {});
  return answered(from, QuestionKind::off, "what goes off with", things, words_of_answer(from.record, from.names, off));
}

AskAnswer answer_carries(const AskFrom& from, QuestionKind kind, const std::vector<ThingRef>& things) {
  Lines lines;
  for (const ThingRef& thing : things) add(lines, words_of_answer(from.record, from.names, what_does_it_carry(from.record, handle_of_thing(thing))));
  return answered(from, kind, kind == QuestionKind::circuit ? "what is on the circuit of" : "what is on", things, std::move(lines));
}

/// "Are the washer and the storage light on the same breaker?"
AskAnswer answer_same(const AskFrom& from, const std::vector<ThingRef>& things, const std::vector<std::size_t>& points) {
  const auto taps = [&](std::size_t p) -> const std::vector<Tap>& { return from.record.feeds.of_point[p].taps; };
  AskAnswer answer = answered(from, QuestionKind::circuit, "are these on the same breaker:", things, {});
  if (std::ranges::any_of(points, [&](std::size_t p) { return taps(p).empty(); })) {
    say(answer.lines, LineKind::answer, "There is no telling: not all of them are traced.");
    answer.yes = false;
  } else {
    const auto shared = [&](const Tap& tap) {
      return std::ranges::all_of(
          points, [&](std::size_t p) { return std::ranges::any_of(taps(p), [&](const Tap& other) { return other.breaker == tap.breaker; }); });
    };
    answer.yes = std::ranges::any_of(taps(points.front()), shared);
    say(answer.lines, LineKind::answer,
        answer.yes ? "Yes, by the record they are on the same breaker." : "No, by the record they are on different breakers.");
  }
  add(answer.lines, feeds_lines(from, points));
  return answer;
}

AskAnswer answer_circuit(const AskFrom& from, const std::vector<ThingRef>& things, const std::vector<std::size_t>& points, bool yes_or_no) {
  if (points.size() > 1 && yes_or_no) return answer_same(from, things, points);
  const House& house = from.record.house;
  Lines lines;
  std::vector<Tap> said;
  for (const std::size_t p : points) {
    const WhereAnswer where = where_is(from.record, p);
    if (!said.empty() && where.feed.taps == said) continue;
    said = where.feed.taps;
    const std::string name = capital(sentence::point_name(house, p));
    std::vector<std::string> breakers;
    for (const Tap& tap : where.feed.taps)
      if (const std::string breaker = from.names.name_of(HandleRef{HandleKind::breaker, tap.breaker.value});
          std::ranges::find(breakers, breaker) == breakers.end())
        breakers.push_back(breaker);
    std::vector<std::size_t> others = where.same_breaker;
    std::erase_if(others, [&](std::size_t other) { return std::ranges::find(points, other) != points.end(); });
    if (said.empty())
      say(lines, LineKind::answer, name + ": what feeds it is not traced yet, so there is no telling.");
    else if (others.empty())
      say(lines, LineKind::answer,
          name + " is on " + joined(breakers) + ", " + standing_words(house, p, where.feed) + "; nothing else that has been traced is on it.");
    else
      say(lines, LineKind::answer, name + " is on " + joined(breakers) + ", " + standing_words(house, p, where.feed) + ". On the same breaker:",
          points_by_room(house, others));
  }
  return answered(from, QuestionKind::circuit, "what else is on the circuit of", things, std::move(lines));
}

AskAnswer answer_isolate(const AskFrom& from, const std::vector<ThingRef>& things, const std::vector<std::size_t>& points) {
  std::vector<std::vector<std::uint32_t>> open;
  for (const std::size_t p : points) open.push_back(isolate_point(from.record, p).isolation.open);
  const bool alike = std::ranges::all_of(open, [&](const auto& one) { return one == open.front(); });
  if (!alike) return ask_back(from, QuestionKind::isolate, "They are opened in different places. Which one is worked on?", things);
  Lines lines;
  for (std::size_t i = 0; i < points.size(); ++i) {
    Lines more = words_of_answer(from.record, from.names, isolate_point(from.record, points[i]));
    if (i > 0) std::erase_if(more, [](const Line& line) { return line.kind == LineKind::caution || line.kind == LineKind::detail; });
    std::erase_if(more, [&](const Line& line) { return std::ranges::any_of(lines, [&](const Line& have) { return have.text == line.text; }); });
    lines.insert(i == 0 ? lines.end() : lines.begin(), more.begin(), more.end());
  }
  return answered(from, QuestionKind::isolate, "what to open before work on", things, std::move(lines));
}

/// Somebody may depend on it: that comes before any search for the cause.
void say_life(const House& house, const std::vector<std::size_t>& points, Lines& lines) {
  for (const Load& load : house.loads)
    if (load.importance == Importance::life_safety && std::ranges::any_of(points, [&](std::size_t p) { return house.points[p].id == load.point; }))
      say(lines, LineKind::danger,
          capital(load.name) +
              ": somebody depends on it. First change to its battery or cylinder, as its written plan says. No plan, or not enough: call its "
              "supplier or the emergency number.");
}

AskAnswer answer_dead(const AskFrom& from, const std::vector<ThingRef>& things, const std::vector<std::size_t>& points) {
  AskAnswer answer = answered(from, QuestionKind::dead, "why it does not work:", things, {});
  say_life(from.record.house, points, answer.lines);
  say(answer.lines, LineKind::answer, "To find out, look by look: `ohmstead diagnose " + names_of(from.names, {things.front()}) + "`.");
  if (points.size() == 1)
    add(answer.lines, words_of_answer(from.record, from.names, bring_back(from.record, points.front(), state_when(from.record, {}), {})));
  else
    add(answer.lines, feeds_lines(from, points));
  return answer;
}

AskAnswer answer_points(const AskFrom& from, QuestionKind kind, const std::vector<ThingRef>& things, const Question& question) {
  const std::vector<std::size_t> points = points_of(from.record.house, things);
  if (points.empty())
    return ask_back(from, kind, "Nothing of " + names_of(from.names, things) + " is written down as a point. Which thing is meant?", {});
  switch (kind) {
    case QuestionKind::off:
    case QuestionKind::circuit:
      return answer_circuit(from, things, points, question.yes_or_no && question.about.size() > 1);
    case QuestionKind::backup:
      return answered(from, kind, "what carries in an outage:", things, backup_lines(from, points));
    case QuestionKind::isolate:
      return answer_isolate(from, things, points);
    case QuestionKind::traced:
      return answered(from, kind, "who found what feeds", things, traced_lines(from, points));
    case QuestionKind::dead:
      return answer_dead(from, things, points);
    case QuestionKind::restore:
      if (points.size() > 1) return ask_back(from, kind, "Which one is to come back?", things);
      return answered(from, kind, "what brings back", things,
                      words_of_answer(from.record, from.names, bring_back(from.record, points.front(), state_when(from.record, {}), {})));
    default:
      return answered(from, QuestionKind::feeds, "what feeds", things, feeds_lines(from, points));
  }
}

/// "Which breaker feeds the subpanel?"
AskAnswer answer_panel_feed(const AskFrom& from, const ThingRef& thing) {
  const Panel& panel = row(from.record.house, Id<Panel>{thing.id});
  const Id<Breaker> feeder = feeder_of(from.record.house, panel);
  AskAnswer answer = answered(from, QuestionKind::feeds, "what feeds", {thing}, {});
  const std::string name = capital(from.names.name_of(thing));
  if (feeder)
    say(answer.lines, LineKind::answer,
        name + " is fed by " + from.names.name_of(HandleRef{HandleKind::breaker, feeder.value}) + ", as written down.");
  else
    say(answer.lines, LineKind::answer,
        name + (panel.supply == Supply::utility ? " is fed by the utility, through its main." : ": what feeds it was not written down."));
  return answer;
}

AskAnswer answer_handles(const AskFrom& from, QuestionKind kind, const std::vector<ThingRef>& things) {
  if (kind == QuestionKind::feeds && things.size() == 1 && things.front().kind == ThingKind::panel) return answer_panel_feed(from, things.front());
  if (kind == QuestionKind::off) return answer_off(from, things);
  if (kind == QuestionKind::carries || kind == QuestionKind::circuit || kind == QuestionKind::feeds)
    return answer_carries(from, kind == QuestionKind::circuit ? kind : QuestionKind::carries, things);
  std::vector<std::size_t> points;
  for (const ThingRef& thing : things)
    for (const std::size_t p : what_does_it_carry(from.record, handle_of_thing(thing)).points) points.push_back(p);
  if (kind == QuestionKind::traced && !points.empty()) return answered(from, kind, "who found what is on", things, traced_lines(from, points));
  if (kind == QuestionKind::backup && !points.empty())
    return answered(from, kind, "what carries in an outage what is on", things, backup_lines(from, points));
  return ask_back(from, kind, names_of(from.names, things) + " is a handle, and this is asked of a thing. Which thing is meant?", {});
}

}  // namespace

AskAnswer ask_back(const AskFrom& from, QuestionKind kind, const std::string& text, std::vector<ThingRef> candidates) {
  constexpr std::size_t kMostCandidates = 8;
  AskAnswer answer;
  answer.kind = kind, answer.asks_back = true, answer.candidates = std::move(candidates), answer.yes = false;
  std::vector<std::string> items;
  for (std::size_t i = 0; i < std::min(answer.candidates.size(), kMostCandidates); ++i) items.push_back(from.names.name_of(answer.candidates[i]));
  if (answer.candidates.size() > items.size()) items.push_back("and " + std::to_string(answer.candidates.size() - items.size()) + " more");
  say(answer.lines, LineKind::answer, text, items);
  return answer;
}

AskAnswer answered(const AskFrom& from, QuestionKind kind, const std::string& asked, std::vector<ThingRef> things, Lines lines) {
  AskAnswer answer;
  answer.kind = kind, answer.things = std::move(things), answer.lines = std::move(lines);
  answer.understood = asked + (answer.things.empty() || asked.empty() ? "" : " ") + names_of(from.names, answer.things);
  return answer;
}

AskAnswer answer_about(const AskFrom& from, QuestionKind kind, const std::vector<ThingRef>& things, const Question& question) {
  AskAnswer answer;
  const bool handles = !things.empty() && std::ranges::all_of(things, [](const ThingRef& thing) { return bool(handle_of_thing(thing)); });
  if (kind == QuestionKind::place) {
    Lines lines;
    for (const ThingRef& thing : things) add(lines, place_lines(from, thing));
    answer = answered(from, kind, "where is", things, std::move(lines));
  } else if (things.empty()) {
    answer = answered(from, QuestionKind::backup, "what is carried in an outage", {}, backup_lines(from, {}));
  } else {
    answer = handles ? answer_handles(from, kind, things) : answer_points(from, kind, things, question);
  }
  if (!answer.asks_back) add_notes(from, answer);
  return answer;
}

}  // namespace ohmstead::ask_detail
