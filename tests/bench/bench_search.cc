// `ohmstead find` as a whole process, beside the sqlite3 shell asking the same index the same thing, on a file with 50,000 notes and
// 50,000 points; alternating, in one run. Medians and their ratio. And what keeping the index costs a change.
//   bench_search OHMSTEAD FOLDER [runs]

#include <algorithm>
#include <chrono>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <random>
#include <string>
#include <vector>

#include "db/house_file.h"
#include "process_run.h"

namespace {

using namespace ohmstead;
using Clock = std::chrono::steady_clock;

double ms_since(Clock::time_point start) { return std::chrono::duration<double, std::milli>(Clock::now() - start).count(); }

/// Notes of eight words out of 500, on points of 500 rooms.
House large_house() {
  constexpr int kRooms = 500, kEach = 50'000, kWords = 500;
  House house;
  std::mt19937 random(5);
  house.dwelling = {Id<Dwelling>::fresh(), "Large"};
  house.floors = {{Id<Floor>::fresh(), "Ground", "", 0}};
  for (int r = 0; r < kRooms; ++r) house.rooms.push_back({Id<Room>::fresh(), house.floors[0].id, "Room " + std::to_string(r)});
  const auto word = [&] { return "word" + std::to_string(random() % kWords) + "x"; };
  for (int p = 0; p < kEach; ++p) {
    Point point;
    point.id = Id<Point>::fresh(), point.room = house.rooms[static_cast<std::size_t>(p % kRooms)].id, point.name = "receptacle " + std::to_string(p),
    point.place = "by " + word();
    house.points.push_back(point);
  }
  for (int n = 0; n < kEach; ++n) {
    Note note{.id = Id<Note>::fresh(), .about = {ThingKind::point, house.points[static_cast<std::size_t>(n)].id.value}};
    for (int w = 0; w < 8; ++w) note.text += (w == 0 ? "" : " ") + word();
    house.notes.push_back(note);
  }
  return house;
}

}  // namespace

int main(int argc, char** argv) {
  if (argc < 3) {
    std::fputs("usage: bench_search OHMSTEAD FOLDER [runs]\n", stderr);
    return 2;
  }
  const int runs = argc > 3 ? std::atoi(argv[3]) : 100;
  const std::string path = std::string(argv[2]) + "/large.house";
  std::filesystem::remove(path);
  const auto start = Clock::now();
  HouseFile::create(path, large_house());
  std::printf("made: %.0f ms, %ju bytes\n", ms_since(start), std::filesystem::file_size(path));
  for (const std::string asked : {"word7x", "word12x word13x", "receptacle", "wo"}) {
    std::string match;
    for (std::size_t at = 0; at < asked.size();) {
      const std::size_t end = std::min(asked.find(' ', at), asked.size());
      match += (match.empty() ? "\"" : " AND \"") + asked.substr(at, end - at) + "\"*";
      at = end + 1;
    }
    std::vector<ProcessRun> shell, ours;
    for (int i = 0; i < runs; ++i) {
      shell.push_back(
          run_process({"sqlite3", "-readonly", path, "SELECT name, body FROM search WHERE search MATCH '" + match + "' ORDER BY rank LIMIT 20"}));
      ours.push_back(run_process({argv[1], "--house", path, "find", asked}));
    }
    for (const auto& [name, which] : {std::pair{"by the clock", &ProcessRun::wall_ms}, std::pair{"of processor", &ProcessRun::processor_ms}}) {
      const double bare = median(shell, which), whole = median(ours, which);
      std::printf("find '%s', %s: sqlite3 shell %.2f ms, ohmstead %.2f ms, ratio %.2f (to reach: below 3)\n", asked.c_str(), name, bare, whole,
                  whole / bare);
    }
    if (const long bad = failed(shell) + failed(ours); bad > 0) return std::fprintf(stderr, "%ld runs failed\n", bad), 1;
  }
  HouseFile file = HouseFile::open(path, Access::change);
  for (const bool indexed : {false, true}) {
    std::vector<double> times;
    for (int i = 0; i < 9; ++i) {
      const auto begin = Clock::now();
      file.change("changed", [&](House& house) { (indexed ? house.notes[9].text : house.dwelling.name) = "changed " + std::to_string(i); });
      times.push_back(ms_since(begin));
    }
    std::ranges::sort(times);
    std::printf("a change of %s: %.0f ms\n", indexed ? "a note" : "nothing that is indexed", times[times.size() / 2]);
  }
  return 0;
}
