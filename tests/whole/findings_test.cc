// `ohmstead findings`: words, JSON and exit code.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <nlohmann/json.hpp>

#include "program.h"

namespace ohmstead::whole {
namespace {

using ::testing::HasSubstr;

TEST(Findings, a_wire_too_small_is_found_and_named) {
  Folder folder;
  ASSERT_EQ(folder.start_house("Shed: 2r\nPanel Main in Shed 8 spaces: 1 20 wire 14 shed receptacles\n").code, 0);
  const Ran shown = folder.run({"findings"});
  EXPECT_EQ(shown.code, 1);
  EXPECT_THAT(shown.out, HasSubstr("! DANGER:"));
  EXPECT_THAT(shown.out, HasSubstr("Main 1: wire 14 AWG"));
  EXPECT_THAT(shown.out, HasSubstr("Not checked:"));
  const auto json = nlohmann::json::parse(folder.run({"findings", "--json"}).out);
  EXPECT_EQ(json["findings"][0]["rule"], "breaker_over_wire");
  EXPECT_EQ(json["findings"][0]["severity"], "danger");
  EXPECT_THAT(json["findings"][0]["things"][0]["ref"].get<std::string>(), ::testing::StartsWith("breaker:"));
  EXPECT_FALSE(json["not_checked"].empty());
}

TEST(Findings, none_is_said_and_is_exit_code_0) {
  Folder folder;
  ASSERT_EQ(folder.start_house("Shed: 2r\nPanel Main in Shed 8 spaces: 1 20 spare\n").code, 0);
  const Ran shown = folder.run({"findings"});
  EXPECT_EQ(shown.code, 0) << shown.out;
  EXPECT_THAT(shown.out, HasSubstr("Nothing in this record stands against the rules"));
  EXPECT_THAT(shown.out, HasSubstr("licensed electrician decide"));
}

}  // namespace
}  // namespace ohmstead::whole
