#pragma once
// The things quick entry knows by their words, as data.

#include <optional>
#include <string>
#include <string_view>

#include "house/point.h"

namespace ohmstead {

/// What a word stands for.
struct KindWord {
  std::string_view name;  ///< what a point of it is called: "receptacle", "refrigerator"
  PointKind kind = PointKind::appliance;
  int hots = 1;              ///< hot conductors it usually needs
  int running_watts = 0;     ///< typical; 0: not known
  int starting_watts = 0;    ///< typical; 0: as running
  Importance importance = Importance::normal;
  bool hurt_by_power_loss = false;
  std::string_view other_words;  ///< synonyms, separated by '|'
  std::string_view short_word;   ///< for glued counts: the r of "4r"
};

/// The thing called so ("outlets", "Fridge", "smoke alarm"), or nullptr. Capitals and the plural
/// do not matter.
[[nodiscard]] const KindWord* find_kind(std::string_view words);
/// The thing with this short word ("r"), or nullptr.
[[nodiscard]] const KindWord* find_short_kind(std::string_view word);
/// The known name or synonym nearest to a misspelled one, if one is near enough.
[[nodiscard]] std::optional<std::string> nearest_kind_word(std::string_view words);

/// Items that a template of this name stands for, or nothing.
[[nodiscard]] std::optional<std::string_view> template_items(std::string_view name);
/// The template that suits a room of this name ("Bedroom 2" gives "bedroom"), or "".
[[nodiscard]] std::string template_for_room(std::string_view room_name);
/// Names of all templates, for messages: "bedroom, bath, ...".
[[nodiscard]] std::string template_names();

}  // namespace ohmstead
