#pragma once
// Full-text search in a house file: notes, names of points, rooms, panels and devices, labels of breakers, loads, what was printed. The
// index is kept in the file (FTS5, table "search") and is true after every change; one that is missing or older than the record is made anew
// when it is next needed. A search reads the index alone, never the house.

#include <cstdint>
#include <filesystem>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "house/house.h"

namespace SQLite {
class Database;
}

namespace ohmstead {

/// What is found. Stored as the three highest bits of a row's number: at most eight, and the order is never changed.
enum class FoundKind { note, room, point, load, breaker, panel, printed, device };
OHMSTEAD_WORDS(FoundKind, "note", "room", "point", "load", "breaker", "panel", "printed", "device")

/// One thing of the index: its name, and what else is written about it.
struct SearchDoc {
  std::int64_t number = 0;  ///< of its row: kind and id
  std::string name, body;
  bool operator==(const SearchDoc&) const = default;
};

/// What the index of this house holds, by number.
[[nodiscard]] std::vector<SearchDoc> search_docs(const House& house);

/// Makes the index anew, in the transaction that is open, and marks the newest change as indexed.
void rebuild_search(SQLite::Database& db, const House& house);
/// Brings it from `before` to `after`, before the change is written down; only what differs is written. Whoever writes a change of the
/// house in another way leaves its `indexed` at 0, and the index is made anew when it is next needed.
void update_search(SQLite::Database& db, const House& before, const House& after);

struct Found {
  FoundKind kind = FoundKind::note;
  std::string id;       ///< of its row
  std::string name;     ///< as in the record, control characters and all: make it printable
  std::string text;     ///< the part of what is written about it that fits best
};

struct SearchResult {
  std::vector<Found> found;     ///< best first
  bool all_words = true;        ///< false: nothing has all the words; these have some
  bool more = false;            ///< there are more than were asked for
};

/// Everything that has a word of each group, or the beginning of one: groups of words of one meaning (ask/search_words.h). Throws
/// Error{storage} as HouseFile::open does.
[[nodiscard]] SearchResult search_house_file(const std::filesystem::path& path, std::span<const std::vector<std::string>> words, std::size_t most);

}  // namespace ohmstead
