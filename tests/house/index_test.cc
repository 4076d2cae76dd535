#include "house/index.h"

#include <gtest/gtest.h>

#include "example.h"

namespace ohmstead {
namespace {

TEST(Index, finds_every_row_of_every_table) {
  const House house = example_house();
  std::size_t tables = 0;
  for_each_table(house, [&](const auto& table) {
    using Row = typename std::decay_t<decltype(table)>::value_type;
    ++tables;
    ASSERT_FALSE(table.empty()) << Row::kTable;
    EXPECT_EQ(&table_of<Row>(house), &table) << Row::kTable;
    const Index<Row> index(table);
    for (std::size_t i = 0; i < table.size(); ++i) {
      EXPECT_EQ(index.at(table[i].id), static_cast<long>(i));
      EXPECT_EQ(find_row(house, table[i].id), &table[i]);
      EXPECT_EQ(&row(house, table[i].id), &table[i]);
    }
    EXPECT_EQ(index.at({}), -1);
    EXPECT_EQ(index.at({9999}), -1);
  });
  EXPECT_EQ(tables, 31U);
}

TEST(Index, a_missing_row_is_named) {
  const House house = example_house();
  EXPECT_EQ(find_row(house, Id<Room>{9999}), nullptr);
  try {
    (void)row(house, Id<Room>{9999});
    FAIL() << "a room that is not there was found";
  } catch (const Error& e) {
    EXPECT_EQ(e.kind, ErrorKind::not_found);
    EXPECT_EQ(e.what(), "There is no room with the id '" + id_text(9999) + "'.");
  }
}

}  // namespace
}  // namespace ohmstead
