#include "print/text.h"

#include <cmath>
#include <set>

#include "house/error.h"
#include "print/direction.h"
#include "print/pango_layout.h"

namespace ohmstead {

namespace {

constexpr const char* kFamilies = "Liberation Sans, DejaVu Sans";
constexpr const char* kNarrowFamilies = "Liberation Sans Narrow, DejaVu Sans Condensed";
/// Line height against the font's own: two lines of 12 pt then fit a row of 9.6 mm.
constexpr float kLineSpacing = 0.9F;

/// The family that fontconfig gives when asked for `family`.
std::string family_found(PangoContext* context, const char* family) {
  PangoFontDescription* wanted = pango_font_description_from_string(family);
  PangoFont* font = pango_context_load_font(context, wanted);
  pango_font_description_free(wanted);
  if (font == nullptr) return {};
  PangoFontDescription* found = pango_font_describe(font);
  const char* name = pango_font_description_get_family(found);
  std::string text = name == nullptr ? "" : name;
  pango_font_description_free(found);
  g_object_unref(font);
  return text;
}

bool splits_word(PangoLayout* layout, const std::string& words) {
  int count = 0;
  const PangoLogAttr* attributes = pango_layout_get_log_attrs_readonly(layout, &count);
  const int lines = pango_layout_get_line_count(layout);
  for (int i = 1; i < lines; ++i) {
    const int start = pango_layout_get_line_readonly(layout, i)->start_index;
    const auto at = static_cast<int>(g_utf8_strlen(words.data(), start));
    if (at > 0 && at < count && attributes[at].is_line_break == 0) return true;
  }
  return false;
}

constexpr const char* kUnknownKey = "ohmstead-unknown";

/// Replaces every character that no font can draw with U+FFFD, the replacement character of Unicode: it is seen to be a sign
/// that is missing, where an empty box could be taken for one that is meant. Their number is kept with the layout.
void mark_unknown(PangoLayout* layout) {
  const int unknown = pango_layout_get_unknown_glyphs_count(layout);
  if (unknown == 0) return;
  std::set<gunichar> missing;
  PangoLayoutIter* at = pango_layout_get_iter(layout);
  do {
    const PangoGlyphItem* run = pango_layout_iter_get_run_readonly(at);
    for (int i = 0; run != nullptr && i < run->glyphs->num_glyphs; ++i)
      if (const PangoGlyph glyph = run->glyphs->glyphs[i].glyph; glyph != PANGO_GLYPH_EMPTY && (glyph & PANGO_GLYPH_UNKNOWN_FLAG) != 0) missing.insert(glyph & ~PANGO_GLYPH_UNKNOWN_FLAG);
  } while (pango_layout_iter_next_run(at) != 0);
  pango_layout_iter_free(at);
  std::string marked;
  for (const char* from = pango_layout_get_text(layout); *from != 0; from = g_utf8_next_char(from))
    if (missing.contains(g_utf8_get_char(from))) marked += "\uFFFD";
    else marked += std::string_view(from, static_cast<std::size_t>(g_utf8_next_char(from) - from));
  pango_layout_set_text(layout, marked.data(), static_cast<int>(marked.size()));
  g_object_set_data(G_OBJECT(layout), kUnknownKey, GINT_TO_POINTER(unknown));
}

}  // namespace

ContextHandle make_text_context() {
  ContextHandle context(pango_font_map_create_context(pango_cairo_font_map_get_default()));
  cairo_font_options_t* options = cairo_font_options_create();
  cairo_font_options_set_hint_style(options, CAIRO_HINT_STYLE_NONE);
  cairo_font_options_set_hint_metrics(options, CAIRO_HINT_METRICS_OFF);
  cairo_font_options_set_antialias(options, CAIRO_ANTIALIAS_GRAY);
  pango_cairo_context_set_font_options(context.get(), options);
  cairo_font_options_destroy(options);
  pango_cairo_context_set_resolution(context.get(), 72);
  pango_context_set_round_glyph_positions(context.get(), FALSE);
  pango_context_set_language(context.get(), pango_language_from_string("en"));
  return context;
}

void require_fonts(PangoContext* context) {
  static const bool checked = [context] {
    for (const char* family : {"Liberation Sans", "Liberation Sans Narrow", "DejaVu Sans"})
      if (family_found(context, family) != family)
        throw Error(ErrorKind::output, std::string("The font '") + family +
                                           "' is not installed, so nothing can be printed; install the packages "
                                           "fonts-liberation and fonts-dejavu-core.");
    return true;
  }();
  (void)checked;
}

LayoutHandle make_layout(PangoContext* context, const std::string& words, const TextStyle& style, double width_mm) {
  LayoutHandle layout(pango_layout_new(context));
  PangoFontDescription* font = pango_font_description_new();
  pango_font_description_set_family_static(font, style.face == Face::narrow ? kNarrowFamilies : kFamilies);
  if (style.face == Face::bold) pango_font_description_set_weight(font, PANGO_WEIGHT_BOLD);
  pango_font_description_set_size(font, static_cast<int>(std::lround(style.points * PANGO_SCALE)));
  pango_layout_set_font_description(layout.get(), font);
  pango_font_description_free(font);
  const std::string directed = with_directions(words);
  pango_layout_set_text(layout.get(), directed.data(), static_cast<int>(directed.size()));
  pango_layout_set_single_paragraph_mode(layout.get(), TRUE);
  pango_layout_set_width(layout.get(), static_cast<int>(width_mm / kMmPerPoint * PANGO_SCALE));
  pango_layout_set_wrap(layout.get(), PANGO_WRAP_WORD_CHAR);
  pango_layout_set_height(layout.get(), -style.lines);
  pango_layout_set_ellipsize(layout.get(), PANGO_ELLIPSIZE_END);
  pango_layout_set_line_spacing(layout.get(), kLineSpacing);
  // In a paragraph that runs from right to left pango's left is the right edge; a description stays beside its number.
  const bool from_right = pango_layout_get_direction(layout.get(), 0) == PANGO_DIRECTION_RTL;
  const PangoAlignment left = from_right ? PANGO_ALIGN_RIGHT : PANGO_ALIGN_LEFT;
  pango_layout_set_alignment(layout.get(), style.align == Align::left     ? left
                                           : style.align == Align::center ? PANGO_ALIGN_CENTER
                                           : from_right                   ? PANGO_ALIGN_LEFT
                                                                          : PANGO_ALIGN_RIGHT);
  mark_unknown(layout.get());
  return layout;
}

TextExtent measure_text(const std::string& words, const TextStyle& style, double width_mm) {
  static const ContextHandle context = make_text_context();
  require_fonts(context.get());
  const LayoutHandle layout = make_layout(context.get(), words, style, width_mm);
  PangoRectangle logical;
  pango_layout_get_extents(layout.get(), nullptr, &logical);
  TextExtent extent;
  extent.width_mm = logical.width / double(PANGO_SCALE) * kMmPerPoint;
  extent.height_mm = logical.height / double(PANGO_SCALE) * kMmPerPoint;
  extent.lines = pango_layout_get_line_count(layout.get());
  extent.cut = pango_layout_is_ellipsized(layout.get()) != 0;
  extent.split_word = splits_word(layout.get(), pango_layout_get_text(layout.get()));
  extent.unknown_glyphs = GPOINTER_TO_INT(g_object_get_data(G_OBJECT(layout.get()), kUnknownKey));
  return extent;
}

std::string unknown_glyphs_text(int count) {
  return std::to_string(count) + (count == 1 ? " character" : " characters") +
         " that no installed font can draw; install a font for that script.";
}

namespace {

bool is_digit(char c) { return c >= '0' && c <= '9'; }

/// Is the space at `at` the one in "receptacles 1, 2"? Of three numbers and more none is kept.
bool between_two_numbers(const std::string& words, std::size_t at) {
  std::size_t from = at, to = at + 1;
  if (from < 2 || words[--from] != ',') return false;
  while (from > 0 && is_digit(words[from - 1])) --from;
  while (to < words.size() && is_digit(words[to])) ++to;
  const bool both = from < at - 1 && to > at + 1;
  return both && from > 1 && words[from - 1] == ' ' && words[from - 2] != ',' && (to == words.size() || words[to] == ';' || words[to] == '.');
}

}  // namespace

std::string with_units_kept(const std::string& words) {
  std::string out;
  for (std::size_t i = 0; i < words.size(); ++i) {
    const bool after_digit = i > 0 && is_digit(words[i - 1]);
    bool unit = words[i] == ' ' && between_two_numbers(words, i);
    if (words[i] == ' ' && after_digit)
      for (const std::string_view name : {"V", "A", "W", "kW", "Hz", "mm", "more", "appliances"})
        if (words.compare(i + 1, name.size(), name) == 0) {
          const std::size_t end = i + 1 + name.size();
          unit = unit || end == words.size() || std::string_view(" ,.;)?").find(words[end]) != std::string_view::npos;
        }
    if (unit) out += "\u00A0";
    else out += words[i];
  }
  return out;
}

}  // namespace ohmstead
