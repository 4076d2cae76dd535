#include "print/fit_text.h"
#include "print/floor_plan_drawing.h"
#include "print/symbols.h"

namespace ohmstead {

namespace {

const TextStyle kBody{Face::normal, 10}, kSmall{Face::normal, 9.5};
constexpr std::size_t kFewCircuits = 8;

void add_text(Paper& paper, const std::string& words, const TextStyle& style, double above) { paper.add_whole(paper.paragraph(words, style), above); }

/// What each symbol means, in one row.
PaperBlock symbol_key(const Paper& paper) {
  static constexpr std::pair<PointKind, const char*> kKey[] = {{PointKind::receptacle, "receptacle"}, {PointKind::light, "light"}, {PointKind::appliance, "appliance"},
                                                               {PointKind::alarm, "alarm"}, {PointKind::fan, "fan"}, {PointKind::other, "other"}};
  PaperBlock key;
  key.height_mm = 6, key.above_mm = 3;
  double x = 0;
  for (const auto& [kind, words] : kKey) {
    draw_point_symbol(key, kind, {x, 0.7}, 4.6);
    key.texts.push_back({{x + 6, 0, paper.width_mm() / 6 - 7, 6}, {Face::normal, 9, Align::left, 1}, words});
    x += paper.width_mm() / 6;
  }
  return key;
}

/// Circuits in two columns: swatch, number, what it feeds.
void add_circuits(Paper& paper, const FloorPlan& plan) {
  const double column = paper.width_mm() / 2, label = 17;
  const std::size_t rows = (plan.circuits.size() + 1) / 2;
  for (std::size_t i = 0; i < rows; ++i) {
    PaperBlock row;
    for (const std::size_t c : {i, i + rows}) {
      if (c >= plan.circuits.size()) continue;
      const PlanCircuitMark& mark = plan.circuits[c];
      const double x = c == i ? 0 : column;
      draw_swatch(row, {x, 0.7, 7, 4}, mark.pattern);
      const PaperBlock number = stacked(paper.paragraph(mark.label, {Face::bold, 9.5}, x + 8.2, label - 1));
      put_into(row, number, 0, 0.5);
      put_into(row, stacked(paper.paragraph(mark.description + ", " + mark.amps, {Face::normal, 9}, x + 8.2 + label, column - 8.2 - label - 2)), 0, 0.6);
    }
    row.height_mm = std::max(row.height_mm, 5.4) + 0.5;
    paper.add(std::move(row));
  }
}

void add_key(Paper& paper, const FloorPlan& plan) {
  if (plan.circuits.size() > kFewCircuits) paper.new_page();  // all of it to be seen at once
  paper.heading("Key");
  paper.add(symbol_key(paper));
  add_text(paper, "Beside each symbol stands the pattern of its circuit and the number of its breaker. \"14?\": likely or disputed, not proved; \"?\" with an empty square: nothing established, it can be on any circuit. "
                  "Two circuits can have the same pattern if they share no room: the number decides.", kSmall, 1);
  std::string letters;
  for (const std::string& letter : plan.letters) letters += (letters.empty() ? "" : "; ") + letter;
  if (!letters.empty()) add_text(paper, letters + ". Numbers without a letter are of the first panel.", kSmall, 0.6);
  if (!plan.circuits.empty()) paper.heading("Circuits", 11);
  add_circuits(paper, plan);
}

void add_floor(Paper& paper, const PlanFloor& floor, const FloorPlan& plan, double most_mm) {
  std::vector<const PlanRoom*> details, others;
  PaperBlocks drawn = scaled_floor(paper, floor, plan, details, most_mm);
  for (const PlanRoom& room : floor.rooms)
    if (!room.measured) others.push_back(&room);
  PaperBlocks top = paper.paragraph(floor.name, {Face::bold, 15});
  for (const PaperBlock& part : paper.paragraph(floor.scale, kSmall)) top.push_back(part);
  if (!drawn.empty()) drawn.front().above_mm = 2;
  if (drawn.empty() && !others.empty()) {
    const PaperBlocks boxes = room_boxes(paper, others, plan);
    PaperBlock title = stacked(top);
    title.above_mm = 6, title.with_next = true;
    paper.add(std::move(title));
    for (const PaperBlock& box : boxes) paper.add(box);
    return;
  }
  for (PaperBlock& block : drawn) top.push_back(std::move(block));
  paper.add_whole(top, 6);
  if (!details.empty()) paper.heading("Rooms that are too small for their points at this scale, not to scale", 10.5);
  for (const PaperBlock& box : room_boxes(paper, details, plan)) paper.add(box);
  if (!others.empty()) paper.heading("Rooms that were not measured, not to scale", 10.5);
  for (const PaperBlock& box : room_boxes(paper, others, plan)) paper.add(box);
}

void add_list(Paper& paper, const FloorPlan& plan) {
  paper.new_page();
  paper.heading("Every point, room by room", 15);
  PaperTable table(paper, {{"Room", 0.26}, {"Point", 0.43}, {"Circuit", 0.15}, {"How well known", 0.16}}, 9);
  for (const PlanFloor& floor : plan.floors)
    for (const PlanRoom& room : floor.rooms)
      for (const PlanPoint& point : room.points) {
        const bool first = &point == &room.points.front();
        table.add({first ? room.name : "", point.name, point.label, point.standing}, first);
      }
  table.finish();
}

}  // namespace

MadePaper make_floor_plan_paper(const HousePaperInput& input) {
  const FloorPlan plan = floor_plan(input.record, kPatterns);
  PaperHead head = input.head;
  head.foot = "Computed from the record; test before you touch. Local code and a licensed electrician decide.";
  MadePaper made{Paper(input.options.sheet, head), {}};
  Paper& paper = made.paper;
  bool any = false;
  const std::vector<double> heights = floor_heights(paper, plan);
  for (std::size_t i = 0; i < plan.floors.size(); ++i) {
    add_floor(paper, plan.floors[i], plan, heights[i]);
    for (const PlanRoom& room : plan.floors[i].rooms) any = any || !room.points.empty();
  }
  if (plan.floors.empty()) add_text(paper, "No room is recorded yet.", kBody, 0);
  add_key(paper, plan);
  made.code_texts = add_codes(paper, input.code_title, floor_plan_lines(plan), code_class(input.location));
  if (any) add_list(paper, plan);
  return made;
}

}  // namespace ohmstead
