// Where the words of a line come to stand, from left to right, as pango sets it.
#include "print/direction.h"

#include <gtest/gtest.h>

#include <algorithm>

#include "print/cairo_canvas.h"
#include "print/pango_layout.h"
#include "tests/print/decode.h"

namespace ohmstead {
namespace {

constexpr const char *kKitchen = "\u05DE\u05D8\u05D1\u05D7", *kLarge = "\u05D2\u05D3\u05D5\u05DC", *kArabic = "\u0645\u0637\u0628\u062E";

/// Left edge of the first and right edge of the last of these words in the line.
struct Span {
  double left = 0, right = 0;
};
Span span_of(PangoLayout* layout, const std::string& part) {
  const std::string text = pango_layout_get_text(layout);
  const std::size_t at = text.find(part);
  EXPECT_NE(at, std::string::npos) << part;
  Span span{1e9, -1e9};
  for (std::size_t i = at; i < at + part.size(); ++i) {
    if ((static_cast<unsigned char>(text[i]) & 0xC0U) == 0x80U) continue;
    PangoRectangle place;
    pango_layout_index_to_pos(layout, static_cast<int>(i), &place);
    const double x = place.x, end = place.x + place.width;
    span.left = std::min({span.left, x, end}), span.right = std::max({span.right, x, end});
  }
  return span;
}

/// The parts stand in this order from left to right, none over another.
void expect_order(const std::string& words, const std::vector<std::string>& parts) {
  const ContextHandle context = make_text_context();
  const LayoutHandle layout = make_layout(context.get(), words, {Face::normal, 12}, 300);
  for (std::size_t i = 1; i < parts.size(); ++i)
    EXPECT_LE(span_of(layout.get(), parts[i - 1]).right, span_of(layout.get(), parts[i]).left + 1) << words << ": " << parts[i - 1] << " | " << parts[i];
}

TEST(Direction, a_line_from_right_to_left_ends_at_its_left) {
  for (const std::string name : {kKitchen, kArabic}) {
    expect_order(name + ".", {".", name});
    expect_order(name + " " + kLarge + ", 3.", {".", "3", ",", kLarge, name});
    expect_order(name + " " + kLarge + " IKEA 24.", {".", "IKEA", "24", kLarge, name});
  }
}

TEST(Direction, in_english_each_name_runs_by_itself_and_signs_after_it_stay_behind_it) {
  for (const std::string name : {kKitchen, kArabic}) {
    expect_order("Also off: " + name + ".", {"Also", "off:", name, "."});
    expect_order(name + " receptacles, " + kLarge + ", 20 A.", {name, "receptacles,", kLarge, "20", "."});
    expect_order("14 " + name + ", " + kLarge + "; ceiling fan 2", {"14", name, ",", kLarge, ";", "ceiling fan", "2"});
    expect_order("Lights in " + name + " " + kLarge + " (3)", {"Lights", "in", kLarge, name, "(", "3", ")"});
    expect_order("Room " + name + " 3, 4 points", {"Room", name, "3", ",", "4", "points"});
  }
}

TEST(Direction, text_of_one_direction_is_left_as_it_is) {
  for (const std::string words : {"Kitchen receptacles 1-4.", "K\u00FCche, \u041A\u0443\u0445\u043D\u044F", "", "14"}) EXPECT_EQ(with_directions(words), words);
  const std::string broken = std::string("\xFF ") + kKitchen;
  EXPECT_EQ(with_directions(broken), broken);
}

TEST(Direction, marks_are_not_seen_in_the_text_of_a_pdf_but_as_marks) {
  PdfCanvas canvas("t", "2026-11-27");
  canvas.begin_page(200, 100);
  canvas.text({10, 10, 150, 10}, {Face::normal, 12}, std::string("Also off: ") + kKitchen + ", fan.");
  std::string read = test::text_of_pdf(canvas.finish());
  for (const char* mark : {"\u200E", "\u200F", "\u202A", "\u202B", "\u202C"})
    for (std::size_t at = 0; (at = read.find(mark, at)) != std::string::npos;) read.erase(at, 3);
  std::erase_if(read, [](char c) { return c == ' ' || c == '\n'; });  // the reader parts letters that run from the right
  EXPECT_NE(read.find("Alsooff:"), std::string::npos) << read;
  EXPECT_NE(read.find(kKitchen), std::string::npos) << read;
  EXPECT_NE(read.find("fan."), std::string::npos) << read;
}

}  // namespace
}  // namespace ohmstead
