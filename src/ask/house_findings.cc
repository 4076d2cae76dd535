#include "ask/house_findings.h"

#include <algorithm>
#include <functional>
#include <map>

#include "ask/panel_schedule.h"
#include "ask/sentence.h"
#include "backup/figures.h"

namespace ohmstead {

namespace {

using sentence::say;

/// Amperes of the most loaded pole of every breaker, of the loads that are wanted, where amperes simply add up.
std::map<std::uint64_t, double> amps_of(const Record& record, const std::function<bool(const Load&)>& wanted) {
  const VoltageSystem system = record.house.dwelling.system;
  const bool plain = system == VoltageSystem::split_phase_120_240 || system == VoltageSystem::single_230;
  Record part{.house = record.house, .feeds = record.feeds, .graph = {}, .found_behind = {}};
  std::erase_if(part.house.loads, [&](const Load& load) { return !wanted(load); });
  std::map<std::uint64_t, double> amps;
  if (part.house.loads.empty()) return amps;
  for (const PanelSchedule& panel : panel_schedules(part).panels)
    for (const ScheduleEntry& entry : panel.entries) {
      if (!plain && entry.pole_count > 1) continue;
      long long most = 0;
      for (const SchedulePole& pole : entry.poles) most = std::max(most, pole.va);
      amps[entry.words.breaker.value] = static_cast<double>(most) / volts_to_neutral(system);
    }
  return amps;
}

std::vector<BreakerLoad> breaker_loads(const Record& record) {
  auto all = amps_of(record, [](const Load&) { return true; });
  auto continuous = amps_of(record, [](const Load& load) { return load.continuous; });
  auto wanted = amps_of(record, [](const Load& load) { return wanted_use(load) == LoadUse::together; });
  std::vector<BreakerLoad> loads;
  for (const Breaker& breaker : record.house.breakers) {
    const std::uint64_t id = breaker.id.value;
    if (all[id] > 0) loads.push_back({breaker.id, all[id], continuous[id], wanted[id]});
  }
  return loads;
}

void add_contradictions(const Record& record, const std::vector<Contradiction>& contradictions, Findings& made) {
  std::vector<Finding> found;
  for (const Contradiction& contradiction : contradictions)
    for (const Line& line : words_of_contradictions(record.house, {contradiction}))
      for (const std::string& item : line.items)
        found.push_back({"looks_disagree", Severity::danger, {{ThingKind::point, record.house.points[contradiction.point].id.value}}, "What was seen contradicts itself: " + item, "Whoever relies on one of the two may open the wrong breaker.",
                         text_of(contradiction.standing) == "proved" ? "as proved, with looks against it" : std::string("the feed is ") + std::string(text_of(contradiction.standing)), ""});
  const auto end_of_dangers = std::ranges::find_if(made.found, [](const Finding& finding) { return finding.severity != Severity::danger; });
  made.found.insert(end_of_dangers, found.begin(), found.end());
}

std::string severity_head(Severity severity) {
  switch (severity) {
    case Severity::danger: return "DANGER";
    case Severity::fix: return "To be fixed";
    case Severity::tidy: return "To be tidied";
    case Severity::note: break;
  }
  return "To know, and to ask about";
}

}  // namespace

Findings house_findings(const Record& record, const std::vector<Contradiction>& contradictions, std::int64_t revision) {
  Findings made = rule_findings({record.house, record.feeds, breaker_loads(record), revision});
  add_contradictions(record, contradictions, made);
  return made;
}

std::string finding_text(const Finding& finding) {
  return finding.found + " " + finding.why + (finding.sure.empty() || finding.sure == "as recorded" ? "" : " (" + sentence::capital(finding.sure) + ".)");
}

Lines words_of_findings(const Findings& findings) {
  Lines lines;
  if (findings.found.empty()) say(lines, LineKind::answer, "Nothing in this record stands against the rules that were looked at.");
  else say(lines, LineKind::answer, sentence::counted(findings.found.size(), "finding", "findings") + ", most urgent first.");
  for (const Severity severity : {Severity::danger, Severity::fix, Severity::tidy, Severity::note}) {
    std::vector<std::string> items;
    for (const Finding& finding : findings.found)
      if (finding.severity == severity) items.push_back(finding_text(finding) + (finding.citation.empty() ? "" : " [" + finding.citation + "]"));
    if (!items.empty()) say(lines, severity == Severity::danger ? LineKind::danger : LineKind::detail, severity_head(severity) + ":", std::move(items));
  }
  say(lines, LineKind::detail, "Not checked:", findings.not_checked);
  say(lines, LineKind::caution, "This goes by the record; nothing was opened or measured for it. Local code and a licensed electrician decide.");
  return lines;
}

}  // namespace ohmstead
