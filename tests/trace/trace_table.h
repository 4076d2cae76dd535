#pragma once
// The tables of bench_trace.

#include <string>
#include <vector>

#include "tests/trace/trace_run.h"

namespace ohmstead::test {

struct NamedManner {
  std::string name;
  Manner manner;
};

struct TableOptions {
  std::vector<double> errors = {0, 0.01, 0.03, 0.06};
  std::vector<NamedManner> ways = {{"1", {1}}, {"4", {4}}, {"any", {0}}, {"1+helper", {1, true}}, {"4+helper", {4, true}}, {"1+6lamps", {1, false, 6}}};
  int jobs = 2;  ///< houses at a time
};

/// For each rate of wrong readings and each way: what it cost on average over the houses, and the
/// ratio of its minutes to the careful way's; then how often belief was right, and how the minutes
/// left compare with what it still took.
void print_table(const std::vector<World>& worlds, const std::string& title, const TableOptions& options);

/// How long the first steps take in a house that is far larger than any.
void print_speed(const World& world);

}  // namespace ohmstead::test
