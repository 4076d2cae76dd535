// What must hold of places, points, devices and evidence.

#include "house/check.h"

#include <algorithm>

#include "house/can_be_seen.h"

namespace ohmstead::house_detail {

void check_row(Report& report, const Floor& floor) {
  check_name(report, floor.name);
  check_range(report, "level", floor.level, -20, 200);
}

void check_row(Report& report, const Room& room) {
  check_name(report, room.name);
  if (!room.floor) report.add("floor", "Room '" + room.name + "' is on no floor.");
  check_range(report, "width_cm", room.width_cm, 0, 100'000);
  check_range(report, "depth_cm", room.depth_cm, 0, 100'000);
  check_range(report, "left_cm", room.left_cm, -100'000, 100'000);
  check_range(report, "top_cm", room.top_cm, -100'000, 100'000);
}

void check_row(Report& report, const Walk& walk) {
  if (!walk.from || !walk.to || walk.from == walk.to) report.add("", "A walking time needs two different rooms.");
  check_range(report, "seconds", walk.seconds, 0, 3600);
}

void check_row(Report& report, const Box& box) {
  if (!box.room) report.add("room", "Box '" + box.name + "' is in no room.");
}

void check_row(Report& report, const Passing& passing) {
  if (!passing.box || !passing.breaker) report.add("", "A conductor passing through needs a box and a breaker.");
  const Breaker* breaker = report.find(passing.breaker);
  check_range(report, "pole", passing.pole, 1, breaker == nullptr ? 3 : breaker->poles);
}

void check_row(Report& report, const Device& device) {
  check_name(report, device.name);
  check_range(report, "poles", device.poles, 1, 3);
  if (report.circular(device))
    report.add("behind", "Device '" + device.name + "' stands behind itself.");
  const int handles = report.handle_count(device.id);
  if (handles == 0) report.add("", "Device '" + device.name + "' has no handle.");
  if (handles > 1 && device.kind != DeviceKind::wall_switch)
    report.add("", "Device '" + device.name + "' has more than one handle; only a group of wall switches may.");
  if (handles > 1 && device.poles > 1)
    report.add("poles", "A group of wall switches ('" + device.name + "') switches one hot conductor.");
  if (const Point* point = report.find(device.at_point); point != nullptr && point->behind != device.id)
    report.add("at_point", "The receptacle that device '" + device.name + "' is in must stand behind it.");
}

void check_row(Report& report, const Handle& handle) {
  if (!handle.device) report.add("device", "A handle belongs to no device.");
}

void check_row(Report& report, const Point& point) {
  check_name(report, point.name);
  if (!point.room) report.add("room", "Point '" + point.name + "' is in no room.");
  check_range(report, "hots", point.hots, 1, 3);
  check_range(report, "rating_amps", point.rating_amps, 0, 100);
  if (point.mate) {
    const Point* mate = report.find(point.mate);
    if (mate != nullptr && (mate->mate != point.id || mate == &point))
      report.add("mate", "The halves of split receptacle '" + point.name + "' do not name each other.");
  }
}

void check_row(Report& report, const DeclaredFeed& feed) {
  if (bool(feed.point) == bool(feed.device)) report.add("", "A declared feed names one point or one device.");
  const Breaker* breaker = report.find(feed.breaker);
  if (breaker == nullptr) return report.add("breaker", "A declared feed names no breaker.");
  check_range(report, "pole", feed.pole, 1, breaker->poles);
  const Point* point = report.find(feed.point);
  const Device* device = report.find(feed.device);
  check_range(report, "hot", feed.hot, 1, point != nullptr ? point->hots : device != nullptr ? device->poles : 3);
  if (point != nullptr && point->behind)
    report.add("point", "Point '" + point->name + "' stands behind a device: declare the feed of the device.");
  if (device != nullptr && device->behind)
    report.add("device", "Device '" + device->name + "' stands behind another: declare the feed of that one.");
}

void check_row(Report& report, const Opened& opened) {
  if (!opened.handle) report.add("handle", "It names a handle that is not in the house.");
  check_range(report, "stands", opened.stands, 0, 2);
  if (!opened.round) report.add("round", "An opened handle belongs to no round.");
}

void check_row(Report& report, const Observation& observation) {
  if (!observation.round || !observation.point) report.add("", "An observation needs a round and a point.");
}

void check_row(Report& report, const Trip& trip) {
  if (!trip.handle) report.add("handle", "A trip is kept, but not of which breaker.");
}

void check_row(Report& report, const DiagnosisLook& look) {
  if (!look.diagnosis) report.add("diagnosis", "A look belongs to no diagnosis.");
  const bool at_point = look.what == LookAt::complaint || look.what == LookAt::point || look.what == LookAt::other_lamp;
  if (at_point && !look.point) report.add("point", "A look of a diagnosis is at a point, but not at which.");
  if (look.what == LookAt::handle && !look.handle) report.add("handle", "A look of a diagnosis is at a handle, but not at which.");
  if (look.what == LookAt::source && !look.source) report.add("source", "A look of a diagnosis is at a source, but not at which.");
  if (!can_be_seen(look.what, look.saw))
    report.add("saw", "A look of a diagnosis at '" + std::string(text_of(look.what)) + "' saw '" + std::string(text_of(look.saw)) + "', which cannot be.");
  check_range(report, "volts", look.volts, 0, 1000);
}

void check_row(Report& report, const Setting& setting) { check_name(report, setting.name); }

void check_row(Report& report, const Photo& photo) {
  const auto is_sum = [](const std::string& text) {
    constexpr std::size_t kDigits = 64;
    return text.size() == kDigits && text.find_first_not_of("0123456789abcdef") == std::string::npos;
  };
  if (!is_sum(photo.picture)) report.add("picture", "A photo names its picture by its SHA-256, 64 hexadecimal digits in small letters.");
  if (!is_sum(photo.small)) report.add("small", "A photo names its smaller picture by its SHA-256, 64 hexadecimal digits in small letters.");
  check_range(report, "width", photo.width, 1, kLongestPictureEdge);
  check_range(report, "height", photo.height, 1, kLongestPictureEdge);
  check_range(report, "bytes", photo.bytes, 1, kMostPictureBytes);
}

void check_photos_together(Report& report) {
  const std::vector<Photo>& photos = report.house().photos;
  report.at(Photo::kTable, kMostPhotos);
  if (photos.size() > kMostPhotos) report.add("", "A house keeps at most " + std::to_string(kMostPhotos) + " photos; remove one before another is added.");
  long sum = 0;
  for (const Photo& photo : photos) sum += std::clamp(photo.bytes, 0, kMostPictureBytes);
  if (sum <= kMostPhotoBytes) return;
  report.at(Photo::kTable, photos.size() - 1);
  report.add("bytes", "The photos of a house are at most " + std::to_string(kMostPhotoBytes / 1'000'000) + " MB together; remove one before another is added.");
}

}  // namespace ohmstead::house_detail
