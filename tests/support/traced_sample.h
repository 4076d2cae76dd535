#pragma once
// Records for tests: the sample house with the truth about its circuits, as if all of it were traced; and a house as entered.

#include "ask/record.h"
#include "sample-house/truth.h"
#include "tests/support/sample_house.h"

namespace ohmstead {

[[nodiscard]] inline Record traced_sample() {
  Record record;
  record.house = sample_house();
  record.house.dwelling.name = "Hillside";
  record.feeds = truth_feeds(record.house, source_file("sample-house/truth.csv"));
  record.graph = build_graph(record.house, record.feeds);
  return record;
}

/// A house as entered, with what is declared in it.
[[nodiscard]] inline Record entered_record(const std::string& text) {
  House house;
  house.dwelling.id = {1};
  return make_record(enter_text(house, text).house);
}

}  // namespace ohmstead
