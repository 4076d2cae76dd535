#include "print/papers.h"

#include "house/error.h"
#include "print/cairo_canvas.h"
#include "print/house_papers.h"
#include "rules/plain_words.h"

namespace ohmstead {

namespace {

std::string title_of(PaperKind kind) {
  switch (kind) {
    case PaperKind::plan: return "Outage plan";
    case PaperKind::worksheet: return "Connecting worksheet";
    case PaperKind::wall: return "When the power fails";
    case PaperKind::packet: return "Electrician's packet";
    case PaperKind::floor_plan: return "Floor plan";
    case PaperKind::notes: return "What the household should know";
    case PaperKind::signs: break;
  }
  return "Signs";
}

/// "paper:wall:SOURCE"; papers of the house need no source.
std::string key_of(const House& house, const PaperOptions& options) {
  const std::string key = "paper:" + paper_word(options.kind);
  return needs_plan(options.kind) ? key + ":" + house.sources[options.source].id.text() : key;
}

std::string name_of(PaperKind kind) {
  switch (kind) {
    case PaperKind::plan: return "outage plan";
    case PaperKind::worksheet: return "connecting worksheet";
    case PaperKind::wall: return "sheet for the wall";
    case PaperKind::packet: return "electrician's packet";
    case PaperKind::floor_plan: return "floor plan";
    case PaperKind::notes: return "what the household should know";
    case PaperKind::signs: break;
  }
  return "signs";
}

std::string title_with_house(const House& house, PaperKind kind) {
  constexpr std::size_t kLongest = 60;
  const std::string name = needs_plan(kind) ? house.dwelling.name : label_name(house.dwelling.name, kLongest);  // for strangers: without persons
  return title_of(kind) + (name.empty() ? "" : ": " + name);
}

Location location_for(const PaperOptions& options) { return options.location.value_or(options.kind == PaperKind::signs ? Location::wet : Location::dry); }

std::string code_title(const PaperOptions& options) { return title_of(options.kind) + " " + options.date + " rev " + std::to_string(options.revision); }

void require_options(const Record& record, const PaperOptions& options) {
  require_date(options.date, "a sheet");
  if (options.revision < 0) throw Error(ErrorKind::invalid_input, "The revision of a sheet cannot be negative.");
  if (needs_plan(options.kind) && options.source >= record.house.sources.size()) throw Error(ErrorKind::not_found, "There is no such source; `ohmstead status` lists what is written down.");
}

MadePaper make_paper(const Record& record, const Names& names, const PaperOptions& options) {
  const PaperHead head{title_with_house(record.house, options.kind), "", "", options.date, options.revision, options.check};
  const HousePaperInput of_house{record, options, head, code_title(options), location_for(options)};
  if (options.kind == PaperKind::packet) return make_packet_paper(of_house);
  if (options.kind == PaperKind::floor_plan) return make_floor_plan_paper(of_house);
  if (options.kind == PaperKind::signs) return make_signs_paper(of_house);
  if (options.kind == PaperKind::notes) return make_notes_paper(of_house, names);
  const PlanAnswer answer = kept_plan_for(record, options.source);
  const PaperInput input{record, names, answer, options, head};
  return options.kind == PaperKind::plan ? make_plan_paper(input) : options.kind == PaperKind::worksheet ? make_worksheet_paper(input) : make_wall_paper(input);
}

}  // namespace

std::string paper_word(PaperKind kind) {
  switch (kind) {
    case PaperKind::plan: return "plan";
    case PaperKind::worksheet: return "worksheet";
    case PaperKind::wall: return "wall";
    case PaperKind::packet: return "packet";
    case PaperKind::floor_plan: return "floor-plan";
    case PaperKind::notes: return "notes";
    case PaperKind::signs: break;
  }
  return "signs";
}

PrintedPaper draw_paper(const Record& record, const Names& names, const PaperOptions& options, Canvas& canvas) {
  require_options(record, options);
  MadePaper made = make_paper(record, names, options);
  PrintedPaper printed;
  printed.code_texts = std::move(made.code_texts);
  const bool in_the_dark = options.kind == PaperKind::wall && !options.location;
  for (std::string& text : add_codes(made.paper, code_title(options), made.text, in_the_dark ? code_class_for_the_dark() : code_class(location_for(options)))) printed.code_texts.push_back(std::move(text));
  made.paper.draw(canvas);
  printed.pages = made.paper.pages();
  printed.warnings = made.paper.warnings();
  return printed;
}

PrintedItem paper_item(const Record& record, const Names& names, const PaperOptions& options) {
  require_options(record, options);
  PaperOptions bare = options;
  bare.date = kNoDate, bare.revision = 0, bare.check.clear();
  PrintedItem item{key_of(record.house, options), name_of(options.kind), ""};
  item.code = check_code_of_drawn(record.house, item.key, [&](Canvas& canvas) { draw_paper(record, names, bare, canvas); });
  return item;
}

PrintedPaper print_paper(const Record& record, const Names& names, const PaperOptions& options) {
  require_options(record, options);
  PdfCanvas canvas(paper_text(title_with_house(record.house, options.kind)) + ", " + options.date, options.date);
  PrintedPaper printed = draw_paper(record, names, options, canvas);
  printed.pdf = canvas.finish();
  return printed;
}

std::string paper_picture(const Record& record, const Names& names, const PaperOptions& options, const PictureForm& form, int page) {
  return page_picture(form, page, [&](Canvas& canvas) { (void)draw_paper(record, names, options, canvas); });
}

}  // namespace ohmstead
