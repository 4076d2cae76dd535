#include "ask/packet.h"
#include "ask/watts.h"
#include "print/fit_text.h"
#include "print/house_papers.h"
#include "print/one_line_drawing.h"
#include "print/schedule_table.h"
#include "print/symbols.h"

namespace ohmstead {

namespace {

const TextStyle kBody{Face::normal, 10.5}, kBold{Face::bold, 10.5}, kSmall{Face::normal, 9.5};
constexpr double kIndentMm = 5, kFactMm = 34;

void add_text(Paper& paper, const std::string& words, const TextStyle& style = kBody, double left = 0, double above = 1) { paper.add_whole(paper.paragraph(words, style, left), above); }

void add_bullet(Paper& paper, const std::string& words, double left = 0) {
  PaperBlocks blocks = paper.paragraph(words, kBody, left + 4);
  if (blocks.empty()) return;
  blocks.front().texts.insert(blocks.front().texts.begin(), {{left, 0, 3.5, text_height_mm(kBody, 1) + 0.4}, kBold, "\u2022"});
  paper.add_whole(blocks, 0.8);
}

void add_cover(Paper& paper, const Packet& packet) {
  for (const PacketFact& fact : packet.cover) {
    PaperBlock value = stacked(paper.paragraph(fact.value, {Face::normal, 11.5}, kFactMm));
    value.texts.insert(value.texts.begin(), {{0, 0, kFactMm - 2, text_height_mm({Face::bold, 11.5}, 1) + 0.4}, {Face::bold, 11.5, Align::left, 1}, paper_text(fact.name)});
    value.height_mm = std::max(value.height_mm, 5.5);
    value.above_mm = 1.4;
    paper.add(std::move(value));
  }
  paper.heading("What is inside");
  for (std::size_t i = 0; i < packet.inside.size(); ++i) add_text(paper, std::to_string(i + 1) + ".  " + packet.inside[i], kBody, 0, 0.8);
  std::vector<std::string> limits{"What this is, and is not"};
  limits.insert(limits.end(), packet.limits.begin(), packet.limits.end());
  paper.add_whole(paper.framed(limits, kBody.points), 5);
  if (!packet.findings.empty() && packet.findings.front().urgent) {
    std::vector<std::string> urgent{"Look at these first (all findings: part 6)"};
    for (const PacketFinding& finding : packet.findings)
      if (finding.urgent && urgent.size() < 7) urgent.push_back(finding.text);
    paper.add_whole(paper.framed(urgent, kBody.points), 3);
  }
  paper.add(signature_block(paper, {"reviewed by, license", "date", "signature"}));
}

/// What each symbol on the drawings means.
PaperBlock symbol_key(const Paper& paper) {
  static constexpr std::pair<OneLineSymbol, const char*> kKey[] = {{OneLineSymbol::utility, "utility"}, {OneLineSymbol::breaker, "breaker"}, {OneLineSymbol::transfer, "transfer, double throw"},
                                                                   {OneLineSymbol::generator, "generator"}, {OneLineSymbol::battery, "battery inverter"}, {OneLineSymbol::inlet, "inlet and cord"}};
  PaperBlock key;
  key.height_mm = kDeviceMm + 1, key.above_mm = 5;
  const double each = paper.width_mm() / 6;
  double x = 0;
  for (const auto& [symbol, words] : kKey) {
    draw_device(key, symbol, {x + 4, 0});
    key.texts.push_back({{x + 9.6, 0, each - 10.5, kDeviceMm}, {Face::normal, 9, Align::left, 3}, words});
    x += each;
  }
  return key;
}

void add_one_line(Paper& paper, const Packet& packet) {
  paper.new_page();
  paper.heading("1. One-line diagram", 15);
  for (PaperBlock& block : one_line_drawings(paper, packet.line)) paper.add(std::move(block));
  paper.add(symbol_key(paper));
  add_text(paper, "Heavy bar: bus of a panel. Dashed: handles that an interlock never lets be on together. Transfer devices stand on the utility side.", kSmall, 0, 1.5);
  for (const std::string& note : packet.line.notes) add_text(paper, note, kSmall, 0, 0.8);
}

void add_schedules(Paper& paper, const House& house, const Packet& packet) {
  paper.new_page();
  paper.heading("2. Panel schedules", 15);
  add_text(paper, PanelSchedules::kHowCounted, kSmall, 0, 0.5);
  add_text(paper, "A: rating in amperes; P: poles; \"?\": likely or open, not proved; [G3]: carried by position 3 of the transfer device of a generator, [B3] of a battery.", kSmall, 0, 0.5);
  for (const PanelSchedule& schedule : packet.schedules.panels) add_schedule(paper, house, schedule);
  if (packet.schedules.loads.empty()) return;
  paper.heading("Loads that are counted, and where each figure comes from");
  PaperTable table(paper, {{"Load", 0.38}, {"Circuit", 0.2}, {"VA", 0.1, Align::right}, {"Figure", 0.32}}, 9);
  for (const ScheduleLoad& load : packet.schedules.loads)
    table.add({load.name, load.why_not.empty() ? load.circuit : "not counted: " + load.why_not, thousands(load.va), load.basis});
  table.finish();
}

void add_groups(Paper& paper, const std::string& title, const std::vector<PacketGroup>& groups, const std::string& none) {
  paper.heading(title, 15);
  if (groups.empty()) add_text(paper, none);
  for (const PacketGroup& group : groups) {
    PaperBlocks blocks = paper.paragraph(group.head, kBold);
    for (const std::string& item : group.items)
      for (const PaperBlock& part : paper.paragraph(item, kBody, kIndentMm)) blocks.push_back(part);
    paper.add_whole(blocks, 1.8);
  }
}

void add_points(Paper& paper, const Packet& packet) {
  paper.heading("5. Evidence, and what is open", 15);
  static constexpr std::pair<const char*, const char*> kParts[] = {
      {"open", "Open: nothing established"}, {"disputed", "Disputed: what was seen contradicts itself"}, {"likely", "Likely: not enough to rely on"}, {"declared", "Declared: somebody said so"}, {"proved", "Proved"}};
  for (const auto& [standing, title] : kParts) {
    PaperTable table(paper, {{"Room", 0.27}, {"Point", 0.3}, {"Circuit", 0.19}, {"Dead", 0.06, Align::right}, {"Live", 0.06, Align::right}, {"Last look", 0.12, Align::right}}, 9);
    std::size_t count = 0;
    std::string room;
    for (const PacketPoint& point : packet.points) {
      if (point.standing != standing) continue;
      table.add({point.room == room ? "" : point.room, point.point, point.circuit, std::to_string(point.dead), std::to_string(point.live), point.by.empty() ? point.last : "at " + point.by}, point.room != room);
      room = point.room, ++count;
    }
    if (count == 0) continue;
    paper.heading(std::string(title) + " (" + std::to_string(count) + ")", 12);
    table.finish();
  }
  if (packet.points.empty()) add_text(paper, "No point is recorded.");
  add_text(paper, "Dead and live: how many looks found the point so, with breakers off and on as the step asked for; looks that were taken back are left out. What stands behind a GFCI or a switch is known from looks at any point behind it, and may have none of its own: then it says at what.", kSmall, 0, 1);
}

void add_findings(Paper& paper, const Packet& packet) {
  paper.heading("6. Findings", 15);
  if (packet.findings.empty()) add_text(paper, "Nothing was found that stands against the rules that this program knows. It knows few; this is no inspection.");
  for (const PacketFinding& finding : packet.findings)
    add_bullet(paper, finding.text + (finding.rule.empty() ? "" : " [" + finding.rule + "]"));
  add_text(paper, "Editions of the code renumber, and local code decides. How each rule is known stands behind it: secondary is restated elsewhere and read there; from memory is neither.", kSmall, 0, 1.5);
}

/// For a code: the cover in plain sentences, without names of persons.
std::vector<std::string> code_lines(const Packet& packet) {
  std::vector<std::string> lines;
  for (const PacketFact& fact : packet.cover)
    if (fact.name != "House" && fact.name != "Recorded by") lines.push_back(fact.name + " " + fact.value + ".");
  for (const PacketFinding& finding : packet.findings)
    if (finding.urgent && lines.size() < 14) lines.push_back(finding.text);
  return lines;
}

}  // namespace

MadePaper make_packet_paper(const HousePaperInput& input) {
  const Packet made = packet(input.record, input.options.revision, input.options.changes);
  PaperHead head = input.head;
  head.foot = "Computed from the record. Local code and a licensed electrician decide.";
  MadePaper paper{Paper(input.options.sheet, head), code_lines(made)};
  add_cover(paper.paper, made);
  add_one_line(paper.paper, made);
  add_schedules(paper.paper, input.record.house, made);
  add_groups(paper.paper, "3. Shared neutrals (multiwire branch circuits)", made.shared, "None is recorded.");
  add_groups(paper.paper, "4. GFCI chains, and breakers with GFCI or AFCI", made.chains, "None is recorded.");
  add_points(paper.paper, made);
  add_findings(paper.paper, made);
  paper.paper.heading("7. History", 15);
  for (const std::string& line : made.history) add_text(paper.paper, line, kBody, 0, 0.4);
  add_photos(paper.paper, made, input.options.pictures);
  return paper;
}

}  // namespace ohmstead
