#include <algorithm>
#include <charconv>
#include <filesystem>

#include "ask/printable.h"
#include "cli/command.h"
#include "house/error.h"

namespace ohmstead {

std::string Arguments::text(const std::string& option, const std::string& fallback) const {
  const auto at = given_.find(option);
  return at == given_.end() || at->second.empty() ? fallback : at->second.front();
}

std::vector<std::string> Arguments::texts(const std::string& option) const {
  const auto at = given_.find(option);
  return at == given_.end() ? std::vector<std::string>{} : at->second;
}

double Arguments::number(const std::string& option, double fallback, double low, double high) const {
  if (!has(option)) return fallback;
  const std::string given = text(option);
  double value = 0;
  const auto [end, fault] = std::from_chars(given.data(), given.data() + given.size(), value, std::chars_format::fixed);
  if (fault != std::errc{} || end != given.data() + given.size() || !(value >= low && value <= high))
    throw Error(ErrorKind::invalid_input, option + " needs a number from " + std::to_string(static_cast<long>(low)) +
                                              " to " + std::to_string(static_cast<long>(high)) + ", not '" +
                                              terminal::printable(given.substr(0, 40)) + "'.");
  return value;
}

std::string house_path(const Session& session) {
  if (!session.house_path.empty()) return session.house_path;
  std::vector<std::string> found;
  std::error_code ignored;
  for (const auto& entry : std::filesystem::directory_iterator(".", ignored))
    if (entry.path().extension() == ".house") found.push_back(entry.path().filename().string());
  std::ranges::sort(found);
  if (found.size() == 1) return found[0];
  if (found.empty())
    throw Error(ErrorKind::storage, "There is no house file in this folder. Start one with `ohmstead new home.house`, or name yours with --house FILE.");
  throw Error(ErrorKind::storage, "There are several house files in this folder (" + found[0] + ", " + found[1] +
                                      (found.size() > 2 ? ", ..." : "") + "). Name one with --house FILE.");
}

}  // namespace ohmstead
