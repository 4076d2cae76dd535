#include <algorithm>
#include <nlohmann/json.hpp>
#include <ostream>

#include "ask/photos.h"
#include "ask/printable.h"
#include "cli/exit_code.h"
#include "cli/open_house.h"
#include "cli/run.h"
#include "db/output_file.h"
#include "house/error.h"
#include "json/json_text.h"

namespace ohmstead {

namespace {

std::string id_given(const Arguments& arguments) {
  const std::string id = phrase(arguments.texts("THING"));
  if (id.empty()) throw Error(ErrorKind::invalid_input, "Say which photo is meant, by its name in `ohmstead photo list`.");
  return id;
}

nlohmann::ordered_json json_of(const Photo& photo, const PhotoWords& words, bool here) {
  return {{"id", words.id}, {"about", text_of_ref(photo.about)}, {"thing", words.about}, {"caption", words.caption}, {"at", photo.at}, {"who", words.who},
          {"private", words.is_private}, {"width", photo.width}, {"height", photo.height}, {"bytes", photo.bytes}, {"here", here}};
}

int list(Session& session, const Arguments& arguments) {
  const HouseFile file = open_house(session, Access::read);
  const House house = file.load();
  const Names names(house);
  std::vector<Photo> photos = house.photos;
  if (arguments.has("THING")) {
    const ThingRef about = names.one(phrase(arguments.texts("THING")));
    std::erase_if(photos, [&](const Photo& photo) { return photo.about != about; });
  }
  std::vector<bool> here;
  for (const Photo& photo : photos) here.push_back(file.picture(photo.picture).has_value());
  const Lines lines = words_of_photos(names, photos, here);
  if (session.json) {
    nlohmann::ordered_json json = started_json("photos", lines);
    json["photos"] = nlohmann::ordered_json::array();
    for (std::size_t i = 0; i < photos.size(); ++i) json["photos"].push_back(json_of(photos[i], words_of_photo(names, photos[i]), here[i]));
    session.out << json_text(json);
  } else {
    show(session, lines);
  }
  return photos.empty() ? kDoneButNo : kDone;
}

int save(Session& session, const Arguments& arguments) {
  const HouseFile file = open_house(session, Access::read);
  const House house = file.load();
  const Photo& photo = house.photos[photo_called(house, id_given(arguments))];
  const auto picture = file.picture(photo.picture);
  if (!picture) throw Error(ErrorKind::not_found, "The picture of this photo is not here: the record came without it.");
  const std::string path = arguments.text("--output", "photo-" + photo.id.text() + ".jpg");
  if (path == "-") {
    session.out << *picture;
    return kDone;
  }
  write_output_file(path, *picture);
  session.out << "Wrote " << terminal::printable(path) << ", " << words_of_photo(Names(house), photo).dots << ".\n";
  return kDone;
}

int remove(Session& session, const Arguments& arguments) {
  HouseFile file = open_house(session, Access::change);
  const std::string id = id_given(arguments);
  const House house = file.load();
  const Photo photo = house.photos[photo_called(house, id)];
  const std::string about = words_of_photo(Names(house), photo).about;
  const auto revision = file.change("photo of " + about + " removed", [&](House& next) { std::erase_if(next.photos, [&](const Photo& one) { return one.id == photo.id; }); });
  session.out << "Removed the photo of " << about << "; revision " << revision << ".\n"
              << "Its picture stays in the file, out of sight, until `ohmstead photo forget`.\n";
  return kDone;
}

int forget(Session& session) {
  const DroppedPictures dropped = open_house(session, Access::change).forget_pictures();
  if (dropped.count == 0) session.out << "There is no picture that no photo shows; nothing was dropped.\n";
  else session.out << "Dropped " << dropped.count << (dropped.count == 1 ? " picture" : " pictures") << " that no photo shows any more (" << (dropped.bytes + 999) / 1000 << " kB), for good. Copies that were made before still have them.\n";
  return dropped.count == 0 ? kDoneButNo : kDone;
}

}  // namespace

int run_photo(Session& session, const Arguments& arguments) {
  const std::string what = arguments.text("WHAT");
  if (what == "add") return run_photo_add(session, arguments);
  if (what == "list") return list(session, arguments);
  if (what == "save") return save(session, arguments);
  if (what == "remove") return remove(session, arguments);
  if (what == "forget") return forget(session);
  throw Error(ErrorKind::invalid_input, "What is done with photos is add, list, save, remove or forget, not '" + terminal::printable(what.substr(0, 40)) + "'.");
}

}  // namespace ohmstead
