#include "backup/fuel_left.h"

#include <algorithm>
#include <array>
#include <numeric>

#include "house/moment.h"

namespace ohmstead {

namespace {

constexpr double kSecondsAnHour = 3600;

std::optional<Range> full_lasts(const Source& source, int watts) {
  const std::array<LoadTime, 1> steady{LoadTime{watts, 1}};
  return hours_on_tank(source, steady);
}

/// Shares of the whole tank that are used up between moments at which nothing changed.
class Tank {
 public:
  Tank(const OutageView& view) : view_(view), source_(view.house.sources[view.gear.source]) {}

  /// From here on things stand so.
  void go_on(const std::string& at, const OutageNow& now) {
    use_until(at);
    since_ = at;
    watts_ = now.running ? drawn_watts(view_.gear, now) : 0;
    running_ = now.running;
  }

  void fill(const std::string& at) {
    used_ = {};
    full_at_ = at;
  }

  FuelLeft left(const std::string& at) {
    use_until(at);
    FuelLeft left{.share = {std::max(0.0, 1 - used_.high), std::max(0.0, 1 - used_.low)}, .hours = {}, .full_at = full_at_};
    const auto lasts = running_ ? full_lasts(source_, watts_) : std::nullopt;
    if (lasts) left.hours = {left.share.low * lasts->low, left.share.high * lasts->high};
    return left;
  }

 private:
  void use_until(const std::string& at) {
    const double hours = static_cast<double>(std::max(0L, seconds_between(since_, at))) / kSecondsAnHour;
    const auto lasts = running_ ? full_lasts(source_, watts_) : std::nullopt;
    if (lasts) used_.low += hours / lasts->high, used_.high += hours / lasts->low;
  }

  const OutageView& view_;
  const Source& source_;
  Range used_;
  std::string since_, full_at_;
  int watts_ = 0;
  bool running_ = false;
};

bool says_full(const OutageEvent& event, Id<Source> source) {
  return event.kind == OutageEventKind::note && event.source == source && event.text.starts_with(outage_log::kRefuelled);
}

}  // namespace

int drawn_watts(const OutageGear& gear, const OutageNow& now) {
  int watts = 0;
  for (const Consumer& one : consumers_now(gear, now))
    if (one.on) watts += std::accumulate(one.draw.running.begin(), one.draw.running.end(), 0);
  return watts;
}

std::optional<FuelLeft> fuel_left(const OutageView& view, const std::string& at) {
  const Source& source = view.house.sources[view.gear.source];
  if (view.now.phase == OutagePhase::none || !full_lasts(source, source.running_watts)) return std::nullopt;
  Tank tank(view);
  const auto lines = outage_lines(view.house);
  for (std::size_t k = 0; k < lines.size(); ++k) {
    const OutageEvent& event = view.house.outage_events[lines[k]];
    if (event.withdrawn) continue;
    tank.go_on(event.at, outage_now(view.house, view.gear, k + 1));
    if (says_full(event, source.id)) tank.fill(event.at);
  }
  return tank.left(at);
}

}  // namespace ohmstead
