// How long tracing takes to answer: from an answer to the next step (conclude, read the board,
// plan), and opening a house with thousands of recorded looks. Invented houses; one reading in a
// hundred is wrong.
//   bench_trace_speed [STEPS]     steps timed at each place of a session in the big house (40)

#include <algorithm>
#include <chrono>
#include <cstdio>
#include <cstdlib>
#include <numeric>
#include <random>
#include <sstream>
#include <string>

#include "cli/trace_lines.h"
#include "tests/trace/trace_run.h"
#include "tests/trace/world_house.h"
#include "tests/trace/world_maker.h"

namespace ohmstead::test {
namespace {

constexpr double kError = 0.01;
constexpr std::size_t kRecorded = 5000;

class Stopwatch {
 public:
  [[nodiscard]] double ms() const {
    return std::chrono::duration<double, std::milli>(std::chrono::steady_clock::now() - start_).count();
  }

 private:
  std::chrono::steady_clock::time_point start_ = std::chrono::steady_clock::now();
};

struct Times {
  std::vector<double> ms;
  void print(const World& world, const std::string& manner, const char* place, double reach_ms) {
    if (ms.empty()) return;
    std::ranges::sort(ms);
    const double mean = std::accumulate(ms.begin(), ms.end(), 0.0) / static_cast<double>(ms.size());
    std::printf("%3zu x %4zu  %-12s  %-11s  %5zu  %7.1f  %7.1f  %7.1f  %8.0f\n", world.breakers.size(), world.points.size(),
                manner.c_str(), place, ms.size(), mean, ms[ms.size() * 99 / 100], ms.back(), reach_ms);
    std::fflush(stdout);
  }
};

/// A house of two panels with one more breaker, so that there are 42 breakers and 140 points.
World middling_world() {
  World world = make_world(WorldKind::two_panels, 4900);
  int slot = 1;
  for (const WorldBreaker& breaker : world.breakers)
    if (breaker.panel == 0) slot = std::max(slot, breaker.slot + breaker.poles);
  world.breakers.push_back({slot, 1, 15});
  return world;
}

/// A house with a record: rounds with `at_once` breakers off, each looking twice at what is on them
/// and once at some other points, until `enough` says so of the breakers tried and looks made.
template <class Enough>
HouseMaker recorded(const World& world, const Manner& manner, Enough enough) {
  HouseMaker made = house_of(world);
  keep_manner(made.house, manner);
  made.house.settings.push_back({Id<Setting>::fresh(), kCautionStart, "yes"});
  std::mt19937 random(1);
  const std::size_t at_once = manner.at_once == 0 ? 8 : static_cast<std::size_t>(manner.at_once);
  for (std::size_t tried = 0; !enough(tried, made.house.observations.size()); tried += at_once) {
    const Id<Round> round = Id<Round>::fresh();
    made.house.rounds.push_back({round, RoundKind::trace, made.clock.after(60), "", true});
    std::vector<int> open;
    for (std::size_t i = 0; i < at_once; ++i) open.push_back(static_cast<int>((tried + i) % world.breakers.size()));
    for (const int b : open)
      made.house.opened.push_back({Id<Opened>::fresh(), round, HouseMaker::off(made.house.breakers[static_cast<std::size_t>(b)].id)});
    for (std::size_t p = 0; p < world.points.size(); ++p) {
      const bool dead = std::ranges::any_of(open, [&](int b) { return goes_dead_with(world, world.points[p], b); });
      for (int look = dead ? 2 : random() % world.points.size() < 10 ? 1 : 0; look > 0; --look) {
        const bool seen_dead = dead != (std::uniform_real_distribution<>(0, 1)(random) < kError);
        made.house.observations.push_back({Id<Observation>::fresh(), round, made.house.points[p].id,
                                           seen_dead ? Seen::dead : Seen::live, Method::tester, made.clock.after(10)});
      }
    }
  }
  return made;
}

/// Times the steps of a session, for `most` of them or to its end.
std::vector<double> step_times(HouseMaker made, const World& world, int most) {
  TraceSession session(std::move(made.house));
  Walker walker(std::move(made.truth), kError, world.seed);
  std::vector<double> ms;
  for (int i = 0; i < most && session.step().kind != StepKind::done; ++i) {
    const Answer answer = walker.answer(session);
    const Stopwatch watch;
    session.answer(answer);
    ms.push_back(watch.ms());
  }
  return ms;
}

/// A whole session, in three parts.
void print_whole_session(const World& world, const std::string& manner) {
  const auto ms = step_times(recorded(world, parse_manner(manner), [](auto, auto) { return true; }), world, 20'000);
  constexpr const char* kPlaces[] = {"beginning", "middle", "end"};
  for (std::size_t third = 0; third < 3; ++third)
    Times{{ms.begin() + static_cast<long>(ms.size() * third / 3), ms.begin() + static_cast<long>(ms.size() * (third + 1) / 3)}}.print(world, manner, kPlaces[third], 50);
}

/// A session that starts from a record of some of the breakers.
void print_session_from(const World& world, const std::string& manner, const char* place, double share, int steps) {
  const auto breakers = static_cast<std::size_t>(share * static_cast<double>(world.breakers.size()));
  auto made = recorded(world, parse_manner(manner), [&](std::size_t tried, auto) { return tried >= breakers; });
  Times{step_times(std::move(made), world, steps)}.print(world, manner, place, 1000);
}

/// Opening a record: the house is there, the next step comes.
void print_opening(const World& world, const std::string& manner) {
  const auto made = recorded(world, parse_manner(manner), [](auto, std::size_t looks) { return looks >= kRecorded; });
  Times times;
  for (int i = 0; i < 5; ++i) {
    House house = made.house;
    const Stopwatch watch;
    const TraceSession session(std::move(house));
    times.ms.push_back(watch.ms());
  }
  times.print(world, manner, "opened", 1000);
}

/// A session answered line by line (docs/json-lines.md): every line is answered with the next step.
void print_lines(const World& world, const std::string& manner) {
  auto made = recorded(world, parse_manner(manner), [](auto, auto) { return true; });
  TraceSession first(made.house);
  Walker walker(made.truth, kError, world.seed);
  std::ostringstream lines;
  std::size_t answers = 0;
  for (; answers < kRecorded && first.step().kind != StepKind::done; ++answers) {
    const Answer answer = walker.answer(first);
    lines << R"({"do":"answer","answer":")" << text_of(answer.kind) << R"(","at":")" << answer.at << "\"}\n";
    first.answer(answer);
  }
  TraceSession again(made.house);
  std::istringstream in(lines.str());
  std::ostringstream out;
  TraceOptions options;
  options.now = [clock = made.clock]() mutable { return clock.after(0); };
  const Stopwatch watch;
  (void)run_trace_lines(again, in, out, [](const std::string&, const House&) {}, options);
  std::printf("%3zu x %4zu  %-12s  all %zu answers of a session line by line: %.0f ms, %.2f ms each; %zu at that rate: %.1f s\n",
              world.breakers.size(), world.points.size(), manner.c_str(), answers, watch.ms(), watch.ms() / static_cast<double>(answers),
              kRecorded, watch.ms() / static_cast<double>(answers) * kRecorded / 1000);
}

void run(int steps) {
  const World middling = middling_world(), big = make_world(WorldKind::big, 1000);
  std::printf("From one answer to the next step, in milliseconds\nbreakers x points; breakers off at once; place in the session\n");
  std::printf("house       at once       place        steps     mean      p99    worst  to reach\n");
  for (const char* manner : {"1", "4", "any"}) print_whole_session(middling, manner);
  for (const char* manner : {"1", "4", "any"}) {
    print_session_from(big, manner, "beginning", 0, steps);
    print_session_from(big, manner, "middle", 0.5, steps);
    print_session_from(big, manner, "end", 0.95, steps);
  }
  std::printf("\nA house with %zu recorded looks is opened and gives its next step\n", kRecorded);
  for (const char* manner : {"1", "any"})
    for (const World& world : {middling, big}) print_opening(world, manner);
  std::printf("\nReplaying answers one by one, the next step computed after each\n");
  for (const char* manner : {"1", "any"}) print_lines(middling, manner);
}

}  // namespace
}  // namespace ohmstead::test

int main(int argc, char** argv) {
  const int steps = argc > 1 ? std::atoi(argv[1]) : 40;
  if (steps < 1) {
    std::fputs("usage: bench_trace_speed [STEPS]\n", stderr);
    return 2;
  }
  ohmstead::test::run(steps);
  return 0;
}
