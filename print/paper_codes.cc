#include <algorithm>
#include <optional>

#include "ask/printable.h"
#include "house/error.h"
#include "print/fit_text.h"
#include "print/paper_makers.h"

namespace ohmstead {

namespace {

constexpr double kCaptionMm = 5, kCodesGapMm = 3, kIntroMm = 8;
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

/// The codes of a paper, and how many of them stand beside each other.
struct Row {
  std::size_t in_row = 0;
  double each_mm = 0;
  std::vector<SizedCode> codes;
};

Row codes_in_row(const std::vector<std::string>& texts, const CodeClass& allowed, double width_mm) {
  constexpr std::size_t kMostInRow = 4;
  for (std::size_t in_row = kMostInRow; in_row > 0; --in_row) {
    Row row{in_row, width_mm / static_cast<double>(in_row), {}};
    for (const std::string& text : texts) {
      std::optional<SizedCode> code = sized_code(text, allowed, row.each_mm - kCodesGapMm);
      if (!code) break;
      row.codes.push_back(std::move(*code));
    }
    if (row.codes.size() == texts.size()) return row;
  }
  throw Error(ErrorKind::output, "The codes of this paper are wider than the page; print it for a dry place.");  // no piece is so long on paper
}

}  // namespace

std::vector<std::string> add_codes(Paper& paper, const std::string& title, const std::vector<std::string>& lines, const CodeClass& allowed) {
  std::vector<std::string> texts = pieces_of(lines, allowed.most_bytes - title.size() - std::string_view(", 12 of 12.\n").size());
  if (texts.empty() || texts.size() > kMostPaperCodes) return {};
  const std::string of = " of " + std::to_string(texts.size());
  for (std::size_t i = 0; i < texts.size(); ++i) texts[i] = title + (texts.size() == 1 ? "" : ", " + std::to_string(i + 1) + of) + ".\n" + texts[i];
  paper.heading(kIntro, 10);
  const Row codes = codes_in_row(texts, allowed, paper.width_mm());
  PaperBlocks rows;
  double high = 0;
  for (std::size_t first = 0; first < texts.size(); first += codes.in_row) {
    PaperBlock row;
    row.above_mm = 1;
    for (std::size_t i = first; i < std::min(first + codes.in_row, texts.size()); ++i) {
      const SizedCode& code = codes.codes[i];
      const double x = static_cast<double>(i - first) * codes.each_mm, quiet = kQuietModules * code.module_mm;
      row.codes.push_back({{x, kCaptionMm, code.side_mm, code.side_mm}, code.code});  // captions stand on one line, however large the codes
      row.texts.push_back({{x + quiet, 0, codes.each_mm - kCodesGapMm - quiet, kCaptionMm}, {Face::normal, kLeastPoints, Align::left, 1}, std::to_string(i + 1) + of});
      row.height_mm = std::max(row.height_mm, code.side_mm + kCaptionMm);
    }
    high += row.above_mm + row.height_mm;
    rows.push_back(std::move(row));
  }
  const bool one_page = high + kIntroMm <= paper.room_mm();
  for (PaperBlock& row : rows) {
    row.with_next = one_page && &row != &rows.back();
    paper.add(std::move(row));
  }
  return texts;
}

}  // namespace ohmstead
