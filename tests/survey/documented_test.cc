// Every block marked `entry` in docs/quick-entry.md is entered as it stands there.

#include <gmock/gmock.h>

#include <fstream>
#include <sstream>

#include "house/invariants.h"
#include "survey/entry.h"
#include "survey/kind_words.h"

namespace ohmstead {
namespace {

std::string page() {
  std::ifstream file(OHMSTEAD_SOURCE_DIR "/docs/quick-entry.md");
  std::stringstream text;
  text << file.rdbuf();
  return text.str();
}

std::vector<std::string> entry_blocks() {
  std::vector<std::string> blocks;
  const std::string text = page(), open = "\n```entry\n", close = "\n```\n";
  for (std::size_t at = text.find(open); at != std::string::npos; at = text.find(open, at)) {
    at += open.size();
    blocks.push_back(text.substr(at, text.find(close, at) - at) + "\n");
  }
  return blocks;
}

TEST(QuickEntryPage, every_example_is_entered) {
  const auto blocks = entry_blocks();
  ASSERT_GE(blocks.size(), 9U);
  for (const std::string& block : blocks) {
    SCOPED_TRACE(block);
    const EntryResult result = enter_text(House{}, block);
    EXPECT_THAT(problems_of(result.house), testing::IsEmpty());
    EXPECT_GE(result.house.points.size() + result.house.breakers.size(), 1U);
  }
}

TEST(QuickEntryPage, every_thing_it_lists_is_known) {
  const std::string text = page();
  const std::string from = "**What the program knows.**";
  const std::size_t at = text.find(from) + from.size();
  std::string list = text.substr(at, text.find('.', at) - at);
  int known = 0;
  std::string word;
  for (const char c : list + ",") {
    if (c != ',' && c != '(' && c != ')' && c != '\n') {
      word += c;
      continue;
    }
    if (c == '\n') {
      word += ' ';
      continue;
    }
    word.erase(0, word.find_first_not_of(' '));
    word.erase(word.find_last_not_of(' ') + 1);
    if (!word.empty()) {
      EXPECT_NE(find_kind(word), nullptr) << word;
      ++known;
    }
    word.clear();
  }
  EXPECT_GE(known, 50);
}

TEST(QuickEntryPage, templates_are_as_the_table_says) {
  const std::string text = page();
  for (const char* name : {"bedroom", "bath", "kitchen", "living", "hall", "laundry", "garage"}) {
    const auto items = template_items(name);
    ASSERT_TRUE(items) << name;
    EXPECT_THAT(text, testing::ContainsRegex(std::string("=") + name + "`.*\\| ")) << name;
    std::string spelled(*items);
    EXPECT_THAT(text, testing::HasSubstr("| " + spelled + " |")) << name;
  }
}

}  // namespace
}  // namespace ohmstead
