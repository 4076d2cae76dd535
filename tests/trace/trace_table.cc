#include "tests/trace/trace_table.h"

#include <algorithm>
#include <atomic>
#include <cmath>
#include <cstdio>
#include <functional>
#include <optional>
#include <thread>

#include "tests/trace/by_hand.h"

namespace ohmstead::test {

namespace {

/// Runs of one way at one rate of wrong readings, one for each house.
struct Series {
  std::string name;
  double error = 0;
  std::vector<SessionRun> runs;
  bool helper = false;
  [[nodiscard]] Tally sum() const {
    Tally tally;
    for (const SessionRun& run : runs) tally.add(run.tally);
    return tally;
  }
};

/// Each house by itself, some at a time; the results keep the order of the houses.
std::vector<SessionRun> on_each(const std::vector<World>& worlds, int jobs, const std::function<SessionRun(const World&)>& run) {
  std::vector<SessionRun> runs(worlds.size());
  std::atomic<std::size_t> next = 0;
  std::vector<std::jthread> threads;
  for (int j = 0; j < jobs; ++j)
    threads.emplace_back([&] {
      for (std::size_t i = next++; i < worlds.size(); i = next++) runs[i] = run(worlds[i]);
    });
  threads.clear();  // waits for all
  return runs;
}

void print_head() {
  std::printf("errors  way               minutes  ratio  panel visits  breakers off  looks   wrong  unresolved  broken rules  slowest ms\n");
}

void print_row(const Series& series, double careful_seconds) {
  const Tally sum = series.sum();
  const auto n = static_cast<double>(series.runs.size());
  std::printf("%4.1f %%  %-16s  %7.1f  %5.3f", series.error * 100, series.name.c_str(), sum.seconds / 60 / n, sum.seconds / careful_seconds);
  if (series.helper) std::printf("  %12s", "-");
  else std::printf("  %12.1f", sum.panel_visits / n);
  std::printf("  %12.1f  %5.0f  %6.2f  %10.2f  %12.2f", sum.opened / n, sum.looks / n, sum.wrong / n, sum.unresolved / n, sum.broken_rules / n);
  if (sum.slowest_step_ms > 0) std::printf("  %10.1f", sum.slowest_step_ms);
  std::printf("\n");
  std::fflush(stdout);
}

void print_belief_row(const Series& series, const char* when, std::initializer_list<double> shares) {
  Calibration all;
  for (const SessionRun& run : series.runs)
    for (const double share : shares) all.add(share >= 1 ? run.moments.back().belief : run.at(share).belief);
  std::printf("%4.1f %%  %-10s  %-14s", series.error * 100, series.name.c_str(), when);
  for (std::size_t bin = 0; bin < kBeliefBins.size(); ++bin) {
    if (all.points[bin] == 0) std::printf("  %14s", "-");
    else std::printf("  %6.4f %7d", static_cast<double>(all.right[bin]) / all.points[bin], all.points[bin]);
  }
  std::printf("\n");
}

void print_belief(const std::vector<Series>& sessions) {
  std::printf("\nHow often the most believed explanation of a point was right: share, and of how many points\n");
  std::printf("errors  way         when          ");
  for (const char* bin : kBeliefBins) std::printf("  %14s", bin);
  std::printf("\n");
  for (const Series& series : sessions) {
    print_belief_row(series, "25, 50, 75 %", {0.25, 0.5, 0.75});
    print_belief_row(series, "at the end", {1});
  }
}

double percentile(std::vector<double> values, double share) {
  std::ranges::sort(values);
  return values[static_cast<std::size_t>(std::lround(share * static_cast<double>(values.size() - 1)))];
}

void print_minutes_left(const std::vector<Series>& sessions) {
  std::printf("\nTime it still took, divided by the minutes left as shown: mean (10 and 90 of 100)\n");
  std::printf("errors  way         after 25 %% of the time    after 50 %%               after 75 %%\n");
  for (const Series& series : sessions) {
    std::printf("%4.1f %%  %-10s", series.error * 100, series.name.c_str());
    for (const double share : {0.25, 0.5, 0.75}) {
      std::vector<double> ratios;
      double sum = 0;
      for (const SessionRun& run : series.runs) {
        const Moment& moment = run.at(share);
        ratios.push_back((run.tally.seconds - moment.seconds) / 60 / std::max(moment.minutes_left, 1));
        sum += ratios.back();
      }
      std::printf("  %5.2f (%.2f to %.2f)     ", sum / static_cast<double>(ratios.size()), percentile(ratios, 0.1), percentile(ratios, 0.9));
    }
    std::printf("\n");
  }
}

}  // namespace

void print_table(const std::vector<World>& worlds, const std::string& title, const TableOptions& options) {
  std::printf("\n%zu %s\n", worlds.size(), title.c_str());
  if (worlds.empty()) return;
  print_head();
  std::vector<Series> sessions;
  for (const double error : options.errors) {
    const auto by_hand = [&](const char* name, const Manner& manner, auto way) {
      return Series{name, error, on_each(worlds, options.jobs, [&](const World& world) { return SessionRun{way(world, error, manner), {}}; }), manner.helper};
    };
    const Series careful = by_hand("careful", {}, careful_way);
    const double careful_seconds = careful.sum().seconds;
    print_row(by_hand("usual", {}, usual_way), careful_seconds);
    print_row(careful, careful_seconds);
    print_row(by_hand("careful+helper", {1, true}, careful_way), careful_seconds);
    for (const auto& [name, manner] : options.ways) {
      sessions.push_back({name, error, on_each(worlds, options.jobs, [&](const World& world) { return run_session(world, error, manner); }), manner.helper});
      print_row(sessions.back(), careful_seconds);
    }
  }
  if (sessions.empty()) return;
  print_belief(sessions);
  print_minutes_left(sessions);
}

void print_speed(const World& world) {
  constexpr int kSteps = 40;
  const SessionRun run = run_session(world, 0.01, {}, kSteps);
  std::printf("\n%zu breakers and %zu points: the first %d steps took %.0f ms each, the slowest %.0f ms\n", world.breakers.size(),
              world.points.size(), run.steps, run.step_ms / std::max(run.steps, 1), run.tally.slowest_step_ms);
}

}  // namespace ohmstead::test
