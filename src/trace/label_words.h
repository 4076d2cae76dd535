#pragma once
// The words of an old directory and what they name in this house.

#include <set>
#include <string>
#include <string_view>
#include <vector>

#include "house/house.h"

namespace ohmstead {

/// Words of a text in lower case, without a plural s. Numbers count, also of one digit.
[[nodiscard]] std::set<std::string> words_in(std::string_view text);

/// Does one of the words name an appliance that mostly has a circuit of its own?
[[nodiscard]] bool names_an_appliance(const std::set<std::string>& words);

/// What one label says. A label that names nothing in the house says nothing.
struct LabelSays {
  std::set<std::string> words;
  std::set<std::size_t> rooms;     ///< places in house.rooms
  bool lights = false, receptacles = false, alarms = false;
  bool spare = false;
  bool names_a_thing = false;      ///< an appliance, or a load of this house
  [[nodiscard]] bool nothing() const {
    return rooms.empty() && !lights && !receptacles && !alarms && !spare && !names_a_thing;
  }
};
[[nodiscard]] LabelSays read_label(const House& house, std::string_view label);

/// The same for many labels of one house.
class LabelReader {
 public:
  explicit LabelReader(const House& house);
  [[nodiscard]] LabelSays read(std::string_view label) const;

 private:
  [[nodiscard]] std::set<std::size_t> rooms_named(const std::set<std::string>& said) const;

  std::vector<std::set<std::string>> rooms_, loads_;  ///< words of their names
};

}  // namespace ohmstead
