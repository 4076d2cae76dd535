#include "cli/plan_columns.h"

#include <algorithm>

#include "ask/printable.h"
#include "ask/utf8.h"
#include "ask/watts.h"

namespace ohmstead {

namespace {

constexpr int kRowsOfLimit = 12;  ///< what the source gives is about so many rows high

using Rows = std::vector<std::string>;

std::string fitted(const std::string& text, std::size_t width) {
  std::string out;
  std::size_t columns = 0;
  for (std::size_t at = 0; at < text.size();) {
    std::size_t length = 1;
    while (at + length < text.size() && (static_cast<unsigned char>(text[at + length]) & 0xC0U) == 0x80U) ++length;
    if (columns + 1 > width) return out.substr(0, out.size() > 0 ? out.size() : 0);
    out += text.substr(at, length), at += length, ++columns;
  }
  return out + std::string(width - columns, ' ');
}

std::size_t rows_for(int watts, int limit) {
  if (limit <= 0) return 1;
  return std::max<std::size_t>(1, static_cast<std::size_t>((static_cast<long long>(watts) * kRowsOfLimit + limit / 2) / limit));
}

std::string label(const House& house, const PictureBlock& block) {
  const Load& load = house.loads[block.load];
  return terminal::printable(load.name) + " " + watts_text(block.watts) + (block.half ? " (half)" : "");
}

/// A block from its top row down, its label first.
void add_block(Rows& rows, const std::string& text, std::size_t height, std::size_t width, char fill) {
  const std::string inside(width - 2, fill);
  rows.push_back("|" + fitted(" " + text, width - 2) + "|");
  for (std::size_t row = 1; row < height; ++row) rows.push_back("|" + inside + "|");
}

/// One column, top row first.
Rows column_rows(const House& house, const PictureColumn& column, bool only, std::size_t width) {
  const std::string line(width - 2, '-');
  Rows rows;
  const int left = column.limit - column.running;
  if (left > 0) add_block(rows, watts_text(left) + " left", rows_for(left, column.limit), width, ' ');
  for (auto block = column.together.rbegin(); block != column.together.rend(); ++block) {
    rows.push_back("|" + line + "|");
    add_block(rows, label(house, *block), rows_for(block->watts, column.limit), width, ':');
  }
  const std::string title = only ? "Whole source: " : "Leg " + std::to_string(column.leg) + ": ";
  rows.insert(rows.begin(), {fitted(title + watts_text(column.running) + " of " + watts_text(column.limit), width), "+" + std::string(width - 2, '=') + "+"});
  rows.push_back("+" + line + "+");
  return rows;
}

std::string on_demand_line(const House& house, const PictureColumn& column) {
  std::string text;
  for (const PictureBlock& block : column.on_demand) text += (text.empty() ? "" : ", ") + label(house, block);
  return text;
}

}  // namespace

std::vector<std::string> plan_columns(const House& house, const PlanPicture& picture, std::size_t width) {
  const std::size_t count = std::max<std::size_t>(1, picture.columns.size());
  const std::size_t each = std::clamp<std::size_t>((std::max<std::size_t>(width, 38) - 2 * (count - 1)) / count, 12, 40);
  std::vector<Rows> columns;
  for (const PictureColumn& column : picture.columns) columns.push_back(column_rows(house, column, count == 1, each));
  std::size_t height = 0;
  for (const Rows& rows : columns) height = std::max(height, rows.size());
  for (Rows& rows : columns)  // shorter columns get air above what is left, so that all stand on one line
    while (rows.size() < height) rows.insert(rows.begin() + 2, "|" + std::string(each - 2, ' ') + "|");
  std::vector<std::string> lines;
  for (std::size_t row = 0; row < height; ++row) {
    std::string line;
    for (std::size_t c = 0; c < columns.size(); ++c) line += (c == 0 ? "" : "  ") + columns[c][row];
    lines.push_back(line);
  }
  for (const PictureColumn& column : picture.columns)
    if (const std::string text = on_demand_line(house, column); !text.empty())
      lines.push_back((count == 1 ? "When wanted, one at a time: " : "Leg " + std::to_string(column.leg) + ", when wanted, one at a time: ") + text);
  return lines;
}

}  // namespace ohmstead
