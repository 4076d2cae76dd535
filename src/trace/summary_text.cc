#include <algorithm>

#include "house/index.h"
#include "trace/behind_text.h"
#include "trace/step_text.h"
#include "trace/unexplained.h"

namespace ohmstead {

namespace {

const char* state_of(const UnitConclusion& unit) {
  if (unit.dead_anyway) return "dead for another reason than a breaker";
  switch (unit.feed.standing) {
    case Standing::disputed: return "disputed: what was seen contradicts itself; check it again";
    case Standing::likely: return "likely, not proved";
    case Standing::declared: return "declared, not checked";
    case Standing::proved:
    case Standing::open: break;
  }
  return "still open";
}

}  // namespace

std::string progress_text(const Progress& progress) {
  std::string text = std::to_string(progress.settled) + " of " + std::to_string(progress.total) + " points settled";
  if (progress.minutes_left > 0)
    text += ", about " + std::to_string(progress.minutes_left) + (progress.minutes_left == 1 ? " minute" : " minutes") + " left";
  return text + ".";
}

std::string progress_bar(const Progress& progress, std::size_t width) {
  const auto settled = static_cast<std::size_t>(std::max(0, progress.settled)), total = static_cast<std::size_t>(std::max(1, progress.total));
  const std::size_t full = std::min(width, settled * width / total);
  return "[" + std::string(full, '#') + std::string(width - full, '-') + "]";
}

std::string seen_text(const House& house, const Observation& seen) {
  static constexpr const char* kSeen[] = {"live", "dead", "not sure", "skipped"};
  std::vector<std::string> off;
  for (const Opened& opened : house.opened)
    if (opened.round == seen.round) off.push_back(handle_name(house, opened.handle));
  std::string text = point_name(house, seen.point) + ": " + kSeen[static_cast<std::size_t>(seen.seen)];
  if (off.empty()) return text + ", with everything on";
  return text + ", with " + off.front() + (off.size() > 1 ? " and " + std::to_string(off.size() - 1) + " more" : "") + " off";
}

std::vector<Id<Observation>> last_looks(const House& house, std::size_t most) {
  std::vector<Id<Observation>> last;
  for (auto seen = house.observations.rbegin(); seen != house.observations.rend() && last.size() < most; ++seen)
    if (!seen->withdrawn) last.push_back(seen->id);
  return last;
}

std::string history_text(const House& house, const Step& step, const Answer& answer) {
  const bool skip = answer.kind == AnswerKind::skip;
  if (step.kind == StepKind::open || step.kind == StepKind::close) {
    const bool named = std::ranges::find(step.handles, answer.handle) != step.handles.end();
    const std::string name = handle_name(house, named ? answer.handle : step.handles.front());
    if (skip) return (step.kind == StepKind::open ? "Skipped " : "Will not close: ") + name;
    const std::string more = step.handles.size() > 1 ? " and " + std::to_string(step.handles.size() - 1) + " more" : "";
    return (step.kind == StepKind::open ? "Opened " : "Closed ") + name + more;
  }
  if (step.kind == StepKind::caution) return "Read the caution";
  if (step.kind == StepKind::put_lamp) return (skip ? "No lamp can stay in " : "Lamp put into ") + point_name(house, step.point);
  if (step.kind == StepKind::take_lamp) return (skip ? "The lamp is gone from " : "Lamp taken from ") + point_name(house, step.point);
  static constexpr const char* kSeen[] = {"done", "seen live", "seen dead", "not sure", "skipped"};
  return point_name(house, step.point) + ": " + kSeen[static_cast<std::size_t>(answer.kind)];
}

Method usual_method(const House& house, const Step& step) {
  const Point* point = find_row(house, step.point);
  if (point != nullptr && (point->kind == PointKind::light || point->kind == PointKind::fan)) return Method::look;
  return step.from_door ? Method::lamp : manner_of(house).method;
}

std::string summary_text(const House& house, const Conclusions& conclusions) {
  if (const HandleRef asked = asked_behind(house)) return behind_summary_text(house, conclusions, asked);
  std::string other;
  int count = 0, wanted = 0;
  const Manner manner = manner_of(house);
  for (std::size_t p = 0; p < house.points.size(); ++p) {
    const UnitConclusion& unit = conclusions.units[conclusions.readings.unit_of_point[p]];
    if (!is_wanted(house, manner, house.points[p])) continue;
    ++wanted;
    if (unit.feed.standing == Standing::proved) ++count;
    else if (unit.unexplained && !unit.dead_anyway) continue;
    else other += "- " + point_name(house, house.points[p].id) + ": " + state_of(unit) + ".\n";
  }
  for (const std::string& line : unexplained_lines(house, conclusions)) other += "- " + line + "\n";
  for (const Breaker& breaker : house.breakers) {
    const std::string name = handle_name(house, {HandleKind::breaker, breaker.id.value});
    const auto is_set = [&](const char* prefix) {
      return std::ranges::find(house.settings, prefix + breaker.id.text(), &Setting::name) != house.settings.end();
    };
    if (count > 0 && seems_spare(house, conclusions, breaker.id)) other += "- " + name + " seems to feed nothing.\n";
    if (is_set(kSkipPrefix)) other += "- " + name + " was skipped.\n";
    if (is_set(kStaysOffPrefix)) other += "- " + name + " would not come on again and counts as off.\n";
    if (breaker.open_rule == OpenRule::never && count < wanted) other += "- " + name + " was left on, as it must never be off.\n";
  }
  std::string text = std::to_string(count) + " of " + std::to_string(wanted) + " points are settled.";
  if (const auto left = house.points.size() - static_cast<std::size_t>(wanted); left > 0)
    text += " " + std::to_string(left) + " more were not asked about.";
  return text + "\n" + other;
}

}  // namespace ohmstead
