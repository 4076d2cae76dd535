#include "tests/trace/trace_run.h"

#include <chrono>
#include <cmath>
#include <regex>

#include "house/error.h"
#include "tests/trace/world_house.h"

namespace ohmstead::test {

namespace {

constexpr int kStepsBetweenMoments = 8;

bool is_right(const Conclusions& all, const WorldPoint& point, const Candidate& said) {
  switch (said.kind) {
    case CandidateKind::elsewhere: return point.breaker < 0;
    case CandidateKind::dead_anyway: return point.at_start != AtStart::live;
    case CandidateKind::one: break;
    case CandidateKind::each:
    case CandidateKind::together: return false;  // no invented house has this
  }
  const auto& breakers = all.ways[said.first].breakers;
  return point.at_start != AtStart::dead_for_good && point.breaker >= 0 && breakers.size() == 1 &&
         breakers[0] == static_cast<std::size_t>(point.breaker);
}

std::size_t bin_of(const UnitConclusion& unit) {
  if (unit.feed.standing == Standing::proved) return 0;
  const double belief = unit.candidates[0].belief;
  return belief >= 0.99 ? 1 : belief >= 0.9 ? 2 : belief >= 0.7 ? 3 : belief >= 0.5 ? 4 : 5;
}

Calibration calibration_of(const World& world, const Conclusions& all) {
  Calibration counted;
  for (std::size_t p = 0; p < world.points.size(); ++p) {
    const UnitConclusion& unit = all.units[all.readings.unit_of_point[p]];
    if (unit.candidates.empty()) continue;
    const std::size_t bin = bin_of(unit);
    ++counted.points[bin];
    counted.right[bin] += is_right(all, world.points[p], unit.candidates[0]) ? 1 : 0;
  }
  return counted;
}

void judge(const World& world, const Conclusions& all, Tally& tally) {
  for (std::size_t p = 0; p < world.points.size(); ++p) {
    const UnitConclusion& unit = all.units[all.readings.unit_of_point[p]];
    const WorldPoint& point = world.points[p];
    const bool dead_for_good = point.at_start == AtStart::dead_for_good;
    if (unit.feed.standing == Standing::proved) tally.wrong += is_right(all, point, unit.candidates[0]) ? 0 : 1;
    else if (!(dead_for_good && unit.dead_anyway) && !(point.breaker < 0 && unit.unexplained)) ++tally.unresolved;
  }
}

}  // namespace

void Calibration::add(const Calibration& other) {
  for (std::size_t i = 0; i < points.size(); ++i) points[i] += other.points[i], right[i] += other.right[i];
}

const Moment& SessionRun::at(double share) const {
  for (const Moment& moment : moments)
    if (moment.seconds >= share * tally.seconds) return moment;
  return moments.back();
}

SessionRun run_session(const World& world, double error, const Manner& manner, int most_steps) {
  const HouseMaker made = house_of(world);
  House house = made.house;
  keep_manner(house, manner);
  TraceSession session(house);
  Walker walker(made.truth, error, world.seed);
  CostMeter meter(world, manner, made.house);
  SessionRun run;
  Clock clock;
  int told_seconds = 0;
  for (; run.steps < most_steps && session.step().kind != StepKind::done; ++run.steps) {
    meter.take(session.step());
    Answer answer = walker.answer(session);
    const int now = static_cast<int>(std::lround(meter.tally.seconds));
    answer.at = clock.after(now - told_seconds);
    told_seconds = now;
    const auto start = std::chrono::steady_clock::now();
    session.answer(answer);
    const std::chrono::duration<double, std::milli> took = std::chrono::steady_clock::now() - start;
    run.step_ms += took.count();
    meter.tally.slowest_step_ms = std::max(meter.tally.slowest_step_ms, took.count());
    if (run.steps % kStepsBetweenMoments == 0)
      run.moments.push_back({meter.tally.seconds, session.progress().minutes_left, calibration_of(world, session.conclusions())});
  }
  run.moments.push_back({meter.tally.seconds, session.progress().minutes_left, calibration_of(world, session.conclusions())});
  run.tally = meter.tally;
  judge(world, session.conclusions(), run.tally);
  return run;
}

Manner parse_manner(const std::string& text) {
  std::smatch parts;
  if (!std::regex_match(text, parts, std::regex(R"((any|[1-9]\d?)(\+helper)?(?:\+([1-9]\d?)lamps?)?)")))
    throw Error(ErrorKind::invalid_input, "'" + text + "' is no way of working: write 1, 4 or any (breakers off at once), perhaps with +helper or +6lamps.");
  return {parts[1] == "any" ? 0 : std::stoi(parts[1]), parts[2].matched, parts[3].matched ? std::stoi(parts[3]) : 0};
}

}  // namespace ohmstead::test
