#include "cli/serve_terminal.h"

#include <poll.h>
#include <unistd.h>

#include <algorithm>
#include <charconv>
#include <cstdlib>
#include <nlohmann/json.hpp>
#include <ostream>

#include "ask/printable.h"
#include "cli/exit_code.h"
#include "cli/wrapped.h"
#include "web/terminal_code.h"

namespace ohmstead {

namespace {

using Json = nlohmann::ordered_json;
using web::Role;

constexpr int kTickMs = 1000;
constexpr const char* kKeys = "Type, with Enter: n for a code for the next device (or n look, n trace, n change), d for the devices, r and a number to take one off, q to stop.";

/// "1234 5678": easier to read aloud and to type.
std::string in_two(const std::string& digits) { return digits.substr(0, 4) + " " + digits.substr(4); }

const char* may_words(Role role) {
  switch (role) {
    case Role::nobody: break;
    case Role::look: return "may look";
    case Role::trace: return "may look, trace, and lead through an outage";
    case Role::change: return "may do everything, and change the record";
  }
  return "";
}

bool has_colours() {
  const char* const no_color = std::getenv("NO_COLOR");
  return isatty(STDOUT_FILENO) == 1 && (no_color == nullptr || *no_color == '\0');
}

}  // namespace

Role role_of_word(const std::string& word) {
  for (const Role role : {Role::look, Role::trace, Role::change})
    if (word == web::role_word(role) || (word.size() == 1 && word[0] == web::role_word(role)[0])) return role;
  throw Error(ErrorKind::invalid_input, "A device is paired to look, trace or change, not to '" + terminal::printable(word.substr(0, 40)) + "'.");
}

ServeTerminal::ServeTerminal(Session& session, const ServeManner& manner, web::Server& server, web::ChangeCounter& changes)
    : session_(session), manner_(manner), server_(server), changes_(changes) {}

void ServeTerminal::say(const std::string& sentence) {
  if (!session_.json) session_.out << wrapped(sentence, 0) << '\n' << std::flush;
}

void ServeTerminal::say_json(const std::string& line) {
  if (session_.json) session_.out << line << '\n' << std::flush;
}

void ServeTerminal::show_start() {
  const std::string url = server_.url();
  say_json(Json{{"event", "serving"}, {"url", url}, {"port", server_.port()}, {"lan", manner_.on_lan}}.dump());
  say("The page of " + terminal::printable(manner_.house) + " is served at " + url);
  say(manner_.on_lan ? "Every phone on this network can reach it; only those that are paired are let in."
                     : "Only this computer can reach it; for phones on the home network: ohmstead serve --lan");
  if (manner_.on_lan)
    say("Caution: what goes over the network is not encrypted. Others on this Wi-Fi could read along, and act as a device they have listened to. "
        "Use it on a network of your own, and stop it when you are done.");
}

void ServeTerminal::show_offer(Role role) {
  const web::Offer offer = server_.pairing().offer(role);
  const std::string url = server_.url_with(offer);
  say_json(Json{{"event", "code"}, {"role", web::role_word(role)}, {"url", url}, {"secret", offer.secret}, {"digits", offer.digits}}.dump());
  if (session_.json) return;
  session_.out << '\n';
  if (manner_.on_lan) {
    session_.out << web::terminal_code(url, has_colours()) << '\n';
    say("Point the phone's camera at this code; or open " + server_.url() + " on it and type, within 3 minutes:");
  } else {
    session_.out << "Open here, in a browser:  " << url << "\n";
    say("Or open " + server_.url() + " and type, within 3 minutes:");
  }
  session_.out << "    " << in_two(offer.digits) << '\n';
  say("The code is for one device, which then " + std::string(may_words(role)) + ".");
  say(kKeys);
}

void ServeTerminal::show_devices() {
  Json list = Json::array();
  const auto rows = server_.pairing().devices();
  if (rows.empty()) say("No device is paired.");
  for (const web::DeviceRow& row : rows) {
    list.push_back({{"number", row.device.number}, {"name", row.device.name}, {"role", web::role_word(row.device.role)}, {"address", row.address}});
    const auto ago = std::chrono::duration_cast<std::chrono::minutes>(std::chrono::steady_clock::now() - row.last_seen).count();
    say(std::to_string(row.device.number) + "  '" + terminal::printable(row.device.name) + "' at " + row.address + ", " +
        std::string(web::role_word(row.device.role)) + ", seen " + (ago == 0 ? "just now" : std::to_string(ago) + " min ago"));
  }
  say_json(Json{{"event", "devices"}, {"devices", list}}.dump(-1, ' ', false, Json::error_handler_t::replace));
}

void ServeTerminal::show_new_devices() {
  for (const web::DeviceRow& row : server_.pairing().devices()) {
    if (row.device.number <= shown_) continue;
    shown_ = row.device.number;
    say("Paired: '" + terminal::printable(row.device.name) + "' at " + row.address + ", number " + std::to_string(shown_) + ", " +
        std::string(web::role_word(row.device.role)) + ".");
    say_json(Json{{"event", "paired"}, {"number", shown_}, {"name", row.device.name}, {"role", web::role_word(row.device.role)}}
                 .dump(-1, ' ', false, Json::error_handler_t::replace));
  }
}

void ServeTerminal::revoke(const std::string& number) {
  std::uint64_t value = 0;
  const auto [end, fault] = std::from_chars(number.data(), number.data() + number.size(), value);
  const bool done = fault == std::errc{} && end == number.data() + number.size() && server_.pairing().revoke(value);
  if (done) changes_.step();
  say(done ? "Device " + number + " is off: it has to be paired anew." : "There is no device of that number; d lists them.");
  say_json(Json{{"event", "revoked"}, {"done", done}}.dump());
}

bool ServeTerminal::take_line(const std::string& line) try {
  const std::size_t gap = std::min(line.find(' '), line.size());
  const std::string key = line.substr(0, gap), rest = line.substr(std::min(gap + 1, line.size()));
  if (key == "q") return true;
  if (key == "n") show_offer(rest.empty() ? manner_.role : role_of_word(rest));
  else if (key == "d") show_devices();
  else if (key == "r") revoke(rest);
  else say(kKeys);
  return false;
} catch (const Error& error) {
  say(error.what());
  say_json(Json{{"event", "error"}, {"message", error.what()}}.dump());
  return false;
}

bool ServeTerminal::take_input() {
  char block[256];
  const ssize_t got = read(STDIN_FILENO, block, sizeof block);
  if (got <= 0) {
    input_ended_ = true;
    return session_.in_is_terminal && got == 0;  // without a terminal it goes on: nobody was there to type
  }
  read_.append(block, static_cast<std::size_t>(got));
  for (std::size_t end = read_.find('\n'); end != std::string::npos; end = read_.find('\n')) {
    const std::string line = read_.substr(0, end);
    read_.erase(0, end + 1);
    if (take_line(line)) return true;
  }
  if (read_.size() > sizeof block) read_.clear();  // no line of ours is that long
  return false;
}

std::optional<int> ServeTerminal::step(const StopSignals& signals) {
  pollfd waited[] = {{signals.handle(), POLLIN, 0}, {input_ended_ ? -1 : STDIN_FILENO, POLLIN, 0}};
  poll(waited, std::size(waited), kTickMs);
  if (const int signal = signals.came(); signal != 0) return signal == SIGINT ? kInterrupted : kDone;
  manner_.each_second();
  show_new_devices();
  if (waited[1].revents != 0 && take_input()) return kDone;
  if (std::chrono::steady_clock::now() - server_.pairing().last_person() < manner_.idle) return std::nullopt;
  say("Nobody used the page for a long time, so it is not served any more.");
  return kDone;
}

int ServeTerminal::run(const StopSignals& signals) {
  show_start();
  show_offer(manner_.role);
  std::optional<int> end;
  while (!end) end = step(signals);
  say("Stopped. All devices have to be paired anew the next time.");
  say_json(Json{{"event", "stopped"}}.dump());
  return *end;
}

}  // namespace ohmstead
