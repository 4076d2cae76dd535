#include "print/calculation_paper.h"

#include "print/cairo_canvas.h"
#include "print/house_papers.h"

namespace ohmstead {

namespace {

const TextStyle kBody{Face::normal, 10.5}, kResult{Face::bold, 12};

void add_text(Paper& paper, const std::string& words, const TextStyle& style, double above) { paper.add_whole(paper.paragraph(words, style), above); }

void add_steps(Paper& paper, const Calculation& calculation) {
  PaperTable table(paper, {{"Step", 0.26}, {"How", 0.34}, {"Result", 0.15, Align::right}, {"Rule, and how its number is known", 0.25}});
  for (const WorkedStep& step : calculation.steps) table.add({step.what, step.how, value_text(step), step.rule});
  table.finish();
}

/// What the words have beside the answers, the steps and the notes: what was assumed, and what is missing.
void add_lists(Paper& paper, const CalculationPaper& input) {
  for (const Line& line : input.words) {
    if (line.kind != LineKind::detail || line.items.empty() || line.text == input.calculation.title + ":") continue;
    paper.heading(line.text.substr(0, line.text.find_last_not_of(':') + 1));
    for (const std::string& item : line.items) add_text(paper, item, kBody, 0.8);
  }
}

}  // namespace

PrintedPaper draw_calculation(const CalculationPaper& input, Canvas& canvas) {
  require_date(input.date, "date");
  PaperHead head;
  head.title = input.calculation.title, head.under = input.house.empty() ? "" : "House: " + input.house;
  head.foot = kLocalCodeDecides, head.date = input.date, head.revision = kNoRevision;
  Paper paper(input.sheet, head);
  for (const Line& line : input.words)
    if (line.kind == LineKind::answer) add_text(paper, line.text, kResult, 2);
  paper.heading("Step by step");
  add_steps(paper, input.calculation);
  paper.heading("Notes");
  for (std::size_t n = 0; n + 1 < input.calculation.notes.size(); ++n) add_text(paper, input.calculation.notes[n], kBody, 0.8);  // the last is at the foot
  add_lists(paper, input);
  paper.add(signature_block(paper, {"checked by, license", "date", "signature"}));
  paper.draw(canvas);
  PrintedPaper printed;
  printed.pages = paper.pages(), printed.warnings = paper.warnings();
  return printed;
}

PrintedPaper print_calculation(const CalculationPaper& input) {
  PdfCanvas canvas(paper_text(input.calculation.title) + ", " + input.date, input.date);
  PrintedPaper printed = draw_calculation(input, canvas);
  printed.pdf = canvas.finish();
  return printed;
}

}  // namespace ohmstead
