#pragma once
// A played outage, for tests: the board of a house that was entered from its text, and its steps in short.

#include <optional>
#include <string>

#include "backup/outage_board.h"

namespace ohmstead {

class OutageStory {
 public:
  /// `text` as for `ohmstead enter`; its feeds are the declared ones. A kettle is wanted on demand, a television and a
  /// heater together with the others.
  explicit OutageStory(const std::string& text);
  explicit OutageStory(House house);

  [[nodiscard]] OutageBoard& board() { return *board_; }
  [[nodiscard]] const House& house() const { return board_->house(); }
  /// The step in short: "move T1 backup: freezer", "move Main 3, Main 5 off", "switch_off kettle", "start_source".
  [[nodiscard]] std::string step() const;
  /// Answers the step; gives back what the next one is.
  std::string done();
  std::string no(const std::string& handle = "");
  std::string tell(OutageEvent event);
  std::string moved(const std::string& handle, int to);
  std::string on(const std::string& load);
  std::string off(const std::string& load);
  std::string guest(const std::string& name, const std::string& point, int watts);
  /// Follows the board until it is settled; all steps before that, one a line.
  std::string follow();

  [[nodiscard]] Id<Load> load(const std::string& name) const;
  [[nodiscard]] HandleRef handle(const std::string& name) const;
  [[nodiscard]] std::size_t point(const std::string& name) const;  ///< "Kitchen receptacle 1"
  [[nodiscard]] std::string time();

 private:
  [[nodiscard]] std::string name_of(const HandleRef& handle) const;
  Feeds feeds_;
  std::optional<OutageBoard> board_;
  int minute_ = 0;
};

}  // namespace ohmstead
