// How well belief knows the truth, on sessions that were recorded once: so a change of the belief is judged in seconds, on
// the same looks, before whole sessions are run with it (bench_trace). In bits, fewer are better:
//   bench_belief record FILE HOUSES     HOUSES: a file of houses (its even half is taken); and invented ones of five kinds
//   bench_belief judge FILE HOUSES      what is missing of what really feeds each point, at moments of the sessions
//   bench_belief looks FILE HOUSES      by how much each look surprises, which counts what points tell of each other, too

#include <array>
#include <cmath>
#include <cstdio>
#include <fstream>
#include <map>
#include <sstream>

#include "tests/trace/trace_run.h"
#include "tests/trace/world_house.h"
#include "tests/trace/world_maker.h"
#include "trace/conclude.h"

namespace ohmstead::test {
namespace {

constexpr double kError = 0.01;
constexpr std::size_t kOfFile = 30, kEveryHouse = 6;  ///< the first worlds; of those that 'looks' judges, for it takes long
constexpr std::array kMoments{0.0, 0.04, 0.08, 0.14, 0.2, 0.3, 0.4, 0.55, 0.7, 0.85};

struct Recorded {
  std::size_t world = 0;
  std::vector<std::vector<std::size_t>> rounds;  ///< breakers that were open
  struct Look {
    std::size_t round = 0, point = 0;
    bool dead = false;
  };
  std::vector<Look> looks;
};

std::vector<World> worlds_of(const char* file) {
  std::ifstream in(file, std::ios::binary);
  std::ostringstream text;
  text << in.rdbuf();
  std::vector<World> all = read_worlds(text.str(), file), some;
  for (std::size_t i = 0; i < all.size(); i += 2) some.push_back(std::move(all[i]));
  for (unsigned seed = 7000; seed < 7015; ++seed) some.push_back(make_world(WorldKind::ordinary, seed));
  for (unsigned seed = 7000; seed < 7004; ++seed)
    for (const WorldKind kind : {WorldKind::labels_wrong, WorldKind::no_locality, WorldKind::few_circuits, WorldKind::single_phase_230})
      some.push_back(make_world(kind, seed));
  return some;
}

/// A session as it went, by places in its lists.
Recorded record(std::size_t at, const World& world, const Manner& manner) {
  const HouseMaker made = house_of(world);
  House house = made.house;
  keep_manner(house, manner);
  TraceSession session(house);
  Walker walker(made.truth, kError, world.seed + 17);
  run_to_the_end(session, walker);
  Recorded recorded{at, {}, {}};
  const House& done = session.house();
  const Index<Round> round_at(done.rounds);
  const Index<Point> point_at(done.points);
  const Index<Breaker> breaker_at(done.breakers);
  recorded.rounds.resize(done.rounds.size());
  for (const Opened& opened : done.opened)
    recorded.rounds[static_cast<std::size_t>(round_at.at(opened.round))].push_back(static_cast<std::size_t>(breaker_at.at(Id<Breaker>{opened.handle.id})));
  for (const Observation& seen : done.observations)
    recorded.looks.push_back({static_cast<std::size_t>(round_at.at(seen.round)), static_cast<std::size_t>(point_at.at(seen.point)), seen.seen == Seen::dead});
  return recorded;
}

void write(std::ostream& out, const Recorded& recorded) {
  out << "world " << recorded.world << ' ' << recorded.rounds.size() << ' ' << recorded.looks.size() << '\n';
  for (const auto& round : recorded.rounds) {
    out << round.size();
    for (const std::size_t breaker : round) out << ' ' << breaker;
    out << '\n';
  }
  for (const auto& look : recorded.looks) out << look.round << ' ' << look.point << ' ' << look.dead << '\n';
}

bool read(std::istream& in, Recorded& recorded) {
  std::string word;
  std::size_t rounds = 0, looks = 0;
  if (!(in >> word >> recorded.world >> rounds >> looks)) return false;
  recorded.rounds.assign(rounds, {}), recorded.looks.assign(looks, {});
  for (auto& round : recorded.rounds) {
    std::size_t n = 0;
    in >> n;
    round.resize(n);
    for (std::size_t& breaker : round) in >> breaker;
  }
  for (auto& look : recorded.looks) in >> look.round >> look.point >> look.dead;
  return true;
}

House house_at(House house, const Recorded& recorded, std::size_t looks) {
  Clock clock;
  std::vector<Id<Round>> rounds;
  for (const auto& round : recorded.rounds) {
    rounds.push_back(Id<Round>::fresh());
    house.rounds.push_back({rounds.back(), RoundKind::trace, clock.after(0), "", true});
    for (const std::size_t breaker : round) house.opened.push_back({Id<Opened>::fresh(), rounds.back(), HouseMaker::off(house.breakers[breaker].id)});
  }
  for (std::size_t i = 0; i < looks; ++i) {
    const auto& look = recorded.looks[i];
    house.observations.push_back({Id<Observation>::fresh(), rounds[look.round], house.points[look.point].id, look.dead ? Seen::dead : Seen::live, Method::tester, clock.after(10)});
  }
  return house;
}

struct Score {
  double bits = 0, entropy = 0, points = 0, high = 0, high_right = 0;
  int houses = 0;
};

void judge(const World& world, const Conclusions& all, Score& score) {
  ++score.houses;
  for (std::size_t p = 0; p < world.points.size(); ++p) {
    const WorldPoint& point = world.points[p];
    if (point.at_start != AtStart::live) continue;
    double truth = 1e-9;
    for (const Candidate& said : all.units[all.readings.unit_of_point[p]].candidates) {
      const bool right = point.breaker < 0 ? said.kind == CandidateKind::elsewhere : said.kind == CandidateKind::one && all.ways[said.first].breakers[0] == static_cast<std::size_t>(point.breaker);
      if (right) truth += said.belief;
      if (said.belief > 0) score.entropy -= said.belief * std::log2(said.belief);
      if (said.belief >= 0.9) score.high += 1, score.high_right += right ? 1 : 0;
    }
    score.bits -= std::log2(truth), score.points += 1;
  }
}

/// Bits by which the looks of a session surprise, one after another.
double surprise(const World& world, const Recorded& recorded, int& count) {
  const House house = house_of(world).house;
  double bits = 0;
  for (std::size_t i = 0; i < recorded.looks.size(); ++i) {
    const auto& look = recorded.looks[i];
    if (recorded.rounds[look.round].empty() || world.points[look.point].at_start != AtStart::live) continue;
    const Conclusions all = conclude_units(house_at(house, recorded, i));
    double dead = 0;
    for (const Candidate& said : all.units[all.readings.unit_of_point[look.point]].candidates) {
      const bool open = said.kind == CandidateKind::dead_anyway || (said.kind == CandidateKind::one && std::ranges::find(recorded.rounds[look.round], all.ways[said.first].breakers[0]) != recorded.rounds[look.round].end());
      if (open) dead += said.belief;
    }
    dead = dead * (1 - kError) + (1 - dead) * kError;
    bits -= std::log2(look.dead ? dead : 1 - dead), ++count;
  }
  return bits;
}

void print_scores(const std::map<std::string, std::array<Score, kMoments.size()>>& scores) {
  std::printf("Bits missing of the truth, a house, after so many per cent of the looks; as belief itself expects; share right of what is believed by 0.9\n%-24s", "");
  for (const double moment : kMoments) std::printf(" %6.0f", 100 * moment);
  for (const auto& [name, all] : scores) {
    std::printf("\n%-24s", name.c_str());
    double sum = 0;
    for (const Score& score : all) std::printf(" %6.1f", score.bits / score.houses), sum += score.bits / score.houses;
    std::printf("  mean %6.1f\n%-24s", sum / kMoments.size(), "  expected");
    for (const Score& score : all) std::printf(" %6.1f", score.entropy / score.houses);
    std::printf("\n%-24s", "  0.9 and more");
    for (const Score& score : all) std::printf(" %6.4f", score.high_right / std::max(1.0, score.high));
  }
  std::printf("\n");
}

std::string name_of(const World& world, std::size_t at, const Recorded& recorded) {
  const bool several = std::ranges::any_of(recorded.rounds, [](const auto& round) { return round.size() > 1; });
  return (at < kOfFile ? "file" : std::string(text_of(world.kind))) + (several ? ", several off" : ", one off");
}

void judge_moments(const std::vector<World>& worlds, std::istream& in) {
  std::map<std::string, std::array<Score, kMoments.size()>> scores;
  for (Recorded recorded; read(in, recorded);) {
    const World& world = worlds[recorded.world];
    const House house = house_of(world).house;
    auto& score = scores[name_of(world, recorded.world, recorded)];
    for (std::size_t m = 0; m < kMoments.size(); ++m)
      judge(world, conclude_units(house_at(house, recorded, static_cast<std::size_t>(kMoments[m] * static_cast<double>(recorded.looks.size())))), score[m]);
  }
  print_scores(scores);
}

void judge_looks(const std::vector<World>& worlds, std::istream& in) {
  struct Sum {
    double bits = 0;
    int houses = 0, looks = 0;
  };
  std::map<std::string, Sum> sums;
  for (Recorded recorded; read(in, recorded);) {
    if (recorded.world % kEveryHouse != 0) continue;
    Sum& sum = sums[name_of(worlds[recorded.world], recorded.world, recorded)];
    sum.bits += surprise(worlds[recorded.world], recorded, sum.looks), ++sum.houses;
  }
  std::printf("Bits by which the looks of a session surprise, a house; looks\n");
  for (const auto& [name, sum] : sums) std::printf("%-32s %6.1f %6d  (%d houses)\n", name.c_str(), sum.bits / sum.houses, sum.looks / sum.houses, sum.houses);
}

int run(const std::string& what, const char* file, const char* houses) {
  const std::vector<World> worlds = worlds_of(houses);
  if (what == "record") {
    std::ofstream out(file);
    for (std::size_t w = 0; w < worlds.size(); ++w)
      for (const Manner& manner : {Manner{1}, Manner{4}}) write(out, record(w, worlds[w], manner));
    return out.good() ? 0 : 2;
  }
  std::ifstream in(file);
  if (what == "looks") judge_looks(worlds, in);
  else judge_moments(worlds, in);
  return 0;
}

}  // namespace
}  // namespace ohmstead::test

int main(int argc, char** argv) {
  const std::string what = argc == 4 ? argv[1] : "";
  if (what != "record" && what != "judge" && what != "looks") return std::fprintf(stderr, "usage: bench_belief record|judge|looks FILE HOUSES\n"), 2;
  try {
    return ohmstead::test::run(what, argv[2], argv[3]);
  } catch (const std::exception& e) {
    return std::fprintf(stderr, "%s\n", e.what()), 2;
  }
}
