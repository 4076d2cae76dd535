#include "ask/signs.h"
#include "print/code_class.h"
#include "print/fit_text.h"
#include "print/house_papers.h"
#include "print/symbols.h"
#include "print/text.h"

#include <algorithm>
#include <cstdio>
#include <optional>

namespace ohmstead {

namespace {

constexpr double kCapitalOfPoint = 0.688;  ///< height of a capital of Liberation Sans, in parts of its size
constexpr double kEdgeMm = 4;              ///< from the cut line to what is on the sign
constexpr double kMostCodeMm = 60;         ///< of a sign
constexpr double kBarMm = 14;              ///< of colour beside the signal word
const TextStyle kSmall{Face::normal, 9.5, Align::left, 100};
constexpr const char* kCodeWords = "This sign as plain text: scan with any phone, no network needed.";

double points_for(double capital_mm) { return capital_mm / kMmPerPoint / kCapitalOfPoint; }

std::string mm_text(double mm) {
  char text[32];
  std::snprintf(text, sizeof text, "%.1f mm (%.2f in)", mm, mm / 25.4);
  return text;
}

std::string distance_text(const Sign& sign) { return std::to_string(static_cast<int>(sign.distance_mm / 304.8 + 0.5)) + " ft"; }

bool black_on_it(SignWord word) { return word == SignWord::warning || word == SignWord::caution; }

Tint tint_of(SignWord word) {
  return word == SignWord::danger ? Tint::red : word == SignWord::warning ? Tint::orange : word == SignWord::caution ? Tint::yellow : Tint::blue;
}

/// Signal word with the safety alert symbol; where black could not be read on the colour, the colour stands beside it.
PaperBlock word_panel(const Sign& sign, double width, double word_mm) {
  PaperBlock block;
  const TextStyle style{Face::bold, points_for(word_mm), Align::left, 1};
  const std::string word = signal_word(sign.word);
  const double high = word_mm * 1.9, symbol = sign.word == SignWord::notice ? 0 : word_mm * 1.45, symbol_wide = symbol * 1.1547;
  const double word_wide = measure_text(word, style, width).width_mm + 1, whole = symbol_wide + (symbol > 0 ? 3 : 0) + word_wide, left = std::max(0.0, (width - whole) / 2);
  block.height_mm = high;
  block.frames.push_back({{0, 0, width, high}, 0.7});
  if (black_on_it(sign.word)) {
    block.tints.push_back({{0, 0, width, high}, tint_of(sign.word)});
  } else {
    const double bar = std::min(kBarMm, left - 2);
    if (bar > 2) block.tints.push_back({{0, 0, bar, high}, tint_of(sign.word)}), block.tints.push_back({{width - bar, 0, bar, high}, tint_of(sign.word)});
  }
  if (symbol > 0) draw_alert(block, {left, (high - symbol) / 2}, symbol);
  block.texts.push_back({{left + whole - word_wide, 0, word_wide, high}, style, word});
  return block;
}

/// Words of the sign, as large as `scale` of what its distance asks for, and its code under them.
PaperBlock sign_block(const Paper& paper, const Sign& sign, double scale, const std::optional<SizedCode>& code) {
  const SignLetters letters = letters_for(sign.distance_mm, sign.good_light);
  const double width = paper.width_mm() - 2 * kEdgeMm, points = points_for(letters.message_mm * scale);
  PaperBlock block;
  double y = kEdgeMm;
  const auto put = [&](const PaperBlock& part, double below) { put_into(block, part, kEdgeMm, y), y += part.height_mm + below; };
  if (sign.word != SignWord::none) put(word_panel(sign, width, letters.word_mm * scale), 3);
  const auto say = [&](const std::string& words, Face face) { put(stacked(paper.paragraph(words, {face, points, sign.lines.empty() && sign.to_fill.empty() ? Align::center : Align::left, 100}, 0, width)), points * 0.05); };
  say(sign.title, Face::bold);
  for (const std::string& line : sign.lines) say(line, Face::normal);
  for (const std::string& line : sign.to_fill) {
    say(line, Face::normal);
    y += points * kMmPerPoint * 0.9;
    block.lines.push_back({{kEdgeMm, y, kEdgeMm + width, y}, 0.3});
    y += 2;
  }
  if (code) {
    const double side = code->side_mm, beside = kEdgeMm + side + 2;
    block.codes.push_back({{kEdgeMm, y, side, side}, code->code});
    const PaperBlock caption = stacked(paper.paragraph(kCodeWords, kSmall, beside, width - side - 2));
    put_into(block, caption, 0, y + (side - caption.height_mm) / 2);
    y += side;
  }
  block.height_mm = y + kEdgeMm - 1;
  const Area edge{0, 0, paper.width_mm(), block.height_mm};
  for (const Segment& cut : {Segment{edge.x, edge.y, edge.right(), edge.y}, Segment{edge.x, edge.bottom(), edge.right(), edge.bottom()}, Segment{edge.x, edge.y, edge.x, edge.bottom()},
                             Segment{edge.right(), edge.y, edge.right(), edge.bottom()}})
    block.lines.push_back({cut, 0.2, true});
  return block;
}

/// What is said of a sign under it, outside the line to cut along.
PaperBlocks about(const Paper& paper, const Sign& sign, std::size_t number, double scale) {
  const SignLetters letters = letters_for(sign.distance_mm, sign.good_light);
  PaperBlocks blocks = paper.paragraph("Sign " + std::to_string(number) + ". " + sign.where, {Face::bold, 10});
  const std::string sizes = "Capitals " + mm_text(letters.message_mm * scale) + (sign.word == SignWord::none ? "" : ", signal word " + mm_text(letters.word_mm * scale)) + ", to be read from " + distance_text(sign) +
                            (sign.good_light ? " in good light." : " in bad light.");
  for (const std::string& words : {sign.why, "Rule: " + sign.rule + ". " + sizes})
    for (const PaperBlock& part : paper.paragraph(words, kSmall)) blocks.push_back(part);
  return blocks;
}

void add_sign(Paper& paper, const Sign& sign, std::size_t number, const std::optional<SizedCode>& code) {
  for (double scale = 1;; scale *= 0.9) {
    PaperBlocks blocks = about(paper, sign, number, scale);
    PaperBlock drawn = sign_block(paper, sign, scale, code);
    drawn.above_mm = 1.5;
    const bool fits = stacked(blocks).height_mm + drawn.height_mm + 2 <= paper.room_mm();
    if (!fits && scale > 0.3) continue;
    if (scale < 1) paper.warn("Sign " + std::to_string(number) + " has more words than its letters have room for on a page, and smaller letters; shorten the names in the record.");
    blocks.push_back(std::move(drawn));
    return paper.add_whole(blocks, 7);
  }
}

std::string index_words(const Sign& sign) { return std::string(signal_word(sign.word)) + (sign.word == SignWord::none ? "" : ": ") + sign.title; }

}  // namespace

MadePaper make_signs_paper(const HousePaperInput& input) {
  const SignSet set = signs_for(input.record);
  PaperHead head = input.head;
  head.under = "Cut along the dashed lines. Paper is a pattern: where the sign hangs it must last, and may not be written by hand but for what is to be filled in (NFPA 70 110.21(B), from memory).";
  head.foot = "Signal words as in ANSI Z535.4. Local code and a licensed electrician decide.";
  MadePaper made{Paper(input.options.sheet, head), {}};
  Paper& paper = made.paper;
  paper.heading("Which sign goes where");
  if (set.signs.empty()) paper.add_whole(paper.paragraph("The record asks for no sign yet: no panel that the utility feeds and no source is written down.", {Face::normal, 10.5}), 1);
  PaperTable table(paper, {{"", 0.05}, {"Sign", 0.33}, {"Place", 0.34}, {"Rule", 0.28}}, 9);
  for (std::size_t i = 0; i < set.signs.size(); ++i) table.add({std::to_string(i + 1), index_words(set.signs[i]), set.signs[i].where, set.signs[i].rule});
  if (!set.signs.empty()) table.finish();
  paper.heading("What the record cannot decide");
  for (const std::string& words : set.not_decided) paper.add_whole(paper.paragraph(words, {Face::normal, 10}), 1.2);
  paper.add_whole(paper.paragraph("A sign for DANGER or NOTICE as a maker sells it has white letters on red or blue; here the letters are black, with the color beside them, so that any printer will do.", kSmall), 2);
  const std::string as_of = input.options.date + " rev " + std::to_string(input.options.revision);
  for (std::size_t i = 0; i < set.signs.size(); ++i) {
    std::optional<SizedCode> code;
    if (input.options.codes) {
      made.code_texts.push_back(sign_code_text(set.signs[i], as_of));
      code = sized_code(made.code_texts.back(), code_class(input.location), kMostCodeMm);
      if (!code) made.code_texts.pop_back(), paper.warn("Sign " + std::to_string(i + 1) + " says too much for a code that can be read from it; it has none.");
    }
    add_sign(paper, set.signs[i], i + 1, code);
  }
  return made;
}

}  // namespace ohmstead
