#pragma once
// Who is where while the house is traced: at the panel, in the rooms, both at once (alone), or away.

#include <map>
#include <nlohmann/json_fwd.hpp>
#include <string>
#include <vector>

#include "house/enum_text.h"
#include "web/routes.h"

namespace ohmstead::web {

enum class Standpoint { away, both, panel, rooms };
OHMSTEAD_WORDS(Standpoint, "away", "both", "panel", "rooms")

struct Person {
  std::string name;
  Standpoint place = Standpoint::away;
  bool ready = false;
  bool operator==(const Person&) const = default;
};

/// By the number of their device.
class People {
 public:
  /// Somebody takes a place. True if it is news.
  bool stand(const Device& device, Standpoint place, bool ready);
  /// A handle was moved: those in the rooms say anew when they are ready for the next.
  void handle_moved();
  /// A device is gone. True if it had a place.
  bool leave(std::uint64_t device);

  [[nodiscard]] Standpoint place_of(std::uint64_t device) const;
  /// Somebody is at the panel and another is in the rooms.
  [[nodiscard]] bool helper_at_panel() const;
  /// Has anybody a place?
  [[nodiscard]] bool anybody() const;
  /// `[{"name","place","ready","me"}]`, without those who are away; `me` for this device.
  [[nodiscard]] nlohmann::ordered_json list(std::uint64_t me) const;

 private:
  std::map<std::uint64_t, Person> persons_;
};

}  // namespace ohmstead::web
