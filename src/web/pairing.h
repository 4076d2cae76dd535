#pragma once
// Which devices may talk to the server. A device pairs with a code that the terminal shows: a secret in the code that is scanned, or
// eight digits that are typed. It then holds a cookie, of which the server keeps the hash. All is forgotten when the server stops.

#include <functional>
#include <map>
#include <mutex>
#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "web/bucket.h"
#include "web/routes.h"
#include "web/secret.h"

namespace ohmstead::web {

/// What the terminal shows for one new device.
struct Offer {
  Role role = Role::nobody;
  std::string secret;  ///< 128 bits as 22 characters; good once, for kSecretLasts
  std::string digits;  ///< eight; good once, for kDigitsLast and kMostTries tries
};

inline constexpr std::chrono::minutes kSecretLasts{60}, kDigitsLast{3};
inline constexpr int kMostTries = 5;
/// One more is refused.
inline constexpr std::size_t kMostDevices = 64;
/// Longest name of a device, in bytes.
inline constexpr std::size_t kLongestDeviceName = 60;

/// Why a device was not paired.
enum class NotPaired {
  wrong,         ///< not the code, or one that is used up or too old
  too_often,     ///< too many tries, from this address or in all
  too_many,      ///< kMostDevices are paired
};

struct PairedDevice {
  Device device;
  std::string cookie;   ///< 256 bits as 43 characters; given out once, here
};

/// One row of the terminal's list.
struct DeviceRow {
  Device device;
  std::string address;  ///< from where it paired
  Moment last_seen;
};

/// From any thread.
class Pairing {
 public:
  /// `left`: told of every device that is taken off, in the thread that does it, with no lock held; may be empty.
  explicit Pairing(Clock clock, std::function<void(std::uint64_t)> left = {});

  /// A new code; the one before it is void. A used code is void too: every device needs one of its own.
  Offer offer(Role role);

  /// Tries a secret or eight digits (spaces and hyphens in them do not count). Digits are tried at a pace of their own.
  [[nodiscard]] std::variant<PairedDevice, NotPaired> pair(const std::string& code, const std::string& name, const std::string& address);

  /// The device whose cookie this is; it is seen now.
  [[nodiscard]] std::optional<Device> device_of(const std::string& cookie);
  /// Somebody does something with a paired device now.
  void note_person();
  [[nodiscard]] std::vector<DeviceRow> devices() const;
  /// Its cookie opens nothing from now on. False: there is none of that number.
  bool revoke(std::uint64_t number);
  /// When somebody last did something with a paired device, paired one or asked for a code; or when the server started.
  [[nodiscard]] Moment last_person() const;

 private:
  [[nodiscard]] bool fits(const std::string& code, Moment now);

  Clock clock_;
  std::function<void(std::uint64_t)> left_;
  mutable std::mutex mutex_;
  Buckets tries_;
  Offer offer_;
  Moment offered_;
  int tries_left_ = 0;
  std::uint64_t last_number_ = 0;
  Moment last_person_;
  std::map<SecretHash, DeviceRow> devices_;
};

}  // namespace ohmstead::web
