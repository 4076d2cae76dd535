#include "tests/print/set_of_sheets.h"

#include "ask/plan_answer.h"
#include "db/paper_copy.h"
#include "print/labels.h"
#include "print/paper_copy_page.h"
#include "print/papers.h"
#include "print/room_directory_page.h"
#include "tests/print/paper_copies.h"
#include "tests/support/traced_sample.h"

namespace ohmstead::test {

namespace {

constexpr const char* kDate = "2026-11-27";
constexpr std::int64_t kRevision = 714;
constexpr const char* kCheck = "7Q2K9D";

SheetOfSet& added(SetOfSheets& set, const std::string& name) {
  set.push_back(std::make_unique<SheetOfSet>());
  set.back()->name = name;
  return *set.back();
}

using MaybeLocation = std::optional<Location>;

void add_cards(const Record& record, MaybeLocation location, SetOfSheets& set) {
  for (const Panel& panel : record.house.panels) {
    SheetOfSet& sheet = added(set, "directory");
    DirectoryOptions options;
    options.location = location, options.panel = panel.id, options.date = kDate, options.revision = kRevision, options.check = kCheck;
    const PrintedDirectory printed = print_directory(record.house, record.feeds, options);
    sheet.pdf = printed.pdf, sheet.code_texts = printed.code_texts;
    draw_directory(record.house, record.feeds, options, sheet.canvas);
  }
}

void add_by_room(const Record& record, SetOfSheets& set) {
  SheetOfSet& sheet = added(set, "by room");
  const RoomDirectory rooms = room_directory(record);
  RoomDirectoryOptions options;
  options.date = kDate, options.revision = kRevision, options.check = kCheck;
  const PrintedRoomDirectory printed = print_room_directory(rooms, options);
  sheet.pdf = printed.pdf, sheet.code_texts = printed.code_texts;
  draw_room_directory(rooms, options, sheet.canvas);
}

LabelOptions on_labels(double width_mm, double height_mm) {
  StockMeasures measures;
  measures.label_width_mm = width_mm, measures.label_height_mm = height_mm;
  LabelOptions options;
  options.stock = sheet_stock(measures), options.date = kDate, options.revision = kRevision;
  options.check_code = [](const std::string&) { return std::string(kCheck); };
  return options;
}

void add_labels(const LabelPages& pages, const std::string& name, SetOfSheets& set) {
  SheetOfSet& sheet = added(set, name);
  sheet.pdf = labels_pdf(pages, name, kDate), sheet.code_texts = pages.code_texts;
  for (const LabelPage& page : pages.pages) draw_label_page(page, sheet.canvas);
}

LabelRecord label_record(const Record& record) { return {record, std::string(kDate) + " rev " + std::to_string(kRevision)}; }

void add_plates(const Record& record, MaybeLocation location, SetOfSheets& set) {
  std::vector<std::size_t> points(record.house.points.size());
  for (std::size_t p = 0; p < points.size(); ++p) points[p] = p;
  LabelOptions options = on_labels(65, 32);
  options.location = location;
  add_labels(lay_out_labels(plate_labels(label_record(record), points), options), "plates", set);
}

void add_other_labels(const Record& record, SetOfSheets& set) {
  const LabelRecord from = label_record(record);
  add_labels(lay_out_labels(breaker_dots(from, std::nullopt), on_labels(13, 13)), "dots", set);
  add_labels(lay_out_labels(panel_labels(from, std::nullopt), on_labels(97.5, 32)), "panels", set);
  LabelOptions strips = on_labels(65, 32);
  strips.strip_codes = true;
  add_labels(lay_out_strips(breaker_strips(from, std::nullopt), strips), "strips", set);
  add_labels(lay_out_strips(transfer_strips(from), strips), "transfer", set);
}

void add_papers(const Record& record, const std::vector<PaperKind>& kinds, MaybeLocation location, SetOfSheets& set) {
  const Names names(record.house);
  for (const PaperKind kind : kinds) {
    SheetOfSet& sheet = added(set, paper_word(kind));
    PaperOptions options;
    options.location = location, options.codes = true, options.kind = kind, options.date = kDate, options.revision = kRevision, options.check = kCheck;
    const PrintedPaper printed = print_paper(record, names, options);
    sheet.pdf = printed.pdf, sheet.code_texts = printed.code_texts;
    draw_paper(record, names, options, sheet.canvas);
  }
}

void add_copy(const Record& record, SetOfSheets& set) {
  SheetOfSet& sheet = added(set, "copy");
  const PaperCopySheet copy = paper_copy_sheet(record.house, CodeSize::usual, Sheet::letter);
  sheet.pdf = print_paper_copy(copy).pdf, sheet.code_texts = copy.pieces;
  draw_paper_copy(copy, sheet.canvas);
}

}  // namespace

const Record& planned_sample() {
  static const Record kRecord = [] {
    Record record = traced_sample();
    const PlanAnswer best = best_plan_for(record, 0);
    record.house.planned = planned_rows(best.backup, best.plan);
    return record;
  }();
  return kRecord;
}

SetOfSheets set_of_sheets(const Record& record) {
  SetOfSheets set;
  add_cards(record, std::nullopt, set);
  add_by_room(record, set);
  add_plates(record, std::nullopt, set);
  add_other_labels(record, set);
  add_papers(record, {PaperKind::plan, PaperKind::worksheet, PaperKind::wall, PaperKind::packet, PaperKind::floor_plan, PaperKind::signs}, std::nullopt, set);
  add_copy(record, set);
  return set;
}

SetOfSheets sheets_without_plan(const Record& record) {
  SetOfSheets set;
  add_cards(record, std::nullopt, set);
  add_papers(record, {PaperKind::packet, PaperKind::floor_plan, PaperKind::signs}, std::nullopt, set);
  if (!record.house.points.empty()) add_by_room(record, set), add_plates(record, std::nullopt, set);
  return set;
}

SetOfSheets sheets_for(const Record& record, Location location) {
  SetOfSheets set;
  add_cards(record, location, set);
  add_plates(record, location, set);
  add_papers(record, {PaperKind::plan, PaperKind::wall}, location, set);
  return set;
}

}  // namespace ohmstead::test
