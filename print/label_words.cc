#include "print/label_layout.h"

#include <algorithm>
#include <cmath>

#include "print/fit_text.h"
#include "print/label_fit.h"
#include "print/text.h"

namespace ohmstead {

namespace {

using label_fit::Set, label_fit::set_text;

constexpr double kGapMm = 0.5;        ///< between lines, and under the head
constexpr double kColumnGapMm = 1.8;  ///< between head, words, and date of a low label
constexpr double kLowMm = 13;         ///< lower than this words run on in one paragraph
constexpr const char* kWidestCheck = "WWWWWW";

/// Head and words, from comfortable to the least; at last nearer to the right edge, and then with words split.
struct Step {
  double head, words;
  Face face;
  bool tight = false, split = false;
};
constexpr Step kSteps[] = {{24, 14, Face::normal}, {20, 12, Face::normal}, {17, 11, Face::normal}, {14, 10, Face::normal},
                           {14, 9, Face::normal},  {12, 9, Face::normal},  {12, 10, Face::narrow}, {12, 9, Face::narrow},
                           {12, 9, Face::narrow, true},  {12, 9, Face::narrow, true, true}};
constexpr double kAloneSteps[] = {40, 32, 26, 22, 18, 15, 12, 10.5, 9};

/// Which way of each line is used; -1: it is left out.
using Choice = std::vector<int>;

/// Says less: the least important line that can be said shorter or be left out.
bool say_less(const LabelItem& item, Choice& choice) {
  for (std::size_t i = item.lines.size(); i-- > 0;) {
    const LabelLine& line = item.lines[i];
    if (choice[i] < 0) continue;
    if (choice[i] + 1 < static_cast<int>(line.ways.size())) return ++choice[i], true;
    if (!line.required) return choice[i] = -1, true;
  }
  return false;
}

std::string paragraph(const std::vector<std::string>& lines) {
  std::string text;
  for (const std::string& line : lines) text += (text.empty() ? "" : ". ") + line;
  return text.empty() ? text : text + ".";
}

/// Date, revision and check code: one line where the width allows, else one under the other.
struct Small {
  std::vector<PlacedText> texts;
  double width = 0, height = 0;
};
Small small_print(const LabelLook& look, double width, bool column) {
  Small small;
  if (look.small.empty()) return small;
  const TextStyle style{Face::normal, kSmallPoints, Align::left, 1};
  const double line = label_fit::line_mm(style), check_wide = label_fit::width_mm(kWidestCheck, {Face::bold, kSmallPoints}) + 0.3;
  std::vector<std::string> lines{look.small[0]};
  for (std::size_t i = 1; i < look.small.size(); ++i) lines[0] += "  " + look.small[i];
  const bool one = !column && label_fit::width_mm(lines[0], style) + 1 + check_wide <= width;
  if (!one) lines = look.small;
  double y = 0;
  for (const std::string& text : lines) {
    const double wide = label_fit::width_mm(text, style) + 0.3;
    small.texts.push_back({{0, y, wide, line}, style, text});
    small.width = std::max(small.width, wide);
    y += line;
  }
  const TextStyle of_check{Face::bold, kSmallPoints, Align::left, 1};
  if (one) small.texts.push_back({{width - check_wide, 0, check_wide, line}, of_check, look.check});
  else small.texts.push_back({{0, y, check_wide, line}, of_check, look.check}), small.width = std::max(small.width, check_wide), y += line;
  small.height = y;
  return small;
}

class Fitter {
 public:
  Fitter(const LabelItem& item, const LabelLook& look, double code_mm) : item_(item), look_(look), code_mm_(code_mm) {}
  LabelFace fit();

 private:
  [[nodiscard]] std::vector<std::string> words(const Choice& choice) const;
  bool fit_choice(const Choice& choice, LabelFace& face) const;
  bool fit_step(const std::vector<std::string>& lines, const Step& step, LabelFace& face) const;
  bool stacked(const std::vector<std::string>& lines, const Step& step, LabelFace& face) const;
  bool beside(const std::vector<std::string>& lines, const Step& step, LabelFace& face) const;
  bool alone(const std::string& words, LabelFace& face) const;
  bool heading(const std::string& words, LabelFace& face) const;
  void put(LabelFace& face, const Set& set, double x, double y, double width) const;
  void put_small(LabelFace& face, const Small& small, double x, double y) const;
  [[nodiscard]] double inner_width(bool tight = false) const {
    return look_.width_mm - look_.margin_mm - (code_mm_ > 0 ? code_mm_ : tight ? std::min(look_.margin_mm, look_.tight_right_mm) : look_.margin_mm);
  }
  [[nodiscard]] double inner_height() const { return look_.height_mm - 2 * look_.margin_mm; }
  [[nodiscard]] double head_points(const Step& step) const { return std::min(step.head, look_.most_head_points); }

  const LabelItem& item_;
  const LabelLook& look_;
  double code_mm_;
};

std::vector<std::string> Fitter::words(const Choice& choice) const {
  std::vector<std::string> lines;
  for (std::size_t i = 0; i < choice.size(); ++i)
    if (choice[i] >= 0) lines.push_back(with_units_kept(item_.lines[i].ways[static_cast<std::size_t>(choice[i])]));
  return lines;
}

void Fitter::put(LabelFace& face, const Set& set, double x, double y, double width) const {
  TextStyle style = set.style;
  style.align = look_.align;
  face.texts.push_back({{x, y, width, set.height_mm}, style, set.words});
  face.unknown_glyphs += set.unknown_glyphs;
  face.right_mm = std::max(face.right_mm, x + std::min(set.width_mm, width));
}

void Fitter::put_small(LabelFace& face, const Small& small, double x, double y) const {
  for (PlacedText text : small.texts) {
    text.area.x += x, text.area.y += y;
    face.right_mm = std::max(face.right_mm, text.area.right());
    if (!text.words.empty()) face.texts.push_back(std::move(text));
  }
}

/// As large as the name fits in any number of lines.
bool Fitter::heading(const std::string& words, LabelFace& face) const {
  static constexpr std::pair<Face, double> kStyles[] = {{Face::bold, 12}, {Face::bold, 10.5}, {Face::bold, kLeastPoints}, {Face::narrow, 10.5}, {Face::narrow, kLeastPoints}};
  for (const auto& [style, points] : kStyles) {
    const auto set = set_text(words, {style, points}, {inner_width(), inner_height()});
    if (!set) continue;
    put(face, *set, look_.margin_mm, look_.margin_mm + (inner_height() - set->height_mm) / 2, inner_width());
    return true;
  }
  return false;
}

/// One line where that is large; "13-15" is better read in two large lines than in a small one.
bool Fitter::alone(const std::string& words, LabelFace& face) const {
  constexpr double kLargePoints = 15;
  std::string with_breaks = words;  // no line may end between a hyphen and a digit, unless it is told so
  if (const std::size_t hyphen = words.find('-'); hyphen != std::string::npos) with_breaks.insert(hyphen + 1, "\u200B");
  for (const auto& [most_lines, least] : {std::pair{1, kLargePoints}, std::pair{2, kLeastPoints}})
    for (const double points : kAloneSteps) {
      if (points > look_.most_head_points || points < least) continue;
      const auto set = set_text(most_lines > 1 ? with_breaks : words, {Face::bold, points}, {inner_width(), inner_height()});
      if (!set || set->lines > most_lines) continue;
      put(face, *set, look_.margin_mm, look_.margin_mm + (inner_height() - set->height_mm) / 2, inner_width());
      return true;
    }
  return false;
}

bool Fitter::stacked(const std::vector<std::string>& lines, const Step& step, LabelFace& face) const {
  const double width = inner_width(step.tight);
  const Small small = small_print(look_, width, false);
  const double room = inner_height() - small.height;
  std::vector<Set> sets;
  double height = 0, least = -kGapMm;
  for (const std::string& line : lines)
    least += kGapMm + label_fit::least_height_mm(line, &line == &lines.front() ? TextStyle{Face::bold, head_points(step)} : TextStyle{step.face, step.words}, width);
  if (least > room) return false;
  for (const std::string& line : lines) {
    const bool head = &line == &lines.front();
    const TextStyle style = head ? TextStyle{Face::bold, head_points(step)} : TextStyle{step.face, step.words};
    if (!head) height += kGapMm;
    auto set = set_text(line, style, {width, room - height, step.split && !head});
    if (!set) return false;
    height += set->height_mm;
    sets.push_back(std::move(*set));
  }
  double y = look_.margin_mm + (look_.in_middle ? (room - height) / 2 : 0);
  for (const Set& set : sets) {
    put(face, set, look_.margin_mm, y, width);
    y += set.height_mm + kGapMm;
  }
  put_small(face, small, look_.margin_mm, look_.margin_mm + room);
  return true;
}

bool Fitter::beside(const std::vector<std::string>& lines, const Step& step, LabelFace& face) const {
  Small small = small_print(look_, 0, true);
  if (small.height > inner_height()) small = {};  // on the lowest tapes there is no room for it
  const double small_wide = small.texts.empty() ? 0 : small.width + kColumnGapMm;
  const auto head = set_text(lines[0], {Face::bold, head_points(step)}, {look_.head_width_mm > 0 ? look_.head_width_mm : inner_width(step.tight) - small_wide, inner_height()});
  if (!head || (head->lines > 1 && look_.head_width_mm <= 0)) return false;
  const double head_wide = look_.head_width_mm > 0 ? look_.head_width_mm : head->width_mm + 0.3;
  const double x = look_.margin_mm + head_wide + kColumnGapMm, width = inner_width(step.tight) - head_wide - kColumnGapMm - small_wide;
  std::vector<std::string> rest{lines.begin() + 1, lines.end()};
  if (inner_height() < kLowMm && !rest.empty()) rest = {paragraph(rest)};
  std::vector<Set> sets;
  double height = 0;
  for (const std::string& text : rest) {
    if (!sets.empty()) height += kGapMm;
    auto set = set_text(text, {step.face, step.words}, {width, inner_height() - height, step.split});
    if (width < 8 || !set) return false;
    height += set->height_mm;
    sets.push_back(std::move(*set));
  }
  put(face, *head, look_.margin_mm, look_.margin_mm + (inner_height() - head->height_mm) / 2, head_wide);
  double y = look_.margin_mm + (inner_height() - height) / 2;
  for (const Set& set : sets) {
    put(face, set, x, y, width);
    y += set.height_mm + kGapMm;
  }
  put_small(face, small, face.right_mm + kColumnGapMm, look_.margin_mm + (inner_height() - small.height) / 2);
  return true;
}

bool Fitter::fit_step(const std::vector<std::string>& lines, const Step& step, LabelFace& face) const {
  face.texts.clear(), face.unknown_glyphs = 0, face.right_mm = 0;
  return look_.beside ? beside(lines, step, face) : stacked(lines, step, face);
}

bool Fitter::fit_choice(const Choice& choice, LabelFace& face) const {
  const std::vector<std::string> lines = words(choice);
  if (item_.heading) return heading(lines[0], face);
  if (item_.lines.size() == 1 && look_.small.empty()) return alone(lines[0], face);
  const bool none_fits = std::ranges::none_of(kSteps, [&](const Step& step) { return step.head <= look_.most_head_points + 0.01; });
  for (const Step& step : kSteps) {
    if (step.tight && !step.split && look_.tight_right_mm >= look_.margin_mm) continue;  // as the step before
    if (step.head <= look_.most_head_points + 0.01 || (none_fits && step.split))
      if (fit_step(lines, step, face)) return true;
  }
  return false;
}

LabelFace Fitter::fit() {
  LabelFace face;
  if (inner_width() <= 0 || inner_height() <= 0) return face;
  Choice choice(item_.lines.size(), 0);
  do face.fits = fit_choice(choice, face);
  while (!face.fits && say_less(item_, choice));
  if (!face.fits) return {};
  for (const int way : choice) face.left_out += way < 0, face.shortened += std::max(way, 0);
  return face;
}

}  // namespace

LabelFace fit_words(const LabelItem& item, const LabelLook& look, double code_mm) { return Fitter(item, look, code_mm).fit(); }

}  // namespace ohmstead
