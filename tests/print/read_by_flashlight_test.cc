// Every code of every sheet of the sample house, read back by ZBar and ZXing from what poppler draws: clean, stained, and as photographed
// by flashlight; and the least size of the words on them. With OHMSTEAD_FRAMES=N each code is stained N times, and damage beyond what is promised is counted, too.
#include <gmock/gmock.h>

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <map>
#include <random>
#include <set>

#include "ask/location.h"
#include "print/code.h"
#include "print/fit_text.h"
#include "tests/print/decode.h"
#include "tests/print/geometry.h"
#include "tests/print/photograph.h"
#include "tests/print/set_of_sheets.h"

namespace ohmstead {
namespace {

using test::Picture, test::SheetOfSet, test::SetOfSheets;
using testing::Contains;
using testing::HasSubstr;

const SetOfSheets& sheets() {
  static const SetOfSheets kSheets = test::set_of_sheets(test::planned_sample());
  return kSheets;
}

bool count_more() { return std::getenv("OHMSTEAD_FRAMES") != nullptr; }
unsigned frames_to_try() { return count_more() ? static_cast<unsigned>(std::atoi(std::getenv("OHMSTEAD_FRAMES"))) : 1; }

/// Calls `use(code, page picture)` for every code, each page drawn once.
template <class F>
void for_each_code(const SheetOfSet& sheet, int dpi, F&& use) {
  Picture page;
  int drawn = -1;
  for (const DrawnCode& code : sheet.canvas.codes) {
    if (code.page != drawn) page = test::rendered(sheet.pdf, drawn = code.page, dpi);
    use(code, page);
  }
}

/// The one text of the sheet that this code was made from. The codes of a copy are in another order than its pieces.
std::string text_of(const SheetOfSet& sheet, const DrawnCode& code) {
  const auto at = static_cast<std::size_t>(&code - sheet.canvas.codes.data());
  if (sheet.name != "copy") {
    const std::string& text = sheet.code_texts.at(at);
    const auto same = [&](Correction correction) { return make_code(text, correction).dark == code.code.dark; };
    return same(Correction::quartile) || same(Correction::medium) ? text : "";
  }
  for (const std::string& text : sheet.code_texts)
    if (make_code_of_capitals(text, (code.code.modules - 17) / 4).dark == code.code.dark) return text;
  return "";
}

bool is_quartile(const SheetOfSet& sheet, const DrawnCode& code, const std::string& text) { return sheet.name != "copy" && make_code(text, Correction::quartile).dark == code.code.dark; }

TEST(Sheets, the_sample_house_has_a_code_on_each_that_should_have_one) {
  std::map<std::string, std::size_t> codes;
  for (const auto& sheet : sheets()) {
    EXPECT_EQ(sheet->canvas.codes.size(), sheet->code_texts.size()) << sheet->name;
    codes[sheet->name] += sheet->code_texts.size();
  }
  for (const char* name : {"directory", "by room", "plates", "panels", "strips", "transfer", "plan", "worksheet", "wall", "packet", "floor-plan", "signs", "copy"}) std::printf("%s: %zu codes\n", name, codes[name]);
  for (const char* name : {"directory", "plates", "panels", "strips", "transfer", "plan", "worksheet", "wall", "packet", "floor-plan", "signs", "copy"}) EXPECT_GT(codes[name], 0U) << name;
}

TEST(Sheets, every_code_is_read_by_both_readers_at_300_dpi) {
  std::size_t count = 0;
  for (const auto& sheet : sheets())
    for_each_code(*sheet, 300, [&](const DrawnCode& code, const Picture& page) {
      const std::string text = text_of(*sheet, code);
      ASSERT_FALSE(text.empty()) << sheet->name;
      const Picture picture = test::cropped(page, code.area, 300, 0);
      EXPECT_THAT(test::zbar_read(picture), Contains(text)) << sheet->name << " " << count;
      EXPECT_EQ(test::zxing_read(picture), text) << sheet->name << " " << count;
      ++count;
    });
  EXPECT_GT(count, 200U);
}

struct Tally {
  std::size_t tried = 0, zbar = 0, zxing = 0, either = 0;
  void add(const Picture& picture, const std::string& text) {
    const std::set<std::string> all = test::zbar_read(picture);
    const bool by_zbar = all.contains(text), by_zxing = test::zxing_read(picture) == text || test::zxing_read(test::scaled(picture, 2)) == text;
    ++tried, zbar += by_zbar, zxing += by_zxing, either += by_zbar || by_zxing;
  }
  void print(const std::string& name) const { std::printf("%-28s %5zu codes: ZBar %zu, ZXing %zu, either %zu\n", name.c_str(), tried, zbar, zxing, either); }
};

/// A stain over this share of a code. What is promised of codes with correction M and Q must always be read.
struct Stain {
  double share = 0;
  bool promised = true;
};
std::vector<Stain> stains(bool quartile) {
  std::vector<Stain> all{{0}, {quartile ? 0.10 : 0.05}};
  if (count_more()) all.push_back({quartile ? 0.15 : 0.10, false});
  return all;
}

/// As the camera sees it: turned by 10 degrees, blurred by 0.10 mm, then taken at 150 dpi; one stain.
TEST(Sheets, every_code_survives_the_stain_of_its_class_at_150_dpi) {
  std::map<std::string, Tally> promised, counted;
  for (const auto& sheet : sheets()) {
    unsigned number = 0;
    for_each_code(*sheet, 300, [&](const DrawnCode& code, const Picture& page) {
      const std::string text = text_of(*sheet, code);
      const bool quartile = is_quartile(*sheet, code, text);
      const Picture clean = test::cropped(page, code.area, 300, 0);
      ++number;
      for (unsigned frame = 0; frame < frames_to_try(); ++frame)
        for (const Stain& stain : stains(quartile)) {
          const Picture dirty = stain.share == 0 ? clean : test::stained(clean, code.code.modules, stain.share, 1000 * frame + number);
          const Picture seen = test::scaled(test::blurred(test::rotated(dirty, frame % 2 == 0 ? 10 : -10), 0.10 * 300 / 25.4), 0.5);
          (stain.promised ? promised : counted)[sheet->name + (quartile ? " Q " : " M ") + std::to_string(std::lround(100 * stain.share)) + " %"].add(seen, text);
        }
    });
  }
  for (const auto& [name, tally] : promised) {
    tally.print(name);
    EXPECT_EQ(tally.either, tally.tried) << name;
  }
  for (const auto& [name, tally] : counted) tally.print(name + ", not promised");
}

/// What the codes of a place must stand: a stain over a tenth; in a damp place also ink that is washed out, in a wet one ink that the
/// sun has bleached and a camera that is less sharp.
struct Wear {
  Location location = Location::damp;
  double ink = 1, blur_mm = 0.10;
};

TEST(Sheets, every_code_survives_the_wear_of_its_place) {
  for (const Wear& wear : {Wear{Location::damp, 0.6, 0.10}, Wear{Location::wet, 0.4, 0.15}}) {
    std::map<std::string, Tally> tallies;
    for (const auto& sheet : test::sheets_for(test::planned_sample(), wear.location)) {
      unsigned number = 0;
      for_each_code(*sheet, 300, [&](const DrawnCode& code, const Picture& page) {
        const std::string text = text_of(*sheet, code);
        EXPECT_TRUE(is_quartile(*sheet, code, text)) << text;
        EXPECT_GE(code.area.width / (code.code.modules + 2 * kQuietModules), (wear.location == Location::wet ? 0.50 : 0.40) - 1e-9);
        const Picture clean = test::cropped(page, code.area, 300, 0);
        ++number;
        for (unsigned frame = 0; frame < frames_to_try(); ++frame) {
          const Picture worn = test::faded(test::stained(clean, code.code.modules, 0.10, 1000 * frame + number), wear.ink);
          tallies[sheet->name].add(test::scaled(test::blurred(test::rotated(worn, frame % 2 == 0 ? 10 : -10), wear.blur_mm * 300 / 25.4), 0.5), text);
        }
      });
    }
    ASSERT_EQ(tallies.size(), 4U);
    for (const auto& [name, tally] : tallies) {
      tally.print(name + ", " + std::string(ohmstead::text_of(wear.location)));
      EXPECT_EQ(tally.either, tally.tried) << name;
    }
  }
}

/// What the flashlight gives where it is aimed, of what the camera needs for white, and the noise of the camera there.
struct Light {
  double light = 1, noise = 10;
  bool promised = true;  ///< else it is counted only
};

test::Frame frame_of(const Area& area, const Light& light, unsigned seed) {
  std::mt19937 random(seed);
  const auto between = [&](double low, double high) { return std::uniform_real_distribution<double>(low, high)(random); };
  test::Frame frame;
  frame.tilt_degrees = between(25, 30), frame.turn_degrees = between(-10, 10), frame.light = light.light, frame.noise = light.noise, frame.glare_mm = 10, frame.seed = seed;
  frame.spot_x = area.x + between(0, area.width), frame.spot_y = area.y + between(0, area.height);
  return frame;
}

/// A phone takes many frames a second; five are enough here.
TEST(Flashlight, codes_of_wall_and_plates_are_read_from_one_of_five_frames) {
  std::vector<Light> lights{{0.3, 10}};
  if (count_more()) lights.insert(lights.end(), {{0.2, 10, false}, {0.12, 10, false}, {0.12, 4, false}});
  for (const auto& sheet : sheets()) {
    if (sheet->name != "wall" && sheet->name != "plates") continue;
    for (const Light& light : lights) {
      Tally each;
      unsigned number = 0, codes = 0, read = 0;
      for_each_code(*sheet, 300, [&](const DrawnCode& code, const Picture& page) {
        ++number;
        const std::string text = text_of(*sheet, code);
        const std::size_t before = each.either;
        for (unsigned frame = 0; frame < 5 && each.either == before; ++frame) each.add(test::photographed(page, 300, code.area, frame_of(code.area, light, 10 * number + frame)), text);
        ++codes, read += each.either > before;
        if (count_more() && each.either == before) std::printf("not read: %.3f mm, %s: %s\n", code.area.width / (code.code.modules + 2 * kQuietModules), is_quartile(*sheet, code, text) ? "Q" : "M", text.c_str());
      });
      std::printf("%s, light %.2f, noise %.0f: %u of %u codes; frames: ", sheet->name.c_str(), light.light, light.noise, read, codes);
      each.print("");
      if (light.promised) { EXPECT_EQ(read, codes) << sheet->name << " light " << light.light; }
    }
  }
}

/// Least sizes in points, by what they are for.
double least_points(const std::string& sheet) {
  const bool label = sheet == "plates" || sheet == "panels" || sheet == "strips" || sheet == "transfer" || sheet == "dots";
  return sheet == "directory" ? 9 : label ? 6 : kLeastPoints;
}

TEST(Flashlight, no_words_are_under_the_least_size_of_their_sheet) {
  for (const auto& sheet : sheets()) {
    double least = 1000;
    for (const DrawnText& text : sheet->canvas.texts) least = std::min(least, text.style.points);
    std::printf("%-12s least %.1f pt of %zu texts\n", sheet->name.c_str(), least, sheet->canvas.texts.size());
    EXPECT_GE(least, least_points(sheet->name)) << sheet->name;
  }
}

}  // namespace
}  // namespace ohmstead
