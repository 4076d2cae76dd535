#include "db/columns.h"

#include <gmock/gmock.h>

#include "db/interchange.h"
#include "house/error.h"
#include "tests/db/temp_folder.h"
#include "tests/support/random_house.h"

namespace ohmstead {
namespace {

using testing::HasSubstr;
using testing::Not;

TEST(Columns, give_the_document_of_any_house_back_byte_for_byte) {
  for (std::uint64_t seed = 1; seed <= 60; ++seed) {
    const std::string document = house_to_json(random_house(seed, 1 + static_cast<int>(seed % 9)));
    EXPECT_EQ(document_of_columns(columns_of_document(document)), document) << "seed " << seed;
  }
}

TEST(Columns, an_almost_empty_house_has_them_too) {
  House house;
  house.dwelling.id = {7};
  const Columns columns = columns_of_document(house_to_json(house));
  EXPECT_EQ(columns.ids, std::vector<std::uint64_t>{7});
  EXPECT_EQ(document_of_columns(columns), house_to_json(house));
}

TEST(Columns, hold_no_id_and_take_less_room_than_rows) {
  const House house = random_house(5, 8);
  const std::string document = house_to_json(house);
  const Columns columns = columns_of_document(document);
  EXPECT_LT(columns.text.size() + columns.ids.size() * 8, document.size() / 3);
  for (const Point& point : house.points) EXPECT_THAT(columns.text, Not(HasSubstr(point.id.text())));
  EXPECT_EQ(columns.ids[0], house.dwelling.id.value);
}

/// One table of two rows besides the ids 5 and 6.
Columns with_column(const std::string& column) {
  return {{5, 6}, R"({"format":"ohmstead columns","version":1,"document":["f",2],"tables":[["t",2,["id","id"],)" + column + "]]}"};
}

/// What the two rows have in the member "a".
std::string values_of(const std::string& column) {
  std::string document = document_of_columns(with_column(column)), values;
  for (std::size_t at = 0; (at = document.find("\"a\": ", at)) != std::string::npos;) {
    const std::size_t end = document.find('\n', at);
    values += (values.empty() ? "" : " ") + document.substr(at + 5, end - at - 5);
    at = end;
  }
  return values;
}

TEST(Columns, each_kind_means_what_the_page_says) {
  EXPECT_EQ(values_of(R"(["a","=",7])"), "7 7");
  EXPECT_EQ(values_of(R"(["a","l",["x",null]])"), "\"x\" null");
  EXPECT_EQ(values_of(R"(["a","n",[3,-4]])"), "3 -4");
  EXPECT_EQ(values_of(R"(["a","n+",[3,-4]])"), "3 -1");
  EXPECT_EQ(values_of(R"(["a","r",[2,0]])"), "\"000000000006\" null");
  EXPECT_EQ(values_of(R"(["a","t+",[1795599000,60]])"), "\"2026-11-25T09:30:00Z\" \"2026-11-25T09:31:00Z\"");
  EXPECT_EQ(values_of(R"(["a","t",[0,253402300799]])"), "\"\" \"9999-12-31T23:59:59Z\"");
  EXPECT_EQ(values_of(R"(["a","w",["x",true],[1,0]])"), "true \"x\"");
  EXPECT_EQ(values_of(R"(["a","k",["main","house"],[0,1],[1,0]])"), "\"main:000000000005\" \"house\"");
}

TEST(Columns, that_cannot_be_are_refused_with_what_is_wrong) {
  const std::pair<const char*, const char*> cases[] = {
      {R"(["a","n",[1]])", "t: length of a list"},
      {R"(["a","n",[1,2,3]])", "t: length of a list"},
      {R"(["a","n",[1,1.5]])", "t: whole numbers"},
      {R"(["a","n",[1,18446744073709551615]])", "t: whole numbers"},
      {R"(["a","n+",[253402300799,253402300799]])", "t: whole numbers"},
      {R"(["a","n"])", "t: column"},
      {R"(["a"])", "t: column"},
      {R"(["a","=",[1]])", "t: single values"},
      {R"(["a","=",1.5])", "t: single values"},
      {R"(["a","r",[3,0]])", "t: number of a row"},
      {R"(["a","r",[-1,0]])", "t: number of a row"},
      {R"(["a","t",[-1,0]])", "t: moments"},
      {R"(["a","w",["x"],[0,1]])", "t: number of a word"},
      {R"(["a","k",[1],[0,0],[1,1]])", "t: kinds"},
      {R"(["a","z",[1,1]])", "t: unknown kind of column"},
      {R"(["id","=",1])", "t: twice the same column"},
  };
  for (const auto& [column, words] : cases)
    EXPECT_THAT(message_of(ErrorKind::invalid_input, [&] { (void)document_of_columns(with_column(column)); }), HasSubstr(words)) << column;
}

TEST(Columns, tables_that_cannot_be_are_refused) {
  const std::string head = R"({"format":"ohmstead columns","version":1,"document":["f",2],"tables":[)";
  const std::pair<std::string, const char*> cases[] = {
      {"", "not JSON"},
      {"[]", "format"},
      {R"({"format":"ohmstead columns","version":2,"document":["f",2],"tables":[]})", "format"},
      {head + "]}", "number of ids"},
      {head + R"(["t",1,["id","id"]]]})", "number of ids"},
      {head + R"(["t",1000000000,["id","id"]]]})", "number of rows"},
      {head + R"(["t",-1,["id","id"]]]})", "number of rows"},
      {head + R"(["t",2]]})", "number of columns"},
      {head + R"(["t",2,["a","=",1]]]})", "column id"},
      {head + R"(["t",1,["id","id"]],["t",1,["id","id"]]]})", "twice the same table"},
  };
  for (const auto& [text, words] : cases)
    EXPECT_THAT(message_of(ErrorKind::invalid_input, [&] { (void)document_of_columns({{5, 6}, text}); }), HasSubstr(words)) << text;
}

TEST(Columns, do_not_become_a_document_without_end) {
  Columns columns{std::vector<std::uint64_t>(20'000, 5), R"({"format":"ohmstead columns","version":1,"document":["f",2],"tables":[["t",20000,["id","id"],["a","=",")"};
  columns.text += std::string(100'000, 'x') + "\"]]]}";
  EXPECT_THAT(message_of(ErrorKind::invalid_input, [&] { (void)document_of_columns(columns); }), HasSubstr("too long"));
  columns.text.assign(kLongestColumns + 1, ' ');
  EXPECT_THAT(message_of(ErrorKind::invalid_input, [&] { (void)document_of_columns(columns); }), HasSubstr("2 MB"));
}

}  // namespace
}  // namespace ohmstead
