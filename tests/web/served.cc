#include "served.h"

#include <fcntl.h>
#include <signal.h>
#include <sys/wait.h>
#include <unistd.h>

#include <fstream>
#include <stdexcept>

#include "raw_client.h"

namespace ohmstead::web {

Served::Served(const whole::Folder& folder, const std::vector<std::string>& words) {
  int to[2], from[2];
  if (pipe2(to, O_CLOEXEC) != 0 || pipe2(from, O_CLOEXEC) != 0) throw std::runtime_error("no pipe");
  child_ = fork();
  if (child_ == 0) {
    dup2(to[0], STDIN_FILENO), dup2(from[1], STDOUT_FILENO);
    std::vector<std::string> all{"--house", "a.house", "serve", "--json", "--port", "0"};
    all.insert(all.end(), words.begin(), words.end());
    whole::become_program(folder, all);
  }
  close(to[0]), close(from[1]);
  to_ = fdopen(to[1], "w"), from_ = fdopen(from[0], "r");
  signal(SIGPIPE, SIG_IGN);
  const auto serving = event("serving");
  if (serving.is_null()) return;
  port_ = serving["port"].get<std::uint16_t>();
  const auto url = serving["url"].get<std::string>();  // http://HOST/
  host_ = url.substr(7, url.size() - 8);
}

Served::~Served() {
  if (child_ > 0) end(SIGTERM);
  std::fclose(to_), std::fclose(from_);
}

nlohmann::json Served::event(const std::string& name) {
  std::string line;
  for (int c = std::fgetc(from_); c != EOF; c = std::fgetc(from_)) {
    if (c != '\n') {
      line += static_cast<char>(c);
      continue;
    }
    const auto json = nlohmann::json::parse(line);
    if (json["event"] == name) return json;
    line.clear();
  }
  return nullptr;
}

void Served::type(const std::string& line) {
  std::fputs((line + "\n").c_str(), to_);
  std::fflush(to_);
}

std::string Served::new_device(const std::string& role) {
  type("n " + role);
  for (;;) {
    const auto code = event("code");
    if (code.is_null()) throw std::runtime_error("no code for " + role);
    if (code["role"] != role) continue;  // a code before this one
    const std::string cookie = pair_with(port_, host(), code["secret"]);
    if (!cookie.empty()) return cookie;
  }
}

int Served::end(int signal) {
  if (signal != 0) kill(child_, signal);
  int status = 0;
  waitpid(child_, &status, 0);
  child_ = -1;
  return WIFEXITED(status) ? WEXITSTATUS(status) : 1000 + WTERMSIG(status);
}

long resident_kib(pid_t process) {
  std::ifstream about("/proc/" + std::to_string(process) + "/status");
  for (std::string word; about >> word;)
    if (word == "VmRSS:") {
      long kib = 0;
      about >> kib;
      return kib;
    }
  return 0;
}

}  // namespace ohmstead::web
