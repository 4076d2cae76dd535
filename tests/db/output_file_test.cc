#include "db/output_file.h"

#include <gmock/gmock.h>

#include "temp_folder.h"

namespace ohmstead {
namespace {

using ::testing::HasSubstr;

TEST(OutputFile, writes_and_replaces_and_leaves_nothing_else) {
  const TempFolder folder;
  write_output_file(folder / "a.pdf", "first");
  write_output_file(folder / "a.pdf", "second, longer");
  EXPECT_EQ(read_file(folder / "a.pdf"), "second, longer");
  EXPECT_EQ(folder.files(), 1);
}

TEST(OutputFile, a_place_that_cannot_be_written_is_named) {
  const TempFolder folder;
  std::filesystem::create_directory(folder / "there");
  const std::pair<std::filesystem::path, const char*> refused[] = {
      {folder / "no/a.pdf", "no such folder"}, {folder / "there", "a folder is in its place"},
      {"/dev/full", "the disk is full"},       {folder / "there/", "a folder is in its place"}};
  for (const auto& [path, words] : refused) {
    const std::string message = message_of(ErrorKind::output, [&] { write_output_file(path, "x"); });
    EXPECT_THAT(message, HasSubstr(words));
    EXPECT_THAT(message, HasSubstr(path.string()));
  }
}

TEST(OutputFile, a_maker_that_throws_leaves_the_old_file_and_nothing_else) {
  const TempFolder folder;
  write_file(folder / "a", "old");
  EXPECT_THROW(write_through_neighbour(folder / "a", Replace::yes,
                                       [](const std::filesystem::path& p) { write_file(p, "half"); throw std::runtime_error("x"); }),
               std::runtime_error);
  EXPECT_EQ(read_file(folder / "a"), "old");
  EXPECT_EQ(folder.files(), 1);
  const auto make = [](const std::filesystem::path& p) { write_file(p, "new"); };
  EXPECT_THAT(message_of(ErrorKind::output, [&] { write_through_neighbour(folder / "a", Replace::no, make); }), HasSubstr("already there"));
  EXPECT_EQ(read_file(folder / "a"), "old");
}

TEST(OutputFile, behind_a_link_the_file_is_replaced_and_the_link_stays) {
  const TempFolder folder;
  write_file(folder / "real", "old");
  std::filesystem::create_symlink(folder / "real", folder / "link");
  write_output_file(folder / "link", "new");
  EXPECT_TRUE(std::filesystem::is_symlink(folder / "link"));
  EXPECT_EQ(read_file(folder / "real"), "new");
}

}  // namespace
}  // namespace ohmstead
