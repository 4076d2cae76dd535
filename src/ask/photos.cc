#include "ask/photos.h"

#include <algorithm>
#include <numeric>

#include "ask/printable.h"
#include "ask/sentence.h"
#include "house/error.h"

namespace ohmstead {

namespace {

using sentence::counted;

constexpr std::size_t kLeastOfId = 4;

long bytes_of(const std::vector<Photo>& photos) {
  return std::accumulate(photos.begin(), photos.end(), 0L, [](long sum, const Photo& photo) { return sum + photo.bytes; });
}

std::string size_text(long bytes) {
  if (bytes < 1'000'000) return std::to_string((bytes + 999) / 1000) + " kB";
  const long tenths = (bytes + 50'000) / 100'000;
  return std::to_string(tenths / 10) + "." + std::to_string(tenths % 10) + " MB";
}

std::string item_of(const PhotoWords& photo, bool here) {
  std::string text = photo.about + (photo.caption.empty() ? "" : ": " + photo.caption) + " (" + photo.date + (photo.who.empty() ? "" : ", " + photo.who);
  text += photo.is_private ? "; private" : "";
  return text + "; " + (here ? photo.dots : "picture not here") + "; photo " + photo.id + ")";
}

}  // namespace

PhotoWords words_of_photo(const Names& names, const Photo& photo) {
  return {photo.id.text(), photo.about.kind == ThingKind::house ? "the house" : names.name_of(photo.about), photo.caption, photo.at.substr(0, 10), photo.who,
          std::to_string(photo.width) + " x " + std::to_string(photo.height) + ", " + size_text(photo.bytes), photo.is_private};
}

std::string title_of_photo(const PhotoWords& photo) {
  return sentence::capital(photo.about) + (photo.caption.empty() ? "" : ": " + photo.caption) + " (" + photo.date + ")" + (photo.is_private ? ", private" : "");
}

Lines words_of_photos(const Names& names, const std::vector<Photo>& photos, const std::vector<bool>& here) {
  if (photos.empty()) return {{LineKind::answer, "No photo is kept."}};
  Line line{LineKind::answer, counted(photos.size(), "photo", "photos") + ", " + size_text(bytes_of(photos)) + ".", {}};
  for (std::size_t i = 0; i < photos.size(); ++i) line.items.push_back(item_of(words_of_photo(names, photos[i]), here[i]));
  return {line};
}

std::string words_of_missing_pictures(std::size_t missing, std::size_t all) {
  if (missing == 0) return "";
  const std::string of_all = missing == all ? "" : " of " + std::to_string(all);
  return std::to_string(missing) + of_all + (all == 1 ? " photo" : " photos") + (missing == 1 ? " is" : " are") + " here without the picture: lists say 'picture not here'. Add the picture again where you have it.";
}

std::size_t photo_called(const House& house, const std::string& id) {
  std::vector<std::size_t> found;
  for (std::size_t i = 0; i < house.photos.size(); ++i)
    if (id.size() >= kLeastOfId && house.photos[i].id.text().ends_with(id)) found.push_back(i);
  const std::string shown = terminal::printable(id.substr(0, 40));
  if (found.empty()) throw Error(ErrorKind::not_found, "There is no photo '" + shown + "'; `ohmstead photo list` shows them, each with its 12 signs.");
  if (found.size() > 1) throw Error(ErrorKind::ambiguous, "'" + shown + "' ends the names of " + std::to_string(found.size()) + " photos; give all 12 signs.");
  return found.front();
}

void require_room_for_photo(const House& house, int bytes) {
  if (house.photos.size() < kMostPhotos && bytes_of(house.photos) + bytes <= kMostPhotoBytes) return;
  throw Error(ErrorKind::invalid_input, "There is no room for another photo: a house keeps at most " + std::to_string(kMostPhotos) + " with " + std::to_string(kMostPhotoBytes / 1'000'000) +
                                            " MB together, and this one has " + std::to_string(house.photos.size()) + " with " + size_text(bytes_of(house.photos)) + "; remove one first.");
}

}  // namespace ohmstead
