// What a record looks like to the page, for tests in other languages: `dump_view RECORD.json` prints the house view as served,
// `--file` as in the file, `--page` the whole file, `--states COUNT` the states of all points for all single moves and COUNT random
// ones. Instead of a record, `--random SEED` is a random house.

#include <fstream>
#include <iostream>
#include <random>
#include <sstream>

#include "db/interchange.h"
#include "tests/support/random_house.h"
#include "web/hand_over.h"
#include "web/house_view.h"
#include "web/page_files.h"

namespace {

using namespace ohmstead;

/// One line for each state tried: the throws of all handles but the permanent joint, the sources that live, the states of all points.
void print_state(const Graph& graph, const State& state) {
  for (std::size_t h = 1; h < graph.handles.size(); ++h) std::cout << static_cast<int>(state.throws[h]);
  std::cout << ' ';
  for (const std::uint8_t legs : state.live_legs) std::cout << (legs != 0 ? 1 : 0);
  std::cout << ' ';
  for (const PointState at : point_states(graph, liveness(graph, state))) std::cout << static_cast<int>(at);
  std::cout << '\n';
}

State state_under(const Record& record, std::size_t source) {
  return source == 0 ? usual_state(record.graph) : backup_state(record.house, record.graph, source - 1);
}

void print_states(const Record& record, int count) {
  const Graph& graph = record.graph;
  for (std::size_t source = 0; source <= record.house.sources.size(); ++source)
    for (std::uint32_t h = 1; h < graph.handles.size(); ++h)
      for (Throw to = 0; to < graph.handles[h].throws; ++to) {
        State state = state_under(record, source);
        move_handle(graph, state, h, to);
        print_state(graph, state);
      }
  std::mt19937_64 random(1);
  for (int i = 0; i < count && graph.handles.size() > 1; ++i) {
    State state = state_under(record, random() % (record.house.sources.size() + 1));
    for (std::size_t moves = 2 + random() % 5; moves > 0; --moves) {
      const auto h = static_cast<std::uint32_t>(1 + random() % (graph.handles.size() - 1));
      move_handle(graph, state, h, static_cast<Throw>(random() % graph.handles[h].throws));
    }
    print_state(graph, state);
  }
}

House house_of(const std::vector<std::string>& words) {
  constexpr int kRooms = 8;
  if (words.size() >= 2 && words[words.size() - 2] == "--random") return random_house(std::stoull(words.back()), kRooms);
  std::ifstream in(words.back(), std::ios::binary);
  std::ostringstream text;
  text << in.rdbuf();
  return house_from_json(text.str());
}

}  // namespace

int main(int count, char** given) {
  const std::vector<std::string> words(given + 1, given + count);
  if (words.empty()) return 2;
  const House house = house_of(words);
  const std::string at = "2026-11-25T09:30:00Z", what = words[0];
  if (what == "--page" || what == "--page-without-private") {
    std::cout << web::hand_over_page(house, {7, at, at.substr(0, 10), what != "--page", std::string(web::page_file("/page.css")), std::string(web::page_file("/page.js"))});
    return 0;
  }
  const Record record = make_record(house);
  if (what == "--states") {
    print_states(record, std::stoi(words[1]));
    return 0;
  }
  const Names names(record.house);
  std::cout << web::house_view_text(record, names, {7, at, true, what == "--file"}) << '\n';
}
