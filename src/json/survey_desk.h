#pragma once
// Writing the house down as a page drives it: one JSON object for each tap (docs/page-api.md). No input or output of its own.

#include <nlohmann/json_fwd.hpp>
#include <string>
#include <utility>
#include <vector>

#include "survey/entry.h"

namespace ohmstead {

class SurveyDesk {
 public:
  using Json = nlohmann::ordered_json;

  /// The house with what the request says in it, and what to say. `what`: for the history. Throws Error and changes nothing.
  struct Change {
    EntryResult result;
    std::string what;
    bool takes_back = false;
  };
  [[nodiscard]] Change change(const House& house, const Json& request) const;
  /// A change was kept: it can be taken back, or was.
  void kept(const House& before, const Change& change);

  [[nodiscard]] bool can_take_back() const { return !done_.empty(); }
  /// The rooms with how much is in each, what can be tapped, and whether something can be taken back.
  [[nodiscard]] Json now(const House& house) const;

 private:
  static constexpr std::size_t kMostTakenBack = 50;
  std::vector<std::pair<House, House>> done_;  ///< before and after each change, the last one last
};

}  // namespace ohmstead
