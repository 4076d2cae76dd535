#include "ask/plan_sheet.h"
#include "print/fit_text.h"
#include "print/paper_makers.h"
#include "print/plan_drawing.h"

namespace ohmstead {

namespace {

const TextStyle kBody{Face::normal, 10.5}, kBold{Face::bold, 10.5}, kSmall{Face::normal, kLeastPoints};
constexpr double kMostDrawingMm = 150;
constexpr double kIndentMm = 4;

/// Columns of the table, from the left, with the share of the width that each has.
constexpr double kPlace = 0, kLegs = 0.19, kBreaker = 0.28, kWhat = 0.43, kRunning = 0.77, kStarting = 0.88;

PaperBlock cell(const Paper& paper, const std::string& words, const TextStyle& style, double from, double to) {
  PaperBlock made;
  double y = 0;
  for (const PaperBlock& part : paper.paragraph(words, style, from * paper.width_mm() + 1, (to - from) * paper.width_mm() - 2)) {
    put_into(made, part, 0, y);
    y += part.height_mm;
  }
  return made;
}

/// Cells beside each other; the height is that of the highest.
PaperBlock cells(const Paper& paper, const std::vector<std::pair<double, std::string>>& texts, const TextStyle& style, double last) {
  PaperBlock row;
  for (std::size_t i = 0; i < texts.size(); ++i) {
    if (texts[i].second.empty()) continue;
    put_into(row, cell(paper, texts[i].second, style, texts[i].first, i + 1 < texts.size() ? texts[i + 1].first : last), 0, 0.7);
  }
  row.height_mm += 0.7;
  return row;
}

void rule_above(PaperBlock& block, const Paper& paper, double width) {
  block.lines.push_back({{0, 0, paper.width_mm(), 0}, width});
}

void add_row(Paper& paper, const PlanSheetRow& row, bool positions) {
  PaperBlocks blocks;
  for (std::size_t l = 0; l < std::max<std::size_t>(1, row.loads.size()); ++l) {
    const bool first = l == 0, any = l < row.loads.size();
    std::vector<std::pair<double, std::string>> texts{{kPlace, !first ? "" : positions ? row.place : row.breaker}, {kLegs, first ? row.legs : ""}, {kBreaker, first && positions ? row.breaker : ""},
                                                      {kWhat, any ? row.loads[l].words : "nothing wished for"}, {kRunning, any ? row.loads[l].running : ""},
                                                      {kStarting, any ? row.loads[l].starting : ""}};
    PaperBlock block = cells(paper, texts, kBody, 1);
    if (first) rule_above(block, paper, 0.2);
    blocks.push_back(std::move(block));
  }
  paper.add_whole(blocks);
}

void add_lines(Paper& paper, const Lines& lines) {
  for (const Line& line : lines) {
    const bool strong = line.kind == LineKind::danger || line.kind == LineKind::caution;
    PaperBlocks blocks = strong ? paper.framed({line.text}, kBody.points) : paper.paragraph(line.text, kBody);
    for (const std::string& item : line.items)
      for (const PaperBlock& part : paper.paragraph(item, kBody, kIndentMm)) blocks.push_back(part);
    paper.add_whole(blocks, 1.2);
  }
}

/// What must be known first, in one frame; the rest of the doubts under it.
void add_doubts(Paper& paper, const Lines& doubts) {
  Lines others;
  std::vector<std::string> urgent{"Read this first"};
  for (const Line& line : doubts) {
    if (line.kind == LineKind::danger) urgent.push_back(line.text);
    else others.push_back(line);
  }
  if (urgent.size() > 1) paper.add_whole(paper.framed(urgent, kBody.points), 1);
  add_lines(paper, others);
}

void add_table(Paper& paper, const PlanSheet& sheet) {
  paper.heading(sheet.positions ? "What rides where" : "Breakers that stay on in an outage; all others are switched off");
  PaperBlock head = cells(paper, {{kPlace, sheet.positions ? "Position" : "Breaker"}, {kLegs, "Leg"}, {kBreaker, sheet.positions ? "Breaker" : ""}, {kWhat, "What it carries"},
                                  {kRunning, "Runs with"}, {kStarting, "Starts with"}}, kBold, 1);
  head.with_next = true;
  paper.add(std::move(head));
  for (const PlanSheetRow& row : sheet.rows) add_row(paper, row, sheet.positions);
  PaperBlock end;
  end.height_mm = 0.5;
  rule_above(end, paper, 0.2);
  paper.add(std::move(end));
}

}  // namespace

MadePaper make_plan_paper(const PaperInput& input) {
  const PlanSheet sheet = plan_sheet(input.record, input.names, input.answer);
  PaperHead head = input.head;
  head.under = sheet.what + (sheet.wired ? " It is wired so now." : " Not wired yet: see the connecting worksheet.");
  head.foot = "Local code and a licensed electrician decide.";
  MadePaper made{Paper(input.options.sheet, head), text_of(sheet)};
  Paper& paper = made.paper;
  add_doubts(paper, sheet.doubts);
  PaperBlock drawing = plan_drawing(input.record.house, plan_picture(input.answer.backup, input.answer.plan), paper.width_mm(), kMostDrawingMm);
  drawing.above_mm = 2;
  PaperBlocks picture{std::move(drawing)};
  for (const PaperBlock& part : paper.paragraph(kDrawingKey, kSmall)) picture.push_back(part);
  picture[1].above_mm = 1;
  paper.add_whole(picture, 2);
  add_table(paper, sheet);
  paper.heading("In numbers");
  add_lines(paper, sheet.sums);
  if (!sheet.flags.empty()) paper.heading("To know");
  add_lines(paper, sheet.flags);
  if (!sheet.not_served.empty()) paper.heading("Not carried");
  add_lines(paper, sheet.not_served);
  return made;
}

}  // namespace ohmstead
