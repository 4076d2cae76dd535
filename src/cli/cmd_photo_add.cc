#include <algorithm>
#include <ostream>

#include "ask/photos.h"
#include "ask/printable.h"
#include "cli/exit_code.h"
#include "cli/open_house.h"
#include "cli/run.h"
#include "db/sha256.h"
#include "db/storage_error.h"
#include "house/error.h"
#include "print/photo_picture.h"

namespace ohmstead {

namespace {

std::string file_given(const Arguments& arguments) {
  const std::vector<std::string> files = arguments.texts("THING");
  if (files.size() != 1) throw Error(ErrorKind::invalid_input, "Give one file, as in `ohmstead photo add panel.jpg --about 'main panel'`.");
  return files.front();
}

}  // namespace

int run_photo_add(Session& session, const Arguments& arguments) {
  const std::string path = file_given(arguments), about = arguments.text("--about");
  HouseFile file = open_house(session, Access::change);
  const House house = file.load();
  const Names names(house);
  Photo photo{.id = Id<Photo>::fresh(), .about = about.empty() || about == "house" ? ThingRef{} : names.one(about), .caption = arguments.text("--caption"),
              .is_private = arguments.has("--private"), .who = arguments.text("--who"), .at = session.now()};
  require_room_for_photo(house, 0);
  const MadePhoto made = photo_of_picture(read_all(session, path, kLargestPhotoFile), path == "-" ? "Standard input" : ohmstead::quoted(path));
  photo.picture = sha256_text(made.jpeg), photo.small = sha256_text(made.small);
  photo.width = made.width, photo.height = made.height, photo.bytes = static_cast<int>(made.jpeg.size());
  const PhotoWords words = words_of_photo(names, photo);
  bool is_there = false;
  const ChangeNote note{.what = "photo of " + words.about, .pictures = {{photo.picture, made.jpeg}, {photo.small, made.small}}};
  const auto revision = file.change(note, [&](House& next) {
    const auto same = std::ranges::find_if(next.photos, [&](const Photo& one) { return one.about == photo.about && one.picture == photo.picture; });
    is_there = same != next.photos.end() && file.picture(photo.picture).has_value();
    if (is_there) return;
    if (same != next.photos.end()) next.photos.erase(same);  // it came without its picture
    require_room_for_photo(next, photo.bytes);
    next.photos.push_back(photo);
  });
  if (is_there) {
    session.out << "This picture of " << words.about << " is kept already; nothing was changed.\n";
    return kDoneButNo;
  }
  session.out << "Kept a photo of " << words.about << (photo.is_private ? ", private" : "") << ": " << words.dots << ", photo " << words.id << "; revision " << revision << ".\n"
              << "Place, time and camera that the file told are not in it.\n";
  return kDone;
}

}  // namespace ohmstead
