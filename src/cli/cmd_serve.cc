#include <cmath>
#include <istream>
#include <ostream>

#include "ask/printable.h"
#include "cli/open_house.h"
#include "cli/other_program.h"
#include "cli/run.h"
#include "cli/serve_terminal.h"
#include "cli/stop_signals.h"
#include "db/storage_error.h"
#include "web/device_routes.h"
#include "web/heap.h"
#include "web/house_routes.h"
#include "web/lan_address.h"
#include "web/secret.h"
#include "web/serve_lock.h"
#include "web/server.h"
#include "web/sheet_routes.h"

namespace ohmstead {

namespace {

constexpr double kUsualPort = 8642, kUsualHours = 4, kMostHours = 72;

/// Asked on the terminal where this computer is on several networks.
std::string lan_address(Session& session, const std::string& given) {
  const auto there = web::lan_addresses();
  try {
    return web::choose_lan_address(there, given);
  } catch (const Error& error) {
    if (error.kind != ErrorKind::ambiguous || !session.in_is_terminal || session.json) throw;
  }
  session.out << "Which network are the phones on?\n";
  for (std::size_t i = 0; i < there.size(); ++i)
    session.out << "  " << i + 1 << "  " << there[i].address << " (" << terminal::printable(there[i].interface) << ")\n";
  session.out << "Its number: " << std::flush;
  std::string line;
  std::getline(session.in, line);
  for (std::size_t i = 0; i < there.size(); ++i)
    if (line == std::to_string(i + 1)) return there[i].address;
  throw Error(ErrorKind::invalid_input, "No network was chosen; give its address with --address.");
}

std::uint16_t port_of(const Arguments& arguments) {
  const double port = arguments.number("--port", kUsualPort, 0, 65535);
  if (port != std::floor(port)) throw Error(ErrorKind::invalid_input, "--port needs a whole number.");
  return static_cast<std::uint16_t>(port);
}

ServeManner manner_of(const Session& session, const Arguments& arguments, bool on_lan) {
  ServeManner manner;
  manner.on_lan = on_lan;
  manner.role = role_of_word(arguments.text("--role", on_lan ? "trace" : "change"));
  manner.house = ohmstead::quoted(house_path(session));
  manner.idle = std::chrono::milliseconds(std::lround(arguments.number("--hours", kUsualHours, 0, kMostHours) * 3'600'000));
  return manner;
}

web::SheetsOptions sheets_of(const Session& session, const web::HouseDesk& desk) {
  web::SheetsOptions options;
  options.program = other_program("ohmstead-print"), options.house = house_path(session);
  options.revision = [&desk] { return desk.revision(); };
  options.date = [now = session.now] { return now().substr(0, 10); };
  return options;
}

}  // namespace

int run_serve(Session& session, const Arguments& arguments) {
  web::share_one_heap();
  const bool on_lan = arguments.has("--lan") || arguments.has("--address");
  ServeManner manner = manner_of(session, arguments, on_lan);
  web::ChangeCounter changes(web::random_number() >> 16U);
  web::HouseDesk desk(house_path(session), session.now, {session.clock_ahead}, changes);
  manner.each_second = [&desk] { desk.look_around(); };
  const web::ServeLock only_one(house_path(session));
  web::ServerOptions options;
  options.port = port_of(arguments);
  options.left = [&desk](std::uint64_t device) { desk.leave(device); };
  if (on_lan) options.address = lan_address(session, arguments.text("--address"));
  const StopSignals signals;  // before any thread is started, so that none is ended by one
  web::Sheets sheets(sheets_of(session, desk), [&changes] { changes.look_again(); });
  std::vector<web::Route> routes = web::house_routes(desk);
  for (web::Route& route : web::sheet_routes(sheets)) routes.push_back(std::move(route));
  routes.push_back(web::wait_route(changes, [&desk] { return desk.revision(); }));
  web::Server server(options, std::move(routes), changes);
  return ServeTerminal(session, manner, server, changes).run(signals);
}

}  // namespace ohmstead
