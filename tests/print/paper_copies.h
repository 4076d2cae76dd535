#pragma once
// The paper copy of a house for tests, as `ohmstead paper copy` makes it.

#include "db/paper_copy.h"
#include "print/paper_copy_page.h"

namespace ohmstead::test {

[[nodiscard]] inline PaperCopySheet paper_copy_sheet(const House& house, CodeSize size, Sheet paper) {
  const PackedRecord record = pack_record(house);
  const auto cut = [&](int characters) { return cut_into_pieces(record, 714, static_cast<std::size_t>(characters)); };
  const CodeGrid grid = best_code_grid(paper, size, [&](int characters) { return static_cast<int>(cut(characters).pieces.size()); });
  const PaperCopy copy = cut(grid.characters());
  return {{house.dwelling.name, copy.set, copy.sha256, "2026-11-27", 714, copy.k, copy.m}, copy.pieces, grid.version, paper, size};
}

}  // namespace ohmstead::test
