#include "db/interchange.h"

#include <gmock/gmock.h>

#include <nlohmann/json.hpp>
#include <set>

#include "house/invariants.h"
#include "temp_folder.h"
#include "tests/support/random_house.h"

namespace ohmstead {
namespace {

using ::testing::HasSubstr;
using ::testing::StartsWith;
using nlohmann::json;

TEST(Interchange, random_houses_come_back_as_they_were_and_byte_for_byte) {
  for (std::uint64_t seed = 1; seed <= 120; ++seed) {
    const House house = random_house(seed, 1 + static_cast<int>(seed % 12));
    const std::string text = house_to_json(house);
    const House back = house_from_json(text);
    ASSERT_EQ(back, house) << seed;
    ASSERT_EQ(house_to_json(back), text) << seed;
    ASSERT_EQ(text.back(), '\n');
  }
}

/// A small sound document to spoil.
json small() {
  return json::parse(R"({"format": "ohmstead house", "version": 1,
    "dwelling": {"id": "000000000001", "name": "Cabin"},
    "floor": [{"id": "000000000002", "name": "Ground"}],
    "room": [{"id": "000000000003", "floor": "000000000002", "name": "Hall"}],
    "panel": [{"id": "000000000004", "name": "Main", "room": "000000000003", "spaces": 4, "supply": "utility"}],
    "breaker": [{"id": "000000000005", "panel": "000000000004", "space": 1, "amps": 15}]})");
}

TEST(Interchange, fields_that_are_left_out_have_their_usual_value) {
  const House house = house_from_json(small().dump());
  EXPECT_EQ(house.breakers.at(0).poles, 1);
  EXPECT_EQ(house.breakers.at(0).half, Half::whole);
  EXPECT_EQ(house.dwelling.system, VoltageSystem::split_phase_120_240);
}

TEST(Interchange, a_bad_value_is_named_by_its_path) {
  struct Spoiled {
    const char* pointer;
    json value;
    const char* words;
  };
  const Spoiled cases[] = {
      {"/breaker/0/space", "1", "breaker[0].space: It must be a whole number"},
      {"/breaker/0/space", 1.5, "breaker[0].space: It must be a whole number"},
      {"/breaker/0/space", 99'999'999'999, "breaker[0].space: It must be a whole number"},
      {"/breaker/0/space", 18446744073709551615U, "breaker[0].space: It must be a whole number"},
      {"/breaker/0/space", nullptr, "breaker[0].space: It must be a whole number"},
      {"/breaker/0/space", 5, "breaker[0].space: Breaker 5"},
      {"/breaker/0/amps", -15, "breaker[0].amps: amps is -15"},
      {"/breaker/0/half", "c", "breaker[0].half: It must be one of the words"},
      {"/breaker/0/panel", "000000000009", "breaker[0].panel: It names a panel that is not in the house"},
      {"/breaker/0/panel", json::array(), "breaker[0].panel: It must be an id"},
      {"/breaker/0/id", "short", "breaker[0].id: It must be an id"},
      {"/floor/0/id", nullptr, "floor[0].id: A row has no id"},
      {"/breaker/0/colour", "red", "breaker[0]: There is no field 'colour'"},
      {"/breaker/0", 3, "breaker[0]: It must be an object"},
      {"/breaker", 3, "breaker: It must be an array"},
      {"/breakers", json::array(), "document: There is no table 'breakers'"},
      {"/dwelling", json::array(), "dwelling: It must be an object"},
      {"/dwelling/name", std::string("zero\0byte", 9), "dwelling.name: The text holds"},
      {"/format", "other", "format: It must be"},
      {"/version", kInterchangeVersion + 1, "version: The document has version 6; this program reads versions up to 5"},
      {"/version", 0, "version: There is no version 0"},
      {"/version", "1", "version: It must be a whole number"},
      {"/load", json::array({{{"id", "000000000007"}, {"hurt_by_power_loss", 1}}}), "load[0].hurt_by_power_loss: It must be true or false"},
      {"/room/0/name", std::string(10'000, 'x'), "room[0].name: The text is 10000 bytes long"},
  };
  for (const Spoiled& spoiled : cases) {
    json document = small();
    document[json::json_pointer(spoiled.pointer)] = spoiled.value;
    EXPECT_THAT(message_of(ErrorKind::invalid_input, [&] { (void)house_from_json(document.dump()); }), StartsWith(spoiled.words));
  }
}

TEST(Interchange, texts_that_are_not_a_document_are_refused_with_their_place) {
  const std::string good = small().dump(1);
  const std::pair<std::string, const char*> cases[] = {
      {"", "line 1, column 1"},
      {"{\n  \"format\": x", "line 2, column 13"},
      {good.substr(0, good.size() / 2), "not JSON"},
      {good + "x", "not JSON"},
      {"[]", "must be an object"},
      {"null", "must be an object"},
      {std::string(100'000, '['), "nested more than 32 deep"},
      {std::string(40, '[') + std::string(40, ']'), "nested more than 32 deep at [0][0]"},
      {R"({"breaker": [{"id": "a"}, {"space": 1, "space": 2}]})", "The key 'space' is given twice in breaker[1]"},
      {R"({"format": "a", "format": "b"})", "The key 'format' is given twice in the document"},
      {"{\"format\": \"\xFF\"}", "not JSON"},
      {R"({"format": "ohmstead house", "version": 1})", "dwelling: It is missing"},
      {"1e999", "too large"},
  };
  for (const auto& [text, words] : cases)
    EXPECT_THAT(message_of(ErrorKind::invalid_input, [&] { (void)house_from_json(text); }), HasSubstr(words)) << text.substr(0, 80);
}

TEST(Interchange, a_name_that_is_not_utf_8_is_not_written) {
  House house = random_house(1, 1);
  house.rooms[0].name = "\xC3";
  EXPECT_THAT(message_of(ErrorKind::invalid_input, [&] { (void)house_to_json(house); }), HasSubstr("UTF-8"));
}

std::string document(const char* path) { return read_file(std::filesystem::path(OHMSTEAD_SOURCE_DIR) / path); }

/// Compares what the JSON Schema says of one kind of row with its fields and their words.
template <class Row>
void expect_described(const json& object) {
  std::set<std::string> described, fields;
  for (const auto& [name, value] : object.at("properties").items()) described.insert(name);
  const Row none{};
  Row::fields(none, [&]<class T>(const char* name, const T&) {
    fields.insert(name);
    const json& field = object.at("properties").at(name);
    if constexpr (std::is_enum_v<T>) {
      const auto words = words_of(T{});
      EXPECT_EQ(field.at("enum"), json(std::vector<std::string>(words.begin(), words.end()))) << Row::kTable << "." << name;
    }
    if constexpr (std::is_same_v<T, bool>) {
      EXPECT_EQ(field.at("type"), "boolean") << name;
    }
    if constexpr (std::is_same_v<T, int>) {
      EXPECT_EQ(field.at("$ref"), "#/$defs/number") << name;
    }
  });
  EXPECT_EQ(described, fields) << Row::kTable;
}

TEST(InterchangeSchema, says_what_the_program_writes) {
  const json schema = json::parse(document("docs/interchange.schema.json"));
  const json& tables = schema.at("properties");
  EXPECT_EQ(tables.at("version").at("const"), kInterchangeVersion);
  expect_described<Dwelling>(tables.at("dwelling"));
  std::size_t count = 4;  // format, version, dwelling, picture
  const House house;
  for_each_table(house, [&]<class Row>(const std::vector<Row>&) {
    ++count;
    expect_described<Row>(tables.at(Row::kTable).at("items"));
  });
  EXPECT_EQ(tables.size(), count);
}

TEST(InterchangeSchema, the_example_of_the_page_is_a_house) {
  const std::string page = document("docs/interchange.md");
  const auto start = page.find("```json\n") + 8;
  const House house = house_from_json(std::string_view(page).substr(start, page.find("```", start) - start));
  EXPECT_EQ(house.breakers.at(0).amps, 15);
}

}  // namespace
}  // namespace ohmstead
