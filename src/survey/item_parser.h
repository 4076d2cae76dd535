#pragma once
// Internal to quick entry: reads the words of one item from left to right.

#include "survey/draft.h"
#include "survey/item.h"

namespace ohmstead::entry_detail {

/// One use for one item; `run` gives the item or throws a refusal.
class ItemParser {
 public:
  ItemParser(const Draft& draft, const std::vector<Word>& words) : draft_(draft), words_(words) {}
  [[nodiscard]] ItemSpec run();

 private:
  [[nodiscard]] bool more() const { return at_ < words_.size(); }
  [[nodiscard]] bool is(std::string_view word, std::size_t ahead = 0) const {
    return at_ + ahead < words_.size() && words_[at_ + ahead].is(word);
  }
  bool take(std::string_view word) {
    if (!is(word)) return false;
    ++at_;
    return true;
  }
  [[nodiscard]] std::string rest() const { return joined(words_, at_, at_ + 4); }

  [[nodiscard]] std::optional<int> take_count();
  void take_adjectives();
  void take_kind();
  void take_numbers();
  void take_mark();
  [[nodiscard]] bool take_load_mark(LoadSpec& load);
  [[nodiscard]] bool take_figure(LoadSpec& load);
  [[nodiscard]] bool take_switch();
  void take_switch_details(int handles);
  void take_with();
  [[nodiscard]] LoadSpec take_plugged();
  void take_downstream();
  [[nodiscard]] bool take_halves();
  [[nodiscard]] bool take_rating();
  [[nodiscard]] bool take_place();
  void check();

  /// Does a mark begin at word `i`? Words such as 'at' and 'low' only end a name, they never begin one.
  [[nodiscard]] bool mark_at(std::size_t i, bool after_name) const;
  /// Does a mark begin here that ends even a place or a device's name?
  [[nodiscard]] bool strong_mark_at(std::size_t i) const;
  [[nodiscard]] bool switch_words_at(std::size_t i) const;
  [[nodiscard]] bool figure_at(std::size_t i) const;

  const Draft& draft_;
  const std::vector<Word>& words_;
  std::size_t at_ = 0;
  ItemSpec item_;
};

}  // namespace ohmstead::entry_detail
