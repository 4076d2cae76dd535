// Photos: the smaller pictures as data of the page, as many as there is room for, and which were left out.

#include "ask/photos.h"
#include "db/base64.h"
#include "web/html.h"
#include "web/plain_page.h"

namespace ohmstead::web::plain_page {

namespace {

/// Of all pictures together, as they stand in the page.
constexpr std::size_t kMostPictureText = 600'000;

std::string figure(const PhotoWords& words, const std::string& data) {
  const std::string title = escaped(title_of_photo(words));
  return element("figure", "", "<img id=\"photo-" + words.id + "\" alt=\"" + title + "\" src=\"data:image/jpeg;base64," + data + "\">" + element("figcaption", "", title));
}

}  // namespace

std::string photos_part(const PlainInput& in) {
  if (in.house.photos.empty()) return "";
  const Names names(in.house);
  std::string figures, left_out;
  std::size_t room = kMostPictureText;
  for (const Photo& photo : in.house.photos) {
    const PhotoWords words = words_of_photo(names, photo);
    const auto found = in.pictures.find(photo.small);
    const std::string data = found == in.pictures.end() || photo.is_private ? "" : base64_of(found->second);
    const char* why = photo.is_private ? "private" : data.empty() ? "picture not here" : data.size() > room ? "no room for it in this file" : nullptr;
    if (why != nullptr) left_out += element("li", "", escaped(title_of_photo(words)) + ": " + why);
    else figures += figure(words, data), room -= data.size();
  }
  if (!left_out.empty()) left_out = element("p", "", "Left out of this file:") + element("ul", "", left_out);
  return section("photos", "Photos", (figures.empty() ? "" : element("p", "class=\"p-note\"", "Made smaller; the larger ones are in the house file.")) + figures + left_out);
}

}  // namespace ohmstead::web::plain_page
