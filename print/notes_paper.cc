// What the household should know, in print that is read at arm's length by flashlight.

#include "ask/household.h"
#include "print/house_papers.h"
#include "print/text.h"

namespace ohmstead {

namespace {

const TextStyle kHead{Face::bold, 14, Align::left, 100}, kText{Face::normal, 14, Align::left, 100}, kSmall{Face::normal, 10, Align::left, 100};
constexpr double kBetweenMm = 4, kUnderHeadMm = 0.5;

/// A note as one block: its head, and under it its words.
void add_item(Paper& paper, const HouseholdItem& item) {
  PaperBlocks blocks;
  if (!item.head.empty()) blocks = paper.paragraph(item.head, kHead);
  for (PaperBlock block : paper.paragraph(item.text, kText)) {
    block.above_mm = blocks.empty() ? 0 : kUnderHeadMm;
    blocks.push_back(std::move(block));
  }
  paper.add_whole(blocks, kBetweenMm);
}

}  // namespace

MadePaper make_notes_paper(const HousePaperInput& input, const Names& names) {
  const HouseholdSheet sheet = household_sheet(input.record.house, names);
  PaperHead head = input.head;
  head.under = "Shut-offs, where things are kept, whom to call. Hang it where everybody finds it.";
  head.foot = "You smell gas: leave, touch no switch, call from outside.";
  MadePaper made{Paper(input.options.sheet, head), text_of(sheet)};
  Paper& paper = made.paper;
  if (sheet.facts.empty() && sheet.things.empty())
    paper.add_whole(paper.paragraph("Nothing is noted yet. `ohmstead note add 'Gas shut-off: where it is'` keeps it for the next print.", kText), 1);
  for (const HouseholdItem& item : sheet.facts) add_item(paper, item);
  if (!sheet.things.empty()) paper.heading("About things in the house", 17);
  for (const HouseholdItem& item : sheet.things) add_item(paper, item);
  if (sheet.left_out > 0)
    paper.add_whole(
        paper.paragraph(std::to_string(sheet.left_out) + (sheet.left_out == 1 ? " private note is" : " private notes are") + " not on this sheet.",
                        kSmall),
        kBetweenMm);
  return made;
}

}  // namespace ohmstead
