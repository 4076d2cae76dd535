#include "sample-house/truth.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <set>
#include <string>

#include "house/error.h"
#include "house/index.h"
#include "house/numbering.h"

namespace ohmstead {

namespace {

constexpr std::string_view kHeading = "room,point,hot,panel,breaker,pole,dead_at_start,stray";
constexpr std::size_t kFields = 8;
using Fields = std::array<std::string_view, kFields>;

class Reader {
 public:
  explicit Reader(const House& house) : house_(house) {
    truth_.feeds = {std::vector<Feed>(house.points.size()), std::vector<Feed>(house.devices.size())};
    truth_.at_start.assign(house.points.size(), AtStart::live);
    truth_.stray.assign(house.points.size(), false);
  }

  Truth read(std::string_view csv) {
    while (!csv.empty()) {
      const std::size_t end = std::min(csv.find('\n'), csv.size());
      std::string_view text = csv.substr(0, end);
      csv.remove_prefix(std::min(end + 1, csv.size()));
      if (text.ends_with('\r')) text.remove_suffix(1);
      if (++line_ == 1 && text != kHeading) refuse("the heading must be '" + std::string(kHeading) + "'.");
      if (line_ > 1 && !text.empty()) take(fields_of(text));
    }
    require_every_hot();
    for (Feed& feed : truth_.feeds.of_point) std::ranges::sort(feed.taps);
    give_to_devices();
    return truth_;
  }

 private:
  [[noreturn]] void refuse(const std::string& what) const {
    throw Error(ErrorKind::invalid_input, "truth, line " + std::to_string(line_) + ": " + what);
  }

  [[nodiscard]] Fields fields_of(std::string_view text) const {
    Fields fields;
    if (static_cast<std::size_t>(std::ranges::count(text, ',')) != kFields - 1)
      refuse("there must be " + std::to_string(kFields) + " fields with commas between them.");
    for (std::string_view& field : fields) {
      const std::size_t end = std::min(text.find(','), text.size());
      field = text.substr(0, end);
      text.remove_prefix(std::min(end + 1, text.size()));
    }
    return fields;
  }

  [[nodiscard]] int number(std::string_view text, int low, int high) const {
    int value = 0;
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
    if (error != std::errc{} || end != text.data() + text.size() || value < low || value > high)
      refuse("'" + std::string(text) + "' must be a number from " + std::to_string(low) + " to " + std::to_string(high) + ".");
    return value;
  }

  [[nodiscard]] std::size_t point_named(std::string_view room, std::string_view name) const {
    for (std::size_t i = 0; i < house_.points.size(); ++i) {
      const Room* in = find_row(house_, house_.points[i].room);
      if (in != nullptr && in->name == room && house_.points[i].name == name) return i;
    }
    refuse("there is no point '" + std::string(name) + "' in '" + std::string(room) + "'.");
  }

  [[nodiscard]] const Breaker& breaker_named(std::string_view panel_name, std::string_view number_text) const {
    for (const Breaker& breaker : house_.breakers) {
      const Panel* panel = find_row(house_, breaker.panel);
      if (panel != nullptr && panel->name == panel_name && breaker_number(*panel, breaker) == number_text) return breaker;
    }
    refuse("there is no breaker '" + std::string(number_text) + "' in panel '" + std::string(panel_name) + "'.");
  }

  void take(const Fields& fields) {
    const std::size_t point = point_named(fields[0], fields[1]);
    const int hot = number(fields[2], 1, house_.points[point].hots);
    if (!seen_.insert({point, hot}).second) refuse("hot " + std::to_string(hot) + " of this point is given twice.");
    truth_.at_start[point] = static_cast<AtStart>(number(fields[6], 0, 2));
    truth_.stray[point] = number(fields[7], 0, 1) == 1;
    const bool fed = !(fields[3].empty() && fields[4].empty() && fields[5].empty());
    if (fed == (truth_.at_start[point] == AtStart::dead_for_good))
      refuse("a point has a breaker, or it is dead for good (2), and not both.");
    if (!fed) return;
    const Breaker& breaker = breaker_named(fields[3], fields[4]);
    Feed& feed = truth_.feeds.of_point[point];
    feed.standing = Standing::proved;
    feed.belief = 1;
    feed.taps.push_back({hot, breaker.id, number(fields[5], 1, breaker.poles)});
  }

  void require_every_hot() const {
    for (std::size_t i = 0; i < house_.points.size(); ++i)
      for (int hot = 1; hot <= house_.points[i].hots; ++hot)
        if (!seen_.contains({i, hot}))
          refuse("the file ends and hot " + std::to_string(hot) + " of point '" + house_.points[i].name + "' is missing.");
  }

  void give_to_devices() {
    const Index<Device> device_at(house_.devices);
    for (std::size_t i = 0; i < house_.points.size(); ++i) {
      const Id<Device> outer = outermost_device(house_, house_.points[i].behind);
      if (!outer || truth_.feeds.of_point[i].taps.empty()) continue;
      Feed& feed = truth_.feeds.of_device[static_cast<std::size_t>(device_at.at(outer))];
      if (!feed.taps.empty() && feed.taps != truth_.feeds.of_point[i].taps)
        refuse("points behind device '" + row(house_, outer).name + "' are on different breakers.");
      feed = truth_.feeds.of_point[i];
    }
    for (std::size_t i = 0; i < house_.devices.size(); ++i) {
      const long outer = device_at.at(outermost_device(house_, house_.devices[i].id));
      if (outer >= 0) truth_.feeds.of_device[i] = truth_.feeds.of_device[static_cast<std::size_t>(outer)];
    }
  }

  const House& house_;
  Truth truth_;
  std::set<std::pair<std::size_t, int>> seen_;
  std::size_t line_ = 0;
};

}  // namespace

Truth read_truth(const House& house, std::string_view csv) { return Reader(house).read(csv); }

Feeds truth_feeds(const House& house, std::string_view csv) { return read_truth(house, csv).feeds; }

}  // namespace ohmstead
