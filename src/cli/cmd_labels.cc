#include <algorithm>
#include <ostream>

#include "ask/label_items.h"
#include "ask/printable.h"
#include "cli/exit_code.h"
#include "cli/label_options.h"
#include "cli/open_house.h"
#include "cli/print_files.h"
#include "cli/print_log.h"
#include "cli/run.h"
#include "db/output_file.h"

namespace ohmstead {

namespace {

enum class LabelKind { plates, dots, strip, transfer, panels };
OHMSTEAD_WORDS(LabelKind, "plates", "dots", "strip", "transfer", "panels")

constexpr const char* kNoDotCodes = "Number dots have no codes: one that says breaker and panel is 13 mm wide or more and leaves no room for the number. Plates have codes.";

LabelKind kind_named(const std::string& name) {
  if (const auto kind = parse_enum<LabelKind>(name)) return *kind;
  throw Error(ErrorKind::invalid_input, "There are five kinds of labels: plates, dots, strip, transfer and panels, not '" + terminal::printable(name.substr(0, 40)) + "'.");
}

UsualLabel usual_label(LabelKind kind) {
  if (kind == LabelKind::dots) return {13, 13};
  if (kind == LabelKind::panels) return {97.5, 32};
  return {};
}

/// Says which dots are of which panel, where there are several.
void show_panels_of_dots(Session& session, const std::vector<LabelItem>& dots, int start) {
  for (std::size_t i = 0; i < dots.size(); ++i) {
    if (!dots[i].heading) continue;
    std::size_t last = i;
    while (last + 1 < dots.size() && !dots[last + 1].heading) ++last;
    const int place = start + static_cast<int>(i), end = start + static_cast<int>(last);
    const std::string which = end == place + 1 ? "label " + std::to_string(end) : "labels " + std::to_string(place + 1) + " to " + std::to_string(end);
    session.out << terminal::printable(dots[i].name) << ": " << which << ", after its name on label " << place << ".\n";
  }
}

/// What is printed, and what it is called in the answer.
struct Asked {
  LabelKind kind = LabelKind::plates;
  std::optional<Id<Panel>> panel;
  bool of_points = false;  ///< dots: of points, not of breakers
};

struct Making {
  Session& session;
  const Record& record;
  const Names& names;
  const Arguments& arguments;
};

/// What is to be printed: labels, or strips of them.
struct Contents {
  std::vector<LabelItem> items;
  std::vector<LabelStrip> strips;
};

/// `as_of`: at the end of every code.
Contents contents_of(const Asked& asked, const Making& making, const std::string& as_of) {
  const auto& [session, record, names, arguments] = making;
  const LabelRecord from{record, as_of};
  Contents contents;
  switch (asked.kind) {
    case LabelKind::plates: contents.items = plate_labels(from, points_meant(record, names, arguments)); break;
    case LabelKind::dots:
      contents.items = arguments.has("--of") || arguments.has("--room") ? point_dots(from, points_meant(record, names, arguments)) : breaker_dots(from, asked.panel);
      break;
    case LabelKind::strip: contents.strips = breaker_strips(from, asked.panel); break;
    case LabelKind::transfer: contents.strips = transfer_strips(from, arguments.has("--planned") ? std::optional(StripOf::kept_plan) : std::nullopt); break;
    case LabelKind::panels: contents.items = panel_labels(from, asked.panel); break;
  }
  const auto not_meant = [&](const auto& label) { return !session.only.empty() && !session.only.contains(label.key); };
  std::erase_if(contents.items, [&](const LabelItem& item) { return !item.heading && not_meant(item); });
  for (std::size_t i = contents.items.size(); i-- > 0;)  // a heading of nothing
    if (contents.items[i].heading && (i + 1 == contents.items.size() || contents.items[i + 1].heading)) contents.items.erase(contents.items.begin() + static_cast<std::ptrdiff_t>(i));
  std::erase_if(contents.strips, not_meant);
  return contents;
}

void add_texts(const LabelItem& item, std::vector<std::string>& texts) {
  for (const LabelLine& line : item.lines) texts.insert(texts.end(), line.ways.begin(), line.ways.end());
  texts.insert(texts.end(), item.codes.begin(), item.codes.end());
}

/// Each label and strip, with the check code of all that it may say.
std::vector<PrintedItem> printed_items(const House& house, const Contents& undated) {
  std::vector<PrintedItem> items;
  for (const LabelItem& item : undated.items) {
    if (item.heading) continue;
    std::vector<std::string> texts;
    add_texts(item, texts);
    items.push_back({item.key, item.name, check_code(house, item.key, texts)});
  }
  for (const LabelStrip& strip : undated.strips) {
    std::vector<std::string> texts{strip.head};
    for (const LabelCell& cell : strip.cells) add_texts(cell.item, texts);
    items.push_back({strip.key, strip.name, check_code(house, strip.key, texts)});
  }
  return items;
}

LabelPages pages_of(const Asked& asked, Session& session, const Contents& contents, const LabelOptions& options) {
  if (asked.kind == LabelKind::strip || asked.kind == LabelKind::transfer) return lay_out_strips(contents.strips, options);
  LabelPages pages = lay_out_labels(contents.items, options);
  if (asked.kind == LabelKind::dots && !asked.of_points) show_panels_of_dots(session, contents.items, options.stock.start);
  return pages;
}

/// Writes a PDF, or a picture for each page, by the end of the file's name. Returns how many files.
std::size_t write_pages(const LabelPages& pages, const std::string& path, const std::string& title, const LabelOptions& options) {
  if (path.ends_with(".svg") || path.ends_with(".png")) {
    for (std::size_t i = 0; i < pages.pages.size(); ++i)
      write_output_file(page_path(path, static_cast<int>(i)), path.ends_with(".svg") ? label_page_svg(pages.pages[i]) : label_page_png(pages.pages[i], options.stock.dpi));
    return pages.pages.size();
  }
  if (!path.ends_with(".pdf")) throw Error(ErrorKind::invalid_input, "The name of the file must end in .pdf, .svg or .png, not as in '" + terminal::printable(path) + "'.");
  write_output_file(path, labels_pdf(pages, title, options.date));
  return 1;
}

std::string counted(std::size_t n, const char* one, const char* many) { return std::to_string(n) + " " + (n == 1 ? one : many); }

}  // namespace

int run_labels(Session& session, const Arguments& arguments) {
  const std::string which = arguments.text("WHAT");
  Asked asked{kind_named(which), std::nullopt};
  LabelOptions options = label_options(arguments, usual_label(asked.kind));
  options.date = arguments.text("--date", session.now().substr(0, 10));
  require_date(options.date, "labels");
  const std::string path = arguments.text("--output", which + ".pdf");
  if (arguments.has("--test-page")) {
    const std::size_t files = write_pages(lay_out_test_page(options.stock), path, "Test page for labels, " + options.date, options);
    session.out << "Printed a test page to " << terminal::printable(path) << (files > 1 ? " and others" : "") << ". Print it at 100 % on plain paper, and hold it against the labels.\n";
    return kDone;
  }
  HouseFile file = open_house(session, Access::read);
  const Record record = make_record(house_to_print(session, file));
  const Names names(record.house);
  options.revision = file.revision();
  if (arguments.has("--panel")) asked.panel = names.one_panel(arguments.text("--panel"));
  asked.of_points = arguments.has("--of") || arguments.has("--room");
  const Making making{session, record, names, arguments};
  const std::vector<PrintedItem> items = printed_items(record.house, contents_of(asked, making, ""));
  if (only_asked(session, items)) return kDone;
  options.check_code = [&items](const std::string& key) {
    const auto item = std::ranges::find(items, key, &PrintedItem::key);
    return item == items.end() ? std::string() : item->code;
  };
  const LabelPages pages = pages_of(asked, session, contents_of(asked, making, options.date + " rev " + std::to_string(options.revision)), options);
  const std::size_t files = write_pages(pages, path, "Labels (" + which + "), " + options.date, options);
  log_printed(session, file, words_again("labels", arguments), items);
  show_warnings(session, pages.warnings);
  if (asked.kind == LabelKind::dots && arguments.has("--codes")) show_warnings(session, {kNoDotCodes});
  const bool of_strip = asked.kind == LabelKind::strip || asked.kind == LabelKind::transfer;
  session.out << "Printed " << counted(static_cast<std::size_t>(pages.labels), "label", "labels") << " on " << counted(pages.pages.size(), "page", "pages") << " to " << terminal::printable(path)
              << (files > 1 ? " and " + counted(files - 1, "file", "files") + " beside it" : "") << ", " << with_codes(pages.code_texts.size()) << (of_strip && !options.strip_codes ? "; --codes adds them" : "") << ".\n";
  show_code_texts(session, arguments, pages.code_texts);
  return kDone;
}

}  // namespace ohmstead
