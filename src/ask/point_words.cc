// Lists of points and how sure a feed is, as parts of sentences.

#include <cstdio>

#include "ask/answer_words.h"

namespace ohmstead {

std::string points_by_room(const House& house, const std::vector<std::size_t>& points) {
  std::string text;
  for (const Room& room : house.rooms) {
    std::string here;
    for (const std::size_t p : points)
      if (house.points[p].room == room.id) here += (here.empty() ? "" : ", ") + house.points[p].name;
    if (!here.empty()) text += (text.empty() ? "" : "; ") + room.name + ": " + here;
  }
  return text;
}

std::string standing_words(const House& house, std::size_t point, const Feed& feed) {
  char belief[16];
  std::snprintf(belief, sizeof belief, "%.2f", feed.belief);
  switch (feed.standing) {
    case Standing::proved: return std::string("proved (belief ") + belief + ")";
    case Standing::likely: return std::string("likely, not proved (belief ") + belief + ")";
    case Standing::disputed: return "disputed: the evidence contradicts itself";
    case Standing::open: return "not traced yet";
    case Standing::declared: break;
  }
  const Id<Device> outer = outermost_device(house, house.points[point].behind);
  for (const DeclaredFeed& declared : house.declared_feeds)
    if ((declared.point == house.points[point].id || (outer && declared.device == outer)) && !declared.who.empty())
      return "declared by " + declared.who + ", not tested";
  return "declared, not tested";
}

}  // namespace ohmstead
