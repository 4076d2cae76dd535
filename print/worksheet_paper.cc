#include "ask/worksheet_words.h"
#include "house/index.h"
#include "print/fit_text.h"
#include "print/paper_makers.h"
#include "print/text.h"

namespace ohmstead {

namespace {

constexpr double kBoxMm = 5.5, kNumberMm = 8, kTextMm = 17, kWordsRightMm = 40;  ///< room on the right for a date and a name
const TextStyle kStep{Face::normal, 11}, kDetail{Face::normal, 9.5}, kNumber{Face::bold, 12}, kTick{Face::normal, 9};
constexpr double kCautionPoints = 10;

/// A box to tick; ticked ones are crossed.
void draw_box(PaperBlock& block, bool done) {
  block.frames.push_back({{0.3, 0.3, kBoxMm, kBoxMm}, 0.4});
  if (!done) return;
  block.lines.push_back({{1.3, 1.3, kBoxMm - 0.7, kBoxMm - 0.7}, 0.6});
  block.lines.push_back({{kBoxMm - 0.7, 1.3, 1.3, kBoxMm - 0.7}, 0.6});
}

/// On the right: who did it and when, or a line to write it on.
void draw_signing(PaperBlock& block, const Paper& paper, const WorkStep& step) {
  const double left = paper.width_mm() - kWordsRightMm + 4, width = kWordsRightMm - 4;
  if (step.done) {
    const std::string words = step.at.substr(0, 10) + (step.who.empty() ? "" : " by " + step.who);
    double y = 0.3;
    for (const PaperBlock& part : paper.paragraph(words, {Face::bold, 9.5}, left, width)) {
      put_into(block, part, 0, y);
      y += part.height_mm;
    }
    return;
  }
  block.lines.push_back({{left, 4.8, left + width, 4.8}, 0.2});
  block.texts.push_back({{left, 5.2, width, 4}, kTick, "date, who"});
  block.height_mm = std::max(block.height_mm, 9.4);
}

PaperBlock step_head(const Paper& paper, const WorkStep& step, std::size_t number, const PaperBlock& words) {
  PaperBlock block;
  put_into(block, words, 0, 0.3);
  block.height_mm = std::max(block.height_mm, kBoxMm + 1);
  draw_box(block, step.done);
  block.texts.push_back({{kNumberMm - 0.5, 0, kTextMm - kNumberMm, 6}, kNumber, std::to_string(number) + "."});
  draw_signing(block, paper, step);
  return block;
}

/// The caution comes before the words of the step: it is read before the hand moves.
void add_step(Paper& paper, const PaperInput& input, const Worksheet& sheet, std::size_t at) {
  const WorkStep& step = sheet.steps[at];
  const WorkStepWords words = words_of_step(input.record, input.names, sheet, step);
  PaperBlocks blocks;
  if (!words.cautions.empty()) {
    std::vector<std::string> caution{words.cautions.size() == 1 ? "CAUTION before step " + std::to_string(at + 1) : "CAUTIONS before step " + std::to_string(at + 1)};
    caution.insert(caution.end(), words.cautions.begin(), words.cautions.end());
    for (PaperBlock& frame : paper.framed(caution, kCautionPoints, kTextMm)) blocks.push_back(std::move(frame));
  }
  PaperBlocks text = paper.paragraph(words.text, kStep, kTextMm, paper.width_mm() - kTextMm - kWordsRightMm);
  for (std::size_t i = 0; i < text.size(); ++i) {
    PaperBlock block = i == 0 ? step_head(paper, step, at + 1, text[i]) : text[i];
    block.above_mm = 1.2;
    blocks.push_back(std::move(block));
  }
  for (const std::string& detail : words.details)
    for (PaperBlock& part : paper.paragraph(detail, kDetail, kTextMm + 3, paper.width_mm() - kTextMm - 3)) blocks.push_back(std::move(part));
  paper.add_whole(blocks, 3.2);
}

void add_signatures(Paper& paper) {
  PaperBlocks blocks;
  for (const char* who : {"Connected by", "Checked by"}) {
    PaperBlock block;
    block.above_mm = 3, block.height_mm = 19;
    block.texts.push_back({{0, 0, paper.width_mm(), 6}, {Face::bold, 11}, who});
    const double third = paper.width_mm() / 3;
    const char* captions[] = {"name and license", "date", "signature"};
    for (int i = 0; i < 3; ++i) {
      block.lines.push_back({{i * third, 14, (i + 1) * third - 5, 14}, 0.25});
      block.texts.push_back({{i * third, 14.4, third - 5, 4}, kTick, captions[i]});
    }
    blocks.push_back(std::move(block));
  }
  paper.add_whole(blocks, 6);
}

/// For the code: the steps that move a wire.
std::vector<std::string> code_lines(const PaperInput& input, const Worksheet& sheet) {
  std::vector<std::string> lines;
  for (std::size_t i = 0; i < sheet.steps.size(); ++i)
    if (sheet.steps[i].moves_wire() || sheet.steps[i].kind == WorkKind::keep_on || sheet.steps[i].kind == WorkKind::off_list)
      lines.push_back(std::to_string(i + 1) + ". " + words_of_step(input.record, input.names, sheet, sheet.steps[i]).text);
  return lines;
}

}  // namespace

MadePaper make_worksheet_paper(const PaperInput& input) {
  const Worksheet sheet = worksheet(input.record.house);
  const Source* source = sheet.source ? find_row(input.record.house, sheet.source) : nullptr;
  PaperHead head = input.head;
  head.under = std::string(source == nullptr ? "" : "For " + source->name + ". ") +
               (sheet.wires_move ? "Steps and numbers are those of `ohmstead worksheet`." : "No wire has to be moved for this plan.");
  head.foot = "For whoever is qualified to work inside a panel. Local code and a licensed electrician decide.";
  MadePaper made{Paper(input.options.sheet, head), code_lines(input, sheet)};
  Paper& paper = made.paper;
  if (sheet.wires_move)
    paper.add_whole(paper.framed({"This is for whoever is qualified to work inside a panel. Local code and a licensed electrician decide.",
                                  "Read the caution in the frame above a step before you begin with the step. Tick the box, and write date and name beside it."}, kStep.points));
  std::string part;
  for (std::size_t i = 0; i < sheet.steps.size(); ++i) {
    if (part_of_step(sheet.steps[i]) != part) paper.heading(part = part_of_step(sheet.steps[i]), 14);
    add_step(paper, input, sheet, i);
  }
  add_signatures(paper);
  return made;
}

}  // namespace ohmstead
