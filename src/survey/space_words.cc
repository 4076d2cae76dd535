#include "survey/space_words.h"

#include "survey/text_lines.h"

namespace ohmstead::entry_detail {

std::optional<std::vector<PolePlace>> parse_places(std::string_view word) {
  std::vector<PolePlace> places;
  for (std::string part : split(word, "+-")) {
    PolePlace place;
    if (part.ends_with('a') || part.ends_with('A')) place.half = Half::a;
    if (part.ends_with('b') || part.ends_with('B')) place.half = Half::b;
    if (place.half != Half::whole) part.pop_back();
    const auto space = whole_number(part);
    if (!space || *space < 1) return std::nullopt;
    place.space = *space;
    places.push_back(place);
  }
  if (places.size() > 3) return std::nullopt;
  return places;
}

}  // namespace ohmstead::entry_detail
