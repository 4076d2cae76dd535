#include <algorithm>
#include <cmath>

#include "ask/printable.h"
#include "print/code_sheet.h"
#include "print/fit_text.h"
#include "print/paper_makers.h"

namespace ohmstead {

namespace {

constexpr double kModuleMm = 0.4233;  ///< five dots at 300 dpi
constexpr double kCaptionMm = 5, kCodesGapMm = 3;
constexpr const char* kIntro = "The same as plain text: scan with any phone, no network needed.";

/// Lines put together to pieces of at most `most` bytes. A line that is longer alone is cut between words.
std::vector<std::string> pieces_of(const std::vector<std::string>& lines, std::size_t most) {
  std::vector<std::string> pieces;
  const auto append = [&](const std::string& line) {
    if (pieces.empty() || pieces.back().size() + line.size() + 1 > most) pieces.push_back(line);
    else pieces.back() += "\n" + line;
  };
  for (const std::string& raw : lines) {
    std::string line = terminal::printable(raw);
    while (line.size() > most) {
      std::size_t cut = line.rfind(' ', most);
      if (cut == std::string::npos || cut == 0) cut = most;
      while (cut > 1 && (static_cast<unsigned char>(line[cut]) & 0xC0U) == 0x80U) --cut;
      append(line.substr(0, cut));
      line.erase(0, line[cut] == ' ' ? cut + 1 : cut);
    }
    if (!line.empty()) append(line);
  }
  return pieces;
}

}  // namespace

std::vector<std::string> add_codes(Paper& paper, const std::string& title, const std::vector<std::string>& lines) {
  std::vector<std::string> texts = pieces_of(lines, kMostCodeBytes - title.size() - std::string_view(", 12 of 12.\n").size());
  if (texts.empty() || texts.size() > kMostPaperCodes) return {};
  const std::string of = " of " + std::to_string(texts.size());
  for (std::size_t i = 0; i < texts.size(); ++i) texts[i] = title + (texts.size() == 1 ? "" : ", " + std::to_string(i + 1) + of) + ".\n" + texts[i];
  paper.heading(kIntro, 10);
  constexpr std::size_t kInRow = 4;
  const double each = paper.width_mm() / kInRow;
  for (std::size_t first = 0; first < texts.size(); first += kInRow) {
    PaperBlock row;
    row.above_mm = 1, row.with_next = first + kInRow < texts.size();  // all on one page
    for (std::size_t i = first; i < std::min(first + kInRow, texts.size()); ++i) {
      Correction correction = Correction::quartile;
      const double room = each - kCodesGapMm;
      if ((code_modules(texts[i], correction) + 2 * kQuietModules) * kModuleMm > room) correction = Correction::medium;
      QrCode code = make_code(texts[i], correction);
      const double modules = code.modules + 2 * kQuietModules;
      const double module = std::max(std::min(kModuleMm, room / modules), std::max(kSmallestModuleMm, kSmallestCodeMm / modules));
      const double side = modules * module, x = static_cast<double>(i - first) * each;
      row.codes.push_back({{x, kCaptionMm, side, side}, std::move(code)});  // captions stand on one line, however large the codes
      row.texts.push_back({{x + kQuietModules * module, 0, each - kCodesGapMm - kQuietModules * module, kCaptionMm}, {Face::normal, kLeastPoints, Align::left, 1}, std::to_string(i + 1) + of});
      row.height_mm = std::max(row.height_mm, side + kCaptionMm);
    }
    paper.add(std::move(row));
  }
  return texts;
}

}  // namespace ohmstead
