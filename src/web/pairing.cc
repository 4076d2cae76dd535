#include "web/pairing.h"

#include <algorithm>

namespace ohmstead::web {

namespace {

constexpr std::size_t kDigits = 8, kSecretBytes = 16, kCookieBytes = 32;
constexpr Pace kTries{0.2, 5}, kAllTries{0.5, 10};

/// What was typed, without what people put between digits.
std::string without_gaps(std::string code) {
  std::erase_if(code, [](char c) { return c == ' ' || c == '-'; });
  return code;
}

bool all_digits(std::string_view text) {
  return std::ranges::all_of(text, [](char c) { return c >= '0' && c <= '9'; });
}

/// At most so many bytes, and no character cut in two.
std::string cut(std::string text) {
  if (text.size() <= kLongestDeviceName) return text;
  std::size_t end = kLongestDeviceName;
  while (end > 0 && (static_cast<unsigned char>(text[end]) & 0xC0U) == 0x80U) --end;
  text.resize(end);
  return text;
}

}  // namespace

std::string_view role_word(Role role) {
  switch (role) {
    case Role::nobody: break;
    case Role::look: return "look";
    case Role::trace: return "trace";
    case Role::change: return "change";
  }
  return "";
}

Pairing::Pairing(Clock clock, std::function<void(std::uint64_t)> left)
    : clock_(std::move(clock)), left_(std::move(left)), tries_(kTries, kAllTries, clock_()), offered_(clock_()), last_person_(offered_) {}

Offer Pairing::offer(Role role) {
  const std::lock_guard held(mutex_);
  offer_ = {role, random_text(kSecretBytes), random_digits(kDigits)};
  last_person_ = offered_ = clock_();
  tries_left_ = kMostTries;
  return offer_;
}

bool Pairing::fits(const std::string& code, Moment now) {
  if (offer_.role == Role::nobody) return false;
  if (code.size() == offer_.secret.size()) return same_secret(code, offer_.secret) && now - offered_ < kSecretLasts;
  const std::string typed = without_gaps(code);
  if (typed.size() != kDigits || !all_digits(typed) || tries_left_ <= 0 || now - offered_ >= kDigitsLast) return false;
  --tries_left_;
  return same_secret(typed, offer_.digits);
}

std::variant<PairedDevice, NotPaired> Pairing::pair(const std::string& code, const std::string& name, const std::string& address) {
  const Moment now = clock_();
  // Eight digits can be guessed, so they are tried slowly; nobody guesses a secret, and nobody's tries hold up who has one.
  if (all_digits(without_gaps(code)) && !tries_.take(address, now)) return NotPaired::too_often;
  const std::lock_guard held(mutex_);
  if (!fits(code, now)) return NotPaired::wrong;
  if (devices_.size() >= kMostDevices) return NotPaired::too_many;
  PairedDevice paired{{++last_number_, offer_.role, cut(name)}, random_text(kCookieBytes)};
  offer_ = {};
  last_person_ = now;
  devices_.emplace(hash_of(paired.cookie), DeviceRow{paired.device, address, now});
  return paired;
}

std::optional<Device> Pairing::device_of(const std::string& cookie) {
  if (cookie.empty()) return std::nullopt;
  const SecretHash hash = hash_of(cookie);
  const std::lock_guard held(mutex_);
  const auto found = devices_.find(hash);
  if (found == devices_.end()) return std::nullopt;
  found->second.last_seen = clock_();
  return found->second.device;
}

void Pairing::note_person() {
  const std::lock_guard held(mutex_);
  last_person_ = clock_();
}

std::vector<DeviceRow> Pairing::devices() const {
  const std::lock_guard held(mutex_);
  std::vector<DeviceRow> rows;
  for (const auto& [hash, row] : devices_) rows.push_back(row);
  std::ranges::sort(rows, {}, [](const DeviceRow& row) { return row.device.number; });
  return rows;
}

bool Pairing::revoke(std::uint64_t number) {
  {
    const std::lock_guard held(mutex_);
    if (std::erase_if(devices_, [&](const auto& row) { return row.second.device.number == number; }) == 0) return false;
  }
  if (left_) left_(number);
  return true;
}

Moment Pairing::last_person() const {
  const std::lock_guard held(mutex_);
  return last_person_;
}

}  // namespace ohmstead::web
