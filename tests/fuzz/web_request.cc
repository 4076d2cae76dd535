// Any bytes as a request to the server, from their head to the answer and to the file: every request gets an answer of ours, and an
// asker that is not paired, or may only look, leaves every byte of the house file as it was. The words LOOK, TRACE and CHANGE
// in a cookie stand for the cookies of paired devices, which no input can guess.

#include <unistd.h>

#include <cstdint>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <memory>
#include <nlohmann/json.hpp>
#include <string>

#include "house/invariants.h"
#include "survey/entry.h"
#include "tests/fuzz/small_house.h"
#include "web/device_routes.h"
#include "web/gate.h"
#include "web/house_routes.h"
#include "web/incoming.h"
#include "web/page_files.h"

namespace {

using namespace ohmstead;
using namespace ohmstead::web;
namespace fs = std::filesystem;

constexpr const char* kHost = "127.0.0.1:8642";
constexpr std::size_t kMostBody = 64 * 1024;
constexpr int kRunsOfAWorld = 400;

void require(bool holds) {
  if (!holds) std::abort();
}

/// A folder in memory where there is one, removed at the end.
struct Folder {
  Folder() {
    std::string name = (fs::exists("/dev/shm") ? fs::path("/dev/shm") : fs::temp_directory_path()) / "ohmstead-fuzz-XXXXXX";
    require(mkdtemp(name.data()) != nullptr);
    path = name;
  }
  ~Folder() {
    std::error_code ignored;
    fs::remove_all(path, ignored);
  }
  fs::path path;
};

House flat() {
  House house = fuzz::small_house("Kitchen", {1, 3, 12});
  house.points = {{{30}, {3}, {}, "light", "", PointKind::light}, {{31}, {3}, {}, "receptacle 1"}, {{34}, {4}, {}, "freezer", "", PointKind::appliance}};
  Load load;
  load.id = {40}, load.point = {34}, load.name = "freezer", load.hurt_by_power_loss = true;
  house.loads = {load};
  return enter_text(house, "Generator G 3600/4500 W 120/240, gasoline, 11 L tank\nTransfer T in Hall 2 positions from G: 1 15 L1 <- Main 1; 2 15 L2 <- Main 3\n").house;
}

/// A house file with its desk, behind a gate with devices of every role.
struct World {
  World() {
    HouseFile::create(path, flat());
    desk = std::make_unique<HouseDesk>(path, [] { return std::string("2026-03-01T08:00:00Z"); }, LocalTime{}, changes);
    std::vector<Route> routes = house_routes(*desk);
    for (Route& route : file_routes()) routes.push_back(std::move(route));
    routes.push_back(pair_route(pairing, "ohmstead"));
    routes.push_back(wait_route(changes, [this] { return desk->revision(); }));
    gate = std::make_unique<Gate>(GateRules{{kHost}}, std::move(routes), pairing, clock);
    for (const Role role : {Role::look, Role::trace, Role::change})
      cookies.push_back(std::get<PairedDevice>(pairing.pair(pairing.offer(role).secret, "Ana", "10.0.0.2")).cookie);
    pairing.offer(Role::change);  // to be guessed
  }
  [[nodiscard]] std::string bytes() const {
    std::ifstream file(path, std::ios::binary);
    return {std::istreambuf_iterator<char>(file), {}};
  }

  Folder folder;
  fs::path path = folder.path / "a.house";
  Moment now{};
  Clock clock = [this] { return now; };
  ChangeCounter changes{1000};
  Pairing pairing{clock};
  std::unique_ptr<HouseDesk> desk;
  std::unique_ptr<Gate> gate;
  std::vector<std::string> cookies;
};

/// A line without its end, taken from the front of the text.
std::string take_line(std::string& text) {
  const std::size_t end = std::min(text.find('\n'), text.size());
  std::string line = text.substr(0, end);
  text.erase(0, std::min(end + 1, text.size()));
  if (!line.empty() && line.back() == '\r') line.pop_back();
  return line;
}

/// As a plain HTTP parser has it; what is left of the text is the body.
Head head_of(std::string& text) {
  Head head;
  head.address = "10.0.0.3";
  const std::string line = take_line(text);
  const std::size_t first = std::min(line.find(' '), line.size()), last = std::max(first, std::min(line.rfind(' '), line.size()));
  head.method = line.substr(0, first);
  head.target = line.substr(std::min(first + 1, last), last - std::min(first + 1, last));
  for (std::string field = take_line(text); !field.empty(); field = take_line(text)) {
    const std::size_t colon = std::min(field.find(':'), field.size());
    std::string value = field.substr(std::min(colon + 1, field.size()));
    value.erase(0, value.find_first_not_of(" \t"));
    head.headers.emplace_back(field.substr(0, colon), value);
  }
  return head;
}

Role put_cookie(Request& request, const World& world) {
  constexpr std::pair<const char*, Role> kWords[] = {{"LOOK", Role::look}, {"TRACE", Role::trace}, {"CHANGE", Role::change}};
  for (std::size_t i = 0; i < std::size(kWords); ++i)
    if (request.cookie_named("ohmstead") == kWords[i].first) {
      request.cookie = "ohmstead=" + world.cookies[i];
      return kWords[i].second;
    }
  return Role::nobody;
}

Response answer_of(World& world, const Request& request) {
  auto answer = (*world.gate)(request);
  if (auto* response = std::get_if<Response>(&answer)) return std::move(*response);
  auto& parked = std::get<Parked>(answer);
  auto at_once = parked.answer(false);
  auto late = at_once ? at_once : parked.answer(true);
  require(late.has_value());
  return *late;
}

void require_right(const Request& request, Role role, const Response& answer) {
  require(answer.status >= 200 && answer.status < 600 && answer.status != 500);
  require(answer.set_cookie.find_first_of("\r\n") == std::string::npos);
  const bool is_file = request.path.find("/api/") != 0 && answer.status == 200;
  if (is_file) return require(answer.body == page_file(request.path));
  const auto json = nlohmann::json::parse(answer.body, nullptr, false);
  require(json.is_object());
  if (answer.status != 200) return require(json.at("error").at("message").is_string());
  require(role != Role::nobody);  // the secret to pair is not guessed
  require(request.hosts == std::vector<std::string>{kHost});
  if (request.verb == Verb::post) require(role >= (request.path == "/api/survey" ? Role::change : Role::trace));
  if (request.verb == Verb::post) require(request.origin == std::string("http://") + kHost && request.own_header == "1");
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  static std::unique_ptr<World> world;
  static int runs = 0;
  if (size > 20'000) return 0;
  if (!world || ++runs % kRunsOfAWorld == 0) {
    world.reset();
    world = std::make_unique<World>();
  }
  world->now += std::chrono::seconds(100);
  std::string text(reinterpret_cast<const char*>(data), size);
  auto taken = take_head(head_of(text), kMostBody);
  if (const auto* refused = std::get_if<Response>(&taken)) {
    require(refused->status >= 400 && nlohmann::json::parse(refused->body).contains("error"));
    return 0;
  }
  auto& request = std::get<Request>(taken);
  request.body = text;
  const Role role = put_cookie(request, *world);
  const std::string before = world->bytes();
  const Response answer = answer_of(*world, request);
  require_right(request, role, answer);
  if (role <= Role::look || request.verb != Verb::post || answer.status != 200) require(world->bytes() == before);
  else require(problems_of(HouseFile::open(world->path, Access::read).load()).empty());
  return 0;
}
