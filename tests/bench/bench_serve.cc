// The server under the load of a full house: bench_serve HOUSE-FILE [SECONDS [ANSWERS-A-SECOND]]. 50 phones wait for news and fetch the
// step after each; two trace. Prints how long answers took, whether one that was acknowledged is missing in the file, and the memory.

#include <algorithm>
#include <atomic>
#include <chrono>
#include <cstdlib>
#include <filesystem>
#include <iostream>
#include <mutex>
#include <random>
#include <thread>

#include "../web/raw_client.h"
#include "../web/served.h"
#include "db/house_file.h"

namespace {

using namespace ohmstead;
using Json = nlohmann::json;
using SteadyClock = std::chrono::steady_clock;
using std::chrono::milliseconds;

constexpr int kPhones = 50, kTracers = 2;

/// Milliseconds, of one kind of request.
class Times {
 public:
  void add(double ms) {
    const std::lock_guard held(mutex_);
    all_.push_back(ms);
  }
  void print(const char* what) {
    std::ranges::sort(all_);
    const auto part = [&](double share) { return all_[std::min(all_.size() - 1, static_cast<std::size_t>(share * static_cast<double>(all_.size())))]; };
    if (all_.empty()) return;
    std::cout << what << ": " << all_.size() << " answers, half within " << part(0.5) << " ms, 99 of 100 within " << part(0.99) << " ms, the slowest " << all_.back() << " ms\n";
  }

 private:
  std::mutex mutex_;
  std::vector<double> all_;
};

struct Load {
  web::Served& served;
  SteadyClock::time_point end;
  double answers_a_second = 1;
  Times gets, posts;
  std::atomic<int> acknowledged{0}, refused{0}, lost{0}, news{0};
};

std::string get(const Load& load, const std::string& target, const std::string& cookie) {
  return web::RawRequest{"GET " + target, load.served.host(), "Cookie: " + cookie + "\r\n", ""}.bytes();
}

/// One request on a connection; counts what stays without an answer.
std::optional<web::RawAnswer> ask(Load& load, web::RawClient& client, const std::string& bytes, Times* times) {
  const auto sent = SteadyClock::now();
  client.send(bytes);
  auto answer = client.receive();
  if (!answer) ++load.lost;
  else if (times != nullptr) times->add(std::chrono::duration<double, std::milli>(SteadyClock::now() - sent).count());
  return answer;
}

void be_a_phone(Load& load, const std::string& cookie) {
  web::RawClient client(load.served.port(), std::chrono::seconds(30));
  std::uint64_t since = 0;
  while (SteadyClock::now() < load.end) {
    const auto news = ask(load, client, get(load, "/api/wait?since=" + std::to_string(since), cookie), nullptr);
    if (!news || news->status != 200) return void(++load.lost);
    since = Json::parse(news->body)["change"].get<std::uint64_t>();
    ++load.news;
    const auto step = ask(load, client, get(load, "/api/trace", cookie), &load.gets);
    if (!step || step->status != 200) return void(++load.lost);
  }
}

/// What to answer to a step: anything that it takes.
std::string request_for(const Json& step, std::mt19937_64& random) {
  const auto& answers = step["answers"];
  std::string key;
  for (int i = 0; i < 20; ++i) key += static_cast<char>('a' + random() % 26);
  Json request{{"do", "undo"}, {"key", key}};
  if (!answers.empty() && random() % 20 != 0) request = {{"do", "answer"}, {"answer", answers[random() % std::min<std::size_t>(answers.size(), 2)]}, {"step", step["step"]}, {"key", key}};
  return request.dump();
}

void be_a_tracer(Load& load, const std::string& cookie, unsigned seed) {
  web::RawClient client(load.served.port(), std::chrono::seconds(30));
  std::mt19937_64 random(seed);
  std::this_thread::sleep_for(milliseconds(static_cast<int>(1000 / load.answers_a_second) * static_cast<int>(seed % kTracers) / kTracers));  // they take turns
  while (SteadyClock::now() < load.end) {
    const auto shown = ask(load, client, get(load, "/api/trace", cookie), &load.gets);
    if (!shown || shown->status != 200) return void(++load.lost);
    const std::string body = request_for(Json::parse(shown->body)["step"], random), host = load.served.host();
    const auto answer = ask(load, client, web::RawRequest{"POST /api/trace", host, web::page_headers(host, cookie), body}.bytes(), &load.posts);
    if (answer) ++(answer->status == 200 ? load.acknowledged : load.refused);
    std::this_thread::sleep_for(milliseconds(static_cast<int>(1000 / load.answers_a_second)));
  }
}

void run(const std::string& house, int seconds, double answers_a_second) {
  const whole::Folder folder;
  std::filesystem::copy_file(house, folder.at("a.house"));
  const auto revision = [&] { return HouseFile::open(folder.at("a.house"), Access::read).revision(); };
  web::Served served(folder);
  std::vector<std::string> cookies;
  for (int i = 0; i < kPhones + kTracers; ++i) cookies.push_back(served.new_device(i < kPhones ? "look" : "trace"));
  const auto before = revision();
  Load load{served, SteadyClock::now() + std::chrono::seconds(seconds), answers_a_second, {}, {}, {}, {}, {}, {}};
  std::vector<std::thread> people;
  for (int i = 0; i < kPhones + kTracers; ++i)
    people.emplace_back([&load, &cookies, i] {
      const std::string& cookie = cookies[static_cast<std::size_t>(i)];
      if (i < kPhones) be_a_phone(load, cookie);
      else be_a_tracer(load, cookie, static_cast<unsigned>(i));
    });
  std::this_thread::sleep_for(std::chrono::seconds(seconds) / 4);
  const long early = web::resident_kib(served.process());
  std::this_thread::sleep_until(load.end);
  const long late = web::resident_kib(served.process());
  served.type("r 0");
  for (std::thread& one : people) one.join();
  const int code = served.end(15);
  load.gets.print("GET /api/trace");
  load.posts.print("POST /api/trace, on disk when it is answered");
  std::cout << "News taken: " << load.news << "; requests without an answer, or refused where they should not be: " << load.lost << "\n"
            << "Answers of tracing acknowledged: " << load.acknowledged << ", in the file: " << revision() - before << "; refused because the other was first: " << load.refused << "\n"
            << "Memory of the server: " << early << " KiB after a quarter of the time, " << late << " KiB at its end; exit code " << code << "\n";
}

}  // namespace

int main(int argc, char** argv) {
  if (argc < 2) {
    std::cerr << "bench_serve HOUSE-FILE [SECONDS [ANSWERS-A-SECOND]]\n";
    return 2;
  }
  run(argv[1], argc > 2 ? std::atoi(argv[2]) : 60, argc > 3 ? std::atof(argv[3]) : 1);
  return 0;
}
