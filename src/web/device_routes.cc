#include "web/device_routes.h"

#include <charconv>
#include <memory>
#include <nlohmann/json.hpp>

#include "house/error.h"
#include "json/json_line.h"
#include "web/page_files.h"
#include "web/waits.h"

namespace ohmstead::web {

namespace {

using Json = nlohmann::ordered_json;

Response json_response(const Json& json) {
  return {200, "application/json", json.dump(-1, ' ', false, Json::error_handler_t::replace) + "\n", ""};
}

Response answer_to(NotPaired why) {
  switch (why) {
    case NotPaired::too_often: return refusal(429, "too_many", "Too many codes were tried; wait a minute, then type the code that the terminal shows.");
    case NotPaired::too_many: return refusal(403, "too_many_devices", "As many devices as there may be are paired; take one off at the terminal.");
    case NotPaired::wrong: break;
  }
  return refusal(403, "wrong_code", "This code is wrong, used up or too old; ask at the terminal for a new one.");
}

Answer pair(Pairing& pairing, const std::string& cookie_name, const Call& call) {
  const std::string code = text_field(call.body, "code"), secret = text_field(call.body, "secret");
  if (code.empty() == secret.empty()) throw refused_line("Give either a 'code' or a 'secret'.");
  const auto tried = pairing.pair(code.empty() ? secret : code, text_field(call.body, "name"), call.request.address);
  if (const auto* why = std::get_if<NotPaired>(&tried)) return answer_to(*why);
  if (call.device.number != 0) pairing.revoke(call.device.number);  // it has a new cookie now
  const auto& paired = std::get<PairedDevice>(tried);
  Response response = json_response({{"role", role_word(paired.device.role)}, {"name", paired.device.name}});
  response.set_cookie = cookie_name + "=" + paired.cookie + "; HttpOnly; SameSite=Strict; Path=/; Max-Age=86400";
  return response;
}

std::uint64_t since_of(const std::string& text) {
  std::uint64_t since = 0;
  const auto [end, fault] = std::from_chars(text.data(), text.data() + text.size(), since);
  if (text.empty() || fault != std::errc{} || end != text.data() + text.size()) throw refused_line("The field 'since' must be a whole number.");
  return since;
}

}  // namespace

std::vector<Route> file_routes() {
  std::vector<Route> routes;
  for (const PageFile& file : page_files())
    routes.push_back({Verb::get, std::string(file.path), Role::nobody,
                      [file](const Call&) { return Response{200, std::string(file.type), std::string(file.text), ""}; }, true});
  return routes;
}

Route pair_route(Pairing& pairing, const std::string& cookie_name) {
  return {Verb::post, "/api/pair", Role::nobody, [&pairing, cookie_name](const Call& call) { return pair(pairing, cookie_name, call); }};
}

Route wait_route(const ChangeCounter& changes, std::function<std::int64_t()> revision) {
  const auto waits = std::make_shared<Waits>(kMostWaits);
  const auto wait = [&changes, revision, waits](const Call& call) -> Answer {
    const std::uint64_t since = since_of(call.request.field("since"));
    const auto place = waits->take(call.device.number);
    if (place == nullptr) return refusal(503, "too_many", "This device waits for news several times already; close the page elsewhere, or ask again in 3 seconds.");
    // A number of another server is not after or before ours: it is just not the number now.
    return Parked{std::chrono::seconds(20), [&changes, revision, since, place](bool over) -> std::optional<Response> {
                    const std::uint64_t now = changes.now();
                    if (now == since && !over) return std::nullopt;
                    return json_response({{"change", now}, {"revision", revision()}});
                  }};
  };
  return {Verb::get, "/api/wait", Role::look, wait, true};
}

}  // namespace ohmstead::web
