// Photos, and at which things each is shown.

#include "ask/photos.h"
#include "web/house_view_parts.h"

namespace ohmstead::web::view_parts {

namespace {

/// Ids of points and panels, and references of handles, whose cards show a photo of this thing.
Json shown_at(const House& house, const ThingRef& about) {
  Json on = Json::array();
  const auto id = [](std::uint64_t value) { return id_text(value); };
  const auto handle = [&](HandleKind kind, std::uint64_t value) { on.push_back(text_of_ref(HandleRef{kind, value})); };
  switch (about.kind) {
    case ThingKind::point: on.push_back(id(about.id)); break;
    case ThingKind::load:
      if (const Load* load = find_row(house, Id<Load>{about.id})) on.push_back(load->point.text());
      break;
    case ThingKind::box:
      for (const Point& point : house.points)
        if (point.box.value == about.id) on.push_back(point.id.text());
      break;
    case ThingKind::panel: on.push_back(id(about.id)), handle(HandleKind::main, about.id); break;
    case ThingKind::breaker: handle(HandleKind::breaker, about.id); break;
    case ThingKind::circuit:
      if (const Circuit* circuit = find_row(house, Id<Circuit>{about.id})) handle(HandleKind::breaker, circuit->breaker.value);
      break;
    case ThingKind::position: handle(HandleKind::position, about.id); break;
    case ThingKind::handle: handle(HandleKind::device, about.id); break;
    case ThingKind::device:
      for (const Handle& one : house.handles)
        if (one.device.value == about.id) handle(HandleKind::device, one.id.value);
      if (const Device* device = find_row(house, Id<Device>{about.id}); device != nullptr && device->at_point) on.push_back(device->at_point.text());
      break;
    case ThingKind::house:
    case ThingKind::floor:
    case ThingKind::room:
    case ThingKind::source:
    case ThingKind::transfer_device: break;
  }
  return on;
}

}  // namespace

void add_photos(const ViewInput& in, Json& view) {
  view["photos"] = Json::array();
  for (const Photo& photo : in.record.house.photos) {
    const PhotoWords words = words_of_photo(in.names, photo);
    view["photos"].push_back({{"id", words.id}, {"words", title_of_photo(words)}, {"on", shown_at(in.record.house, photo.about)}});
  }
}

}  // namespace ohmstead::web::view_parts
