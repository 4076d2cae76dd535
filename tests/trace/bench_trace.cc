// Runs tracing sessions, and the ways without a program, on invented houses with their truth, and
// prints what each cost and how far it could be trusted. tests/bench/trace-table is the usual call.

#include <algorithm>
#include <cstdio>
#include <exception>
#include <fstream>
#include <sstream>

#include "house/error.h"
#include "tests/trace/trace_table.h"
#include "tests/trace/world_maker.h"

namespace ohmstead::test {
namespace {

constexpr const char* kUsage = R"(usage: bench_trace [options]
Without options: ordinary houses 1000 to 1029, all ways of working, four rates of wrong readings;
then ten houses of each other kind at 1 %; then how far belief and minutes left could be trusted.
  --houses FILE      houses of a file (tests/trace/world.h) and no other kinds
  --half even|odd    every second house of the file: one half to choose numbers by, the other to report
  --count N          so many houses (of other kinds: a third of it)
  --first N          seed of the first house (1000)
  --errors 0,1,3,6   per cent of readings that are wrong
  --ways 1,4,any     breakers off at once, perhaps with +helper or +6lamps
  --kinds a,b        kinds of houses; 'ordinary' is the first table
  --jobs N           houses at a time (2)
  --write FILE       writes the houses of the first table instead of running on them
)";

struct Options {
  std::string houses, half, write;
  int count = 30, first = 1000;
  bool count_given = false;
  std::vector<std::string> kinds;
  TableOptions table;
};

std::vector<std::string> parts_of(const std::string& text) {
  std::vector<std::string> parts;
  std::istringstream in(text);
  for (std::string part; std::getline(in, part, ',');) parts.push_back(part);
  return parts;
}

double number_in(const std::string& text, const std::string& option, double low, double high) {
  std::size_t used = 0;
  double value = low - 1;
  try {
    value = std::stod(text, &used);
  } catch (const std::exception&) {
    used = 0;  // no number at all; said below
  }
  if (used != text.size() || !(value >= low && value <= high))
    throw Error(ErrorKind::invalid_input, "'" + text + "' is no number that " + option + " can take.");
  return value;
}

WorldKind kind_named(const std::string& word) {
  if (const auto kind = parse_enum<WorldKind>(word)) return *kind;
  std::string all;
  for (const auto known : words_of(WorldKind{})) all += (all.empty() ? "" : ", ") + std::string(known);
  throw Error(ErrorKind::invalid_input, "'" + word + "' is no kind of house; there are " + all + ".");
}

void take(Options& options, const std::string& name, const std::string& value) {
  const auto whole = [&](double low, double high) { return static_cast<int>(number_in(value, name, low, high)); };
  if (name == "--houses") options.houses = value;
  else if (name == "--half" && (value == "even" || value == "odd")) options.half = value;
  else if (name == "--count") options.count = whole(1, 100'000), options.count_given = true;
  else if (name == "--first") options.first = whole(0, 1e9);
  else if (name == "--jobs") options.table.jobs = whole(1, 64);
  else if (name == "--write") options.write = value;
  else if (name == "--kinds") options.kinds = parts_of(value);
  else if (name == "--errors") {
    options.table.errors.clear();
    for (const std::string& part : parts_of(value)) options.table.errors.push_back(number_in(part, name, 0, 50) / 100);
  } else if (name == "--ways") {
    options.table.ways.clear();
    for (const std::string& part : parts_of(value)) options.table.ways.push_back({part, parse_manner(part)});
  } else throw Error(ErrorKind::invalid_input, "'" + name + " " + value + "' is no option.\n" + kUsage);
}

std::vector<World> houses_of_file(const Options& options) {
  std::ifstream in(options.houses, std::ios::binary);
  std::ostringstream text;
  text << in.rdbuf();
  if (!in) throw Error(ErrorKind::invalid_input, "'" + options.houses + "' cannot be read.");
  const auto all = read_worlds(text.str(), options.houses);
  std::vector<World> some;
  for (std::size_t i = options.half == "odd" ? 1 : 0; i < all.size(); i += options.half.empty() ? 1 : 2)
    if (!options.count_given || static_cast<int>(some.size()) < options.count) some.push_back(all[i]);
  return some;
}

std::vector<World> made_houses(WorldKind kind, int first, int count) {
  std::vector<World> worlds;
  for (int i = 0; i < count; ++i) worlds.push_back(make_world(kind, static_cast<unsigned>(first + i)));
  return worlds;
}

bool wanted(const Options& options, std::string_view kind) {
  return options.kinds.empty() || std::ranges::find(options.kinds, kind) != options.kinds.end();
}

void run(const Options& options) {
  const bool ordinary = options.houses.empty() && wanted(options, "ordinary");
  const std::string half = options.half.empty() ? "" : ", every second one (" + options.half + ")";
  const auto worlds = options.houses.empty() ? made_houses(WorldKind::ordinary, options.first, options.count) : houses_of_file(options);
  if (!options.write.empty()) {
    if (!(std::ofstream(options.write, std::ios::binary) << write_worlds(worlds)))
      throw Error(ErrorKind::output, "'" + options.write + "' cannot be written.");
    return;
  }
  std::printf("Minutes of work with the nuisance of breakers off; ratio: to the careful way's on the same houses.\n");
  if (ordinary) print_table(worlds, "ordinary houses, invented, seeds from " + std::to_string(options.first), options.table);
  if (!options.houses.empty()) return print_table(worlds, "houses of " + options.houses + half, options.table);
  TableOptions others = options.table;
  if (options.kinds.empty()) others.errors = {0.01};
  for (const std::string_view word : words_of(WorldKind{})) {
    if (word == "ordinary" || word == "big" || !wanted(options, word)) continue;
    const int count = options.kinds.empty() ? (options.count + 2) / 3 : options.count;
    print_table(made_houses(kind_named(std::string(word)), options.first, count), "houses of the kind " + std::string(word), others);
  }
  if (wanted(options, "big")) print_speed(make_world(WorldKind::big, static_cast<unsigned>(options.first)));
}

}  // namespace
}  // namespace ohmstead::test

int main(int argc, char** argv) {
  using namespace ohmstead::test;  // NOLINT: the whole program is of it
  try {
    Options options;
    if (argc == 2 && std::string(argv[1]) == "--help") return std::fputs(kUsage, stdout) < 0 ? 1 : 0;
    for (int i = 1; i < argc; i += 2) {
      if (i + 1 == argc) throw ohmstead::Error(ohmstead::ErrorKind::invalid_input, kUsage);
      take(options, argv[i], argv[i + 1]);
    }
    for (const std::string& kind : options.kinds) (void)kind_named(kind);
    run(options);
    return 0;
  } catch (const std::exception& e) {
    std::fprintf(stderr, "%s\n", e.what());
    return 2;
  }
}
