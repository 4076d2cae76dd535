// Plays a person who traces a house whose truth is known: drives `ohmstead trace --json-lines`
// through pipes, answers every step from the truth file, and says at the end what came out right.
//   replay OHMSTEAD HOUSE TRUTH.csv [error percent] [seed]

#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <cstdio>
#include <fstream>
#include <iostream>
#include <iterator>
#include <nlohmann/json.hpp>
#include <random>

#include "db/house_file.h"
#include "feed/graph.h"
#include "feed/liveness.h"
#include "house/error.h"
#include "house/index.h"
#include "sample-house/truth.h"
#include "trace/conclude.h"

namespace ohmstead {
namespace {

using Json = nlohmann::json;

/// The tracing program at the other end of two pipes.
class Tracer {
 public:
  Tracer(const char* program, const char* house) {
    int to[2], from[2];
    if (pipe(to) != 0 || pipe(from) != 0) throw Error(ErrorKind::output, "No pipe could be made.");
    child_ = fork();
    if (child_ == 0) {
      dup2(to[0], STDIN_FILENO), dup2(from[1], STDOUT_FILENO);
      for (const int end : {to[0], to[1], from[0], from[1]}) close(end);
      execl(program, program, "--house", house, "trace", "--json-lines", static_cast<char*>(nullptr));
      _exit(127);
    }
    close(to[0]), close(from[1]);
    out_ = fdopen(to[1], "w"), in_ = fdopen(from[0], "r");
  }
  ~Tracer() {
    std::fclose(out_), std::fclose(in_);
    waitpid(child_, nullptr, 0);
  }
  Tracer(const Tracer&) = delete;
  Tracer& operator=(const Tracer&) = delete;

  /// Next line, or null at the end.
  Json read() {
    char* line = nullptr;
    std::size_t size = 0;
    const ssize_t length = getline(&line, &size, in_);
    Json json = length > 0 ? Json::parse(line, line + length, nullptr, false) : Json{};
    std::free(line);
    return json;
  }
  void answer(const std::string& word) {
    std::fprintf(out_, "{\"do\":\"answer\",\"answer\":\"%s\"}\n", word.c_str());
    std::fflush(out_);
  }

 private:
  pid_t child_ = -1;
  FILE* out_ = nullptr;
  FILE* in_ = nullptr;
};

/// What a person would see in a house of known wiring.
class Eyes {
 public:
  Eyes(const House& house, const Truth& truth, int error_percent, unsigned seed)
      : house_(house), truth_(truth), graph_(build_graph(house, truth.feeds)), woken_(house.points.size(), false),
        error_percent_(error_percent), random_(seed) {}

  std::string look(const Json& step) {
    const auto point = place_of_point(step.at("point").at("id").get<std::string>());
    const bool asked_to_wake = step.at("kind") == "ask_dead";
    if (asked_to_wake && truth_.at_start[point] == AtStart::comes_alive) woken_[point] = true;
    State state = usual_state(graph_);
    for (const Json& handle : step.at("handles"))
      move_handle(graph_, state, graph_.handle_of(*parse_handle_ref(handle.at("ref").get<std::string>())), kOff);
    bool live = state_by_record(graph_, liveness(graph_, state), point) == PointState::working;
    if (truth_.at_start[point] == AtStart::dead_for_good || (truth_.at_start[point] == AtStart::comes_alive && !woken_[point]))
      live = false;
    if (std::uniform_int_distribution<>(0, 99)(random_) < error_percent_) live = !live, ++errors_;
    ++looks_;
    return live ? "live" : "dead";
  }
  [[nodiscard]] int looks() const { return looks_; }
  [[nodiscard]] int errors() const { return errors_; }

 private:
  [[nodiscard]] std::size_t place_of_point(const std::string& id) const {
    const auto at = std::ranges::find(house_.points, id, [](const Point& p) { return p.id.text(); });
    if (at == house_.points.end()) throw Error(ErrorKind::not_found, "The session asked for a point that is not in the house.");
    return static_cast<std::size_t>(at - house_.points.begin());
  }
  const House& house_;
  const Truth& truth_;
  Graph graph_;
  std::vector<bool> woken_;
  int error_percent_;
  std::mt19937 random_;
  int looks_ = 0, errors_ = 0;
};

/// Are they one breaker, or tied, so that switching cannot tell them apart?
bool one_handle(const House& house, Id<Breaker> a, Id<Breaker> b) {
  return a == b || (row(house, a).tie && row(house, a).tie == row(house, b).tie);
}

/// Compares what was concluded with the truth; returns the number of wrong feeds, and of those not
/// settled where no look was wrong.
int report(const House& house, const Truth& truth, bool truthful) {
  const Feeds feeds = conclude(house);
  int proved = 0, wrong = 0, open = 0, dead = 0;
  for (std::size_t p = 0; p < house.points.size(); ++p) {
    const Feed& feed = feeds.of_point[p];
    const Feed& real = truth.feeds.of_point[p];
    if (real.taps.empty()) {
      ++(feed.taps.empty() || feed.standing == Standing::open ? dead : wrong);
      continue;
    }
    const bool settled = feed.standing == Standing::proved || feed.standing == Standing::declared;
    if (!settled) ++open;
    else if (one_handle(house, feed.taps.front().breaker, real.taps.front().breaker)) ++proved;
    else {
      ++wrong;
      std::printf("  wrong: %s is %s\n", house.points[p].name.c_str(), std::string(text_of(feed.standing)).c_str());
    }
  }
  std::printf("%zu points: %d proved and right, %d wrong, %d not settled, %d rightly without an answer (dead for good)\n",
              house.points.size(), proved, wrong, open, dead);
  return wrong + (truthful ? open : 0);
}

int replay(int argc, char** argv) {
  const HouseFile before = HouseFile::open(argv[2], Access::read);
  const House house = before.load();
  std::ifstream file(argv[3]);
  const Truth truth = read_truth(house, std::string(std::istreambuf_iterator<char>(file), {}));
  Eyes eyes(house, truth, argc > 4 ? std::stoi(argv[4]) : 0, argc > 5 ? static_cast<unsigned>(std::stoi(argv[5])) : 1);
  int steps = 0, opened = 0;
  {
    Tracer tracer(argv[1], argv[2]);
    for (Json step = tracer.read(); step.is_object() && steps < 100'000; step = tracer.read(), ++steps) {
      const std::string kind = step.value("kind", "");
      if (kind == "done") break;
      if (kind == "open") ++opened;
      if (kind == "look" || kind == "ask_dead") tracer.answer(eyes.look(step));
      else if (kind == "caution" || kind == "open" || kind == "close") tracer.answer("done");
      else throw Error(ErrorKind::output, "The session answered: " + step.dump());
      if (steps % 100 == 99) std::printf("  step %d: %d looks, %s\n", steps + 1, eyes.looks(), step.at("progress").dump().c_str());
    }
  }
  std::printf("Done after %d steps: %d breakers opened, %d looks, %d of them wrong on purpose\n", steps, opened, eyes.looks(), eyes.errors());
  return report(HouseFile::open(argv[2], Access::read).load(), truth, eyes.errors() == 0) == 0 ? 0 : 1;
}

}  // namespace
}  // namespace ohmstead

int main(int argc, char** argv) try {
  if (argc < 4) {
    std::cerr << "usage: replay OHMSTEAD HOUSE TRUTH.csv [error percent] [seed]\n";
    return 2;
  }
  return ohmstead::replay(argc, argv);
} catch (const std::exception& fault) {
  std::cerr << "replay: " << fault.what() << '\n';
  return 1;
}
