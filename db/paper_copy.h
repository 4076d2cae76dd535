#pragma once
// The paper copy: the whole record as pieces of text for codes on paper, of which any k bring it back, byte for byte.
// docs/paper-copy.md describes every step for a time without this program.

#include <cstdint>
#include <map>
#include <string>
#include <string_view>
#include <vector>

#include "db/piece.h"
#include "house/house.h"

namespace ohmstead {

/// The record made small: what is cut into pieces.
struct PackedRecord {
  std::string bytes;   ///< SHA-256 of the document, number of ids, the ids (those in a row as steps), the columns compressed
  std::string sha256;  ///< of the interchange document, in hexadecimal
};

/// Throws Error{invalid_input} for a house that cannot be, and for one whose record is too large.
[[nodiscard]] PackedRecord pack_record(const House& house);
/// The interchange document again. `bytes` may have zero bytes at the end. Throws Error{invalid_input} for anything that
/// pack_record did not make; takes at most a few hundred MB of memory, whatever the bytes.
[[nodiscard]] std::string unpack_record(std::string_view bytes);

struct PaperCopy {
  std::string set;        ///< its name: eight hexadecimal digits
  std::int64_t revision = 0;
  int k = 0, m = 0;       ///< any k of the k + m pieces bring the record back
  std::string sha256;     ///< of the interchange document
  std::vector<std::string> pieces;
};

/// The pieces, each of at most `most_characters`. Throws Error{invalid_input} if more than 255 would be needed, or the revision
/// is not 0 .. 999,999,999.
[[nodiscard]] PaperCopy cut_into_pieces(const PackedRecord& record, std::int64_t revision, std::size_t most_characters);

/// A house that came back.
struct FromPaper {
  House house;
  std::string document;  ///< its interchange document, as it was when it was printed
  std::string set, sha256;
  std::int64_t revision = 0;
  int k = 0, m = 0, read = 0;
};

/// What was read so far of one or several sets, in any order, with repeats.
class PaperReading {
 public:
  /// Takes the pieces out of any text. Returns how many are new.
  int add(std::string_view text);
  /// Whether a set can be brought back already: the one that is named, or any.
  [[nodiscard]] bool enough(const std::string& set = "") const;
  /// What was skipped, each as a full sentence: damaged pieces, lines that are no pieces.
  [[nodiscard]] std::vector<std::string> notes() const;
  /// The house of the only set, or of the one that is named. Throws Error{invalid_input}: nothing read, pieces of several sets or
  /// revisions, no piece of this set, or too few: then it says how many are missing.
  [[nodiscard]] FromPaper bring_back(const std::string& set = "") const;

 private:
  /// What all pieces of a set have in common.
  struct SetKey {
    std::uint32_t set = 0;
    std::int64_t revision = 0;
    int k = 1, m = 1;
    std::size_t length = 0;
    auto operator<=>(const SetKey&) const = default;
  };
  using Shards = std::map<int, std::string>;  ///< by number, 0 is the first
  [[nodiscard]] std::string words_of(const SetKey& key, const Shards& shards) const;
  [[nodiscard]] const std::pair<const SetKey, Shards>& chosen(const std::string& set) const;

  std::map<SetKey, Shards> sets_;
  int damaged_ = 0, other_lines_ = 0, contradicting_ = 0;
};

}  // namespace ohmstead
