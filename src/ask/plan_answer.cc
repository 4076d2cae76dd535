#include "ask/plan_answer.h"

#include <algorithm>

#include "house/error.h"
#include "house/index.h"
#include "house/numbering.h"

namespace ohmstead {

namespace {

bool is_wired(const House& house, const PlanAnswer& answer) {
  return std::ranges::all_of(answer.plan.placed, [&](const Placed& placed) {
    const auto& poles = answer.backup.circuits[static_cast<std::size_t>(placed.circuit)].poles;
    for (std::size_t k = 0; k < poles.size(); ++k) {
      if (placed.position[k] < 0) continue;
      const Position& position = row(house, answer.backup.positions[static_cast<std::size_t>(placed.position[k])]);
      if (position.breaker != poles[k].breaker || position.pole != poles[k].pole) return false;
    }
    return true;
  });
}

}  // namespace

PlanAnswer best_plan_for(const Record& record, std::size_t source) {
  PlanAnswer answer{.backup = backup_case(record.house, record.feeds, source)};
  answer.plan = best_plan(answer.backup.problem);
  answer.wired = is_wired(record.house, answer);
  return answer;
}

PlanAnswer kept_plan_for(const Record& record, std::size_t source) {
  PlanAnswer answer{.backup = backup_case(record.house, record.feeds, source), .kept = true};
  answer.plan = kept_plan(record.house, answer.backup);
  if (answer.plan.placed.empty()) throw Error(ErrorKind::not_found, "No plan is kept yet; `ohmstead plan` shows the best one, and `ohmstead plan --keep` keeps it.");
  const Plan best = best_plan(answer.backup.problem);
  if (best.end != PlanEnd::impossible && better(best.score, answer.plan.score)) answer.best = best.score;
  answer.wired = is_wired(record.house, answer);
  return answer;
}

Id<Breaker> breaker_of(const Record& record, const Names& names, const std::string& words) {
  const ThingRef thing = names.one(words, {ThingKind::load, ThingKind::point, ThingKind::breaker});
  if (thing.kind == ThingKind::breaker) return Id<Breaker>{thing.id};
  const Id<Point> point = thing.kind == ThingKind::load ? row(record.house, Id<Load>{thing.id}).point : Id<Point>{thing.id};
  const auto at = std::ranges::find(record.house.points, point, &Point::id) - record.house.points.begin();
  const Feed& feed = record.feeds.of_point[static_cast<std::size_t>(at)];
  if (feed.standing < Standing::likely || feed.taps.empty())
    throw Error(ErrorKind::invalid_input, "It is not known which breaker feeds " + names.name_of(thing) + "; trace it first: `ohmstead trace`.");
  return feed.taps.front().breaker;
}

}  // namespace ohmstead
