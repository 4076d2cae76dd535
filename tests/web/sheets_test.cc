#include "web/sheets.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <fstream>

#include "house/error.h"
#include "web/sheet_routes.h"

namespace ohmstead::web {
namespace {

using std::chrono::milliseconds, std::chrono::seconds;
using testing::HasSubstr;
using Json = nlohmann::json;

/// A printing program of shell lines: $look, $to and $printed are what it was told, empty for the list. It counts its starts in the file `runs`.
class SheetsTest : public testing::Test {
 protected:
  SheetsTest() {
    options.program = folder.path() / "print", options.house = folder.path() / "a.house";
    options.revision = [this] { return revision.load(); };
    options.date = [] { return std::string("2026-11-27"); };
    options.clock = [this] { return Moment(now.load()); };
    std::ofstream(options.house) << "house";
    program("");
  }
  void program(const std::string& drawing, const std::string& sheets = R"({"item":"paper-wall","title":"Sheet for the wall","state":"never","words":"Not printed yet."},{"item":"paper-plan","title":"Plan","state":"refused","words":"Cannot be printed now: because."},{"item":"labels-dots","title":"Dots","state":"current","words":"True."})") const {
    std::ofstream(options.program) << "#!/bin/sh\necho x >> '" << (folder.path() / "runs").string() << "'\n"
      << "for word in \"$@\"; do case $word in --look=*) look=${word#--look=};; --to=*) to=${word#--to=};; --printed=*) printed=${word#--printed=};; esac; done\n"
      << "echo \"$@\" > '" << (folder.path() / "words").string() << "'\n"
      << "if [ -n \"$printed\" ]; then " << keeping << "; echo '{\"labels\":3}'; exit 0; fi\n"
      << "if [ -z \"$look\" ]; then echo '{\"revision\":5,\"gone\":[],\"sheets\":[" << sheets << "]}'; exit 0; fi\n"
      << "printf '\\211PNG\\r\\n\\032\\n\\000\\000\\000\\rIHDR\\000\\000\\004\\373\\000\\000\\006r' > $to/page.png; printf two > $to/page-2.png; printf %%PDF > $to/sheet.pdf\n"
      << drawing << "\necho '{\"revision\":5,\"notes\":[\"Note: one\"],\"pages\":2}'\n";
    std::filesystem::permissions(options.program, std::filesystem::perms::owner_all);
  }
  std::string text(const char* name) const {
    std::ifstream file(folder.path() / name);
    return {std::istreambuf_iterator<char>(file), {}};
  }
  std::size_t runs() const { return text("runs").size() / 2; }
  /// What it says in the end.
  template <typename Ask>
  Response waited(Sheets&, Ask ask) {
    for (int tries = 0; tries < 1000; ++tries) {
      if (auto answer = ask()) return *answer;
      std::this_thread::sleep_for(milliseconds(10));
    }
    return {.status = 0};
  }
  Response list(Sheets& sheets) {
    return waited(sheets, [&] { return sheets.list(); });
  }
  Response picture(Sheets& sheets, const std::string& item, const std::string& page) {
    return waited(sheets, [&] { return sheets.picture(item, page); });
  }
  Response about(Sheets& sheets, const std::string& item) {
    return waited(sheets, [&] { return sheets.about(item); });
  }

  Response kept(Sheets& sheets, const SaidPrinted& said) {
    return waited(sheets, [&] { return sheets.keep(said); });
  }

  std::string keeping = ":";  ///< shell: what it does when it is told that something was printed
  PrivateFolder folder;
  SheetsOptions options;
  std::atomic<std::int64_t> revision{5};
  std::atomic<milliseconds> now{milliseconds(0)};
  std::atomic<int> told{0};
  std::function<void()> tell = [this] { ++told; };
};

TEST_F(SheetsTest, the_list_the_pages_and_the_pdf_are_what_the_printing_program_gave) {
  Sheets sheets(options, tell);
  EXPECT_FALSE(sheets.list()) << "it returns at once";
  const Json listed = Json::parse(list(sheets).body);
  EXPECT_EQ(listed["revision"], 5);
  EXPECT_EQ(listed["sheets"].size(), 3U);
  const Json row = Json::parse(about(sheets, "paper-wall").body);
  EXPECT_EQ(row["title"], "Sheet for the wall");
  EXPECT_EQ(row["notes"], Json({"Note: one"}));
  ASSERT_EQ(row["pages"].size(), 2U);
  EXPECT_EQ(row["pages"][0], Json({{"width", 1275}, {"height", 1650}}));
  const Response second = picture(sheets, "paper-wall", "2"), pdf = waited(sheets, [&] { return sheets.pdf("paper-wall"); });
  EXPECT_EQ(second.type + " " + second.body, "image/png two");
  EXPECT_EQ(pdf.type + " " + pdf.body, "application/pdf %PDF");
  EXPECT_EQ(runs(), 2U) << "one process for the list, one for the sheet";
  EXPECT_THAT(text("words"), testing::MatchesRegex("--house=.*/a\\.house print --look=paper-wall --to=[^ ]* --date=2026-11-27 --json\n"));
  EXPECT_GE(told, 2);
}

TEST_F(SheetsTest, a_name_that_is_not_in_the_list_reaches_no_program) {
  Sheets sheets(options, tell);
  (void)list(sheets);
  for (const std::string item : {"", "paper", "../paper-wall", "paper-wall ", "paper-wall\n", "--to=/tmp", "paper-wall --to=/tmp", "/etc/passwd", "$(id)", "PAPER-WALL"}) {
    const Response answer = picture(sheets, item, "1");
    EXPECT_EQ(answer.status, 400) << item;
  }
  for (const std::string page : {"", "0", "3", "01", "1 ", "-1", "+1", "99999999999999999999", "1.0", "x"}) EXPECT_EQ(picture(sheets, "paper-wall", page).status, 400) << page;
  EXPECT_EQ(picture(sheets, "paper-wall", "1").status, 200);
  EXPECT_EQ(runs(), 2U);
}

TEST_F(SheetsTest, what_the_record_cannot_print_is_told_with_its_reason_and_not_tried) {
  Sheets sheets(options, tell);
  const Response answer = about(sheets, "paper-plan");
  EXPECT_EQ(answer.status, 400);
  EXPECT_THAT(answer.body, HasSubstr("Cannot be printed now: because."));
  EXPECT_EQ(runs(), 1U);
}

TEST_F(SheetsTest, a_program_that_fails_hangs_or_is_not_there_is_told_and_tried_again_later) {
  program("[ -e " + (folder.path() / "good").string() + " ] || exit 4");
  Sheets sheets(options, tell);
  EXPECT_EQ(picture(sheets, "paper-wall", "1").status, 503);
  EXPECT_EQ(picture(sheets, "paper-wall", "1").status, 503);
  EXPECT_EQ(runs(), 2U) << "not at once";
  std::ofstream(folder.path() / "good") << "x";
  now = options.failure_kept;
  EXPECT_EQ(picture(sheets, "paper-wall", "1").status, 200);

  program("sleep 600");
  options.child.time = milliseconds(300);
  Sheets late(options, tell);
  EXPECT_THAT(picture(late, "paper-wall", "1").body, HasSubstr("took too long"));
  options.program = "";
  Sheets none(options, tell);
  EXPECT_THAT(list(none).body, HasSubstr("not installed"));
}

TEST_F(SheetsTest, an_answer_of_the_program_that_makes_no_sense_is_no_list_and_no_sheet) {
  for (const char* sheets_text : {"1", "{\"item\":1}", "{\"item\":\"x\"}", "]"}) {
    program("", sheets_text);
    Sheets sheets(options, tell);
    EXPECT_EQ(list(sheets).status, 503) << sheets_text;
  }
  program("rm $to/page.png");
  Sheets no_pages(options, tell);
  EXPECT_EQ(picture(no_pages, "paper-wall", "1").status, 503);
  program("echo not json");
  Sheets noise(options, tell);
  EXPECT_EQ(picture(noise, "paper-wall", "1").status, 503);
}

TEST_F(SheetsTest, a_new_revision_is_drawn_anew_and_a_print_only_listed_anew) {
  Sheets sheets(options, tell);
  (void)list(sheets), (void)picture(sheets, "paper-wall", "1");
  EXPECT_EQ(runs(), 2U);
  std::filesystem::last_write_time(options.house, std::filesystem::last_write_time(options.house) + seconds(5));
  (void)list(sheets), (void)picture(sheets, "paper-wall", "1");
  EXPECT_EQ(runs(), 3U);
  revision = 6;
  (void)list(sheets), (void)picture(sheets, "paper-wall", "1");
  EXPECT_EQ(runs(), 5U);
}

TEST_F(SheetsTest, what_was_printed_is_written_down_by_the_printing_program_once_for_a_key) {
  Sheets sheets(options, tell);
  EXPECT_FALSE(sheets.keep({"paper-wall", 5, "key00001"})) << "it returns at once";
  const Response answer = kept(sheets, {"paper-wall", 5, "key00001"});
  EXPECT_EQ(answer.status, 200);
  EXPECT_EQ(Json::parse(answer.body), Json({{"item", "paper-wall"}, {"revision", 5}, {"labels", 3}}));
  EXPECT_THAT(text("words"), testing::MatchesRegex("--house=.*/a\\.house print --printed=paper-wall --revision=5 --date=2026-11-27 --json\n"));
  EXPECT_EQ(kept(sheets, {"paper-wall", 5, "key00001"}).body, answer.body);
  EXPECT_EQ(runs(), 1U) << "no list, no drawing, and nothing twice";
  EXPECT_EQ(kept(sheets, {"paper-wall", 5, "key00002"}).status, 200);
  EXPECT_EQ(runs(), 2U);
  EXPECT_GE(told, 2);
}

TEST_F(SheetsTest, what_could_not_be_written_down_is_tried_again_and_what_was_never_there_is_not) {
  keeping = "[ -e " + (folder.path() / "good").string() + " ] || exit 3";
  program("");
  Sheets sheets(options, tell);
  EXPECT_EQ(kept(sheets, {"paper-wall", 5, "key00001"}).status, 503);
  std::ofstream(folder.path() / "good") << "x";
  EXPECT_EQ(kept(sheets, {"paper-wall", 5, "key00001"}).status, 200);
  EXPECT_EQ(runs(), 2U);
  keeping = "exit 4";
  program("");
  EXPECT_EQ(kept(sheets, {"paper-wall", 9, "key00003"}).status, 400);
  EXPECT_EQ(kept(sheets, {"paper-wall", 9, "key00003"}).status, 400);
  EXPECT_EQ(runs(), 3U);
}

TEST_F(SheetsTest, what_is_said_to_be_printed_needs_a_device_that_may_answer_a_name_a_revision_and_a_key) {
  Sheets sheets(options, tell);
  const std::vector<Route> routes = sheet_routes(sheets);
  const auto route = std::ranges::find(routes, "/api/printed", &Route::path);
  ASSERT_NE(route, routes.end());
  EXPECT_EQ(route->verb, Verb::post);
  EXPECT_EQ(route->least, Role::trace);
  EXPECT_FALSE(route->by_itself);
  const Request request;
  const Device device{1, Role::trace, ""};
  using Body = nlohmann::ordered_json;
  const Body good{{"item", "paper-wall"}, {"revision", 5}, {"key", "key00001"}};
  const std::pair<const char*, Body> bad[] = {{"item", ""}, {"item", "../paper-wall"}, {"item", "--to=x"}, {"item", "paper wall"}, {"item", "Paper-wall"}, {"item", std::string(97, 'a')}, {"item", 1},
                                              {"revision", 0}, {"revision", -1}, {"revision", "5"}, {"revision", 5e9}, {"revision", nullptr}, {"key", ""}, {"key", "short"}, {"key", "key 00001"}, {"key", std::string(65, 'k')}};
  for (const auto& [field, value] : bad) {
    Body body = good;
    body[field] = value;
    EXPECT_THROW((void)route->handler({request, device, body}), Error) << body;
  }
  for (const char* field : {"item", "revision", "key"}) {
    Body body = good;
    body.erase(field);
    EXPECT_THROW((void)route->handler({request, device, body}), Error) << body;
  }
  EXPECT_EQ(runs(), 0U) << "nothing of this reaches the program";
  EXPECT_TRUE(std::holds_alternative<Parked>(route->handler({request, device, good})));
  EXPECT_EQ(kept(sheets, {"paper-wall", 5, "key00001"}).status, 200);
  EXPECT_TRUE(std::holds_alternative<Response>(route->handler({request, device, good}))) << "it is done";
}

TEST_F(SheetsTest, a_row_that_was_printed_meanwhile_is_told_of_anew) {
  Sheets sheets(options, tell);
  EXPECT_EQ(Json::parse(about(sheets, "paper-wall").body)["state"], "never");
  program("", R"({"item":"paper-wall","title":"Sheet for the wall","state":"current","words":"Printed."})");
  std::filesystem::last_write_time(options.house, std::filesystem::last_write_time(options.house) + seconds(5));
  EXPECT_EQ(Json::parse(about(sheets, "paper-wall").body)["state"], "current");
  EXPECT_EQ(runs(), 3U) << "the list anew, not the drawing";
}

TEST_F(SheetsTest, what_is_kept_has_a_bound_and_the_least_lately_asked_for_goes_first) {
  program("head -c 60000 /dev/zero > $to/page-2.png", R"({"item":"a","title":"A","state":"never","words":""},{"item":"b","title":"B","state":"never","words":""},{"item":"c","title":"C","state":"never","words":""})");
  options.most_bytes = 150'000;
  Sheets sheets(options, tell);
  (void)picture(sheets, "a", "1"), (void)picture(sheets, "b", "1"), (void)picture(sheets, "a", "1"), (void)picture(sheets, "c", "1");
  EXPECT_LE(sheets.kept_bytes(), 150'000U);
  EXPECT_GT(sheets.kept_bytes(), 120'000U);
  const std::size_t before = runs();
  EXPECT_TRUE(sheets.picture("a", "1"));
  EXPECT_TRUE(sheets.picture("c", "1"));
  EXPECT_EQ(runs(), before);
  EXPECT_FALSE(sheets.picture("b", "1"));

  options.most_bytes = 110'000;  // half of it is less than this sheet
  Sheets small(options, tell);
  EXPECT_THAT(picture(small, "a", "1").body, HasSubstr("too large"));
  EXPECT_LT(small.kept_bytes(), 1000U);
}

TEST_F(SheetsTest, one_is_drawn_at_a_time_and_the_end_waits_for_none) {
  program("[ -e " + (folder.path() / "one").string() + " ] && exit 9; touch " + (folder.path() / "one").string() + "; sleep 0.1; rm " + (folder.path() / "one").string());
  {
    Sheets sheets(options, tell);
    (void)list(sheets);
    (void)sheets.picture("paper-wall", "1"), (void)sheets.picture("labels-dots", "1"), (void)sheets.picture("labels-dots", "2");
    EXPECT_EQ(picture(sheets, "labels-dots", "1").status, 200);
    EXPECT_EQ(picture(sheets, "paper-wall", "1").status, 200);
    EXPECT_EQ(runs(), 3U);
  }
  program("sleep 6000; touch " + (folder.path() / "waited").string());
  options.child.time = std::chrono::hours(1);
  {
    Sheets sheets(options, tell);
    (void)list(sheets), (void)sheets.picture("paper-wall", "1");
    while (runs() < 5) std::this_thread::sleep_for(milliseconds(5));
  }
  EXPECT_FALSE(std::filesystem::exists(folder.path() / "waited")) << "it was ended";
}

TEST_F(SheetsTest, a_device_waits_for_so_many_at_a_time_and_takes_no_other_device_s_place) {
  program("sleep 600");
  Sheets sheets(options, tell);
  (void)list(sheets);
  const Route route = sheet_routes(sheets)[1];
  EXPECT_EQ(route.path, "/api/sheet");
  EXPECT_EQ(route.least, Role::look);
  Request request;
  request.query = {{"item", "paper-wall"}, {"page", "1"}};
  const Device one{1, Role::look, ""}, other{2, Role::look, ""};
  const nlohmann::ordered_json none;
  std::vector<Answer> waiting;
  for (int i = 0; i < kMostSheetWaits; ++i) waiting.push_back(route.handler({request, one, none}));
  for (const Answer& answer : waiting) EXPECT_TRUE(std::holds_alternative<Parked>(answer));
  const Answer more = route.handler({request, one, none});
  ASSERT_TRUE(std::holds_alternative<Response>(more));
  EXPECT_EQ(std::get<Response>(more).status, 503);
  const Answer others = route.handler({request, other, none});
  ASSERT_TRUE(std::holds_alternative<Parked>(others));
  EXPECT_EQ(std::get<Parked>(others).answer(true)->status, 503) << "its time is over";
}

}  // namespace
}  // namespace ohmstead::web
