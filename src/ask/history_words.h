#pragma once
// What was changed in a house, when and by whom, as plain values and in plain words.

#include <cstdint>
#include <string>
#include <vector>

#include "ask/answer_words.h"

namespace ohmstead {

struct HistoryField {
  std::string name, from, to;  ///< as people say them: "amps", "15", "20"
};

enum class HistoryItemKind { added, removed, changed, reordered };
OHMSTEAD_WORDS(HistoryItemKind, "added", "removed", "changed", "reordered")

/// What happened to one row.
struct HistoryItem {
  HistoryItemKind kind = HistoryItemKind::changed;
  std::string table, id;            ///< of the row
  std::string thing;                ///< what it is called
  std::vector<HistoryField> fields; ///< added: `from` is empty; removed: `to`
};

struct HistoryEntry {
  std::int64_t revision = 0;
  std::string at, who, what;       ///< at: UTC; who may be empty
  bool taken_back = false;         ///< and not made again since
  bool kept = true;                ///< else what it did is not known any more
  std::vector<HistoryItem> items;  ///< of a thing's history only those that concern it
};

struct HistoryAnswer {
  std::string thing;                  ///< whose history it is; empty: the house's
  std::vector<HistoryEntry> entries;  ///< newest first
  std::size_t older = 0;              ///< that are not among the entries
};

[[nodiscard]] Lines words_of_history(const HistoryAnswer& answer);

}  // namespace ohmstead
