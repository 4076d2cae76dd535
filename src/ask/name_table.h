#pragma once
// Internal to Names: what each thing of a house is called, and how well a query's words fit.

#include <optional>
#include <string>
#include <unordered_map>
#include <vector>

#include "ask/words.h"
#include "house/house.h"

namespace ohmstead::ask_detail {

using WordNo = std::uint32_t;  ///< place in the vocabulary

/// How well one word fits another; the worst of a query decides first.
enum class Fit : std::uint8_t { same, synonym, part, one_slip, two_slips, none };

/// A thing and the words it goes by.
struct Called {
  ThingRef thing;
  std::string name;                          ///< in full, printable, no two of one kind alike
  std::string folded_name;
  std::vector<std::vector<WordNo>> own;      ///< alternatives: its name, the names of its loads
  std::vector<WordNo> kind;                  ///< words for what it is: "receptacle", "switch"
  std::vector<std::vector<WordNo>> contexts; ///< its room first, then floor, building, place
};

/// A query against the vocabulary.
struct Query {
  std::vector<Word> words;
  std::vector<std::vector<Fit>> fits;  ///< for each word, by WordNo
  std::string folded_text;
};

/// Rank of one thing under a query; smaller is better.
struct Rank {
  static constexpr int kNone = 1000;
  int value = kNone;
  [[nodiscard]] int tier() const { return value / 20; }
};

class NameTable {
 public:
  /// With `numbered_only` just panels, breakers and positions: enough for "12", and much faster.
  explicit NameTable(const House& house, bool numbered_only = false);
  [[nodiscard]] const std::vector<Called>& things() const { return things_; }
  /// The thing's row, or nullptr.
  [[nodiscard]] const Called* row_of(const ThingRef& thing) const;
  [[nodiscard]] Query query(std::string_view text) const { return query_of(words_of_text(text), folded(text)); }
  [[nodiscard]] Query query_of(std::vector<Word> words, std::string folded_text) const;
  [[nodiscard]] Rank rank(const Query& query, const Called& thing) const;
  /// Do the query's words name the thing's room in full?
  [[nodiscard]] bool whole_room_said(const Query& query, const Called& thing) const;
  /// How many of the query's words fit the thing in some way.
  [[nodiscard]] int words_fitting(const Query& query, const Called& thing) const;

 private:
  friend class TableBuilder;
  void join_split_words(std::vector<Word>& words) const;

  std::vector<Called> things_;
  std::vector<Word> vocabulary_;
  std::unordered_map<std::string, WordNo> word_no_;
  std::unordered_map<std::string, std::vector<std::string>> compounds_;  ///< "waterheater" for neighbours in a name
  std::unordered_map<ThingKind, std::unordered_map<std::uint64_t, std::size_t>> at_;
};

/// The table in two sizes, each made when it is first needed: an answer about breaker 12 needs the
/// names of panels and breakers only.
class TablesOnDemand {
 public:
  explicit TablesOnDemand(const House& house) : house_(house) {}
  [[nodiscard]] const NameTable& everything() const {
    if (!everything_) everything_.emplace(house_);
    return *everything_;
  }
  /// What numbers name; both sizes call it the same.
  [[nodiscard]] const NameTable& numbered() const {
    if (everything_) return *everything_;
    if (!numbered_) numbered_.emplace(house_, true);
    return *numbered_;
  }

 private:
  const House& house_;
  mutable std::optional<NameTable> everything_, numbered_;
};

}  // namespace ohmstead::ask_detail
