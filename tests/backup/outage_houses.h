#pragma once
// The houses that outages are played in: a transfer device with seven positions, and an interlock.

#include <string>

#include "outage_story.h"

namespace ohmstead {

inline constexpr const char* kRooms =
    "Cellar: freezer 100/400 W !, well pump 240 V 750/2200 W !, furnace 500/1200 W !\n"
    "Kitchen: refrigerator 150/600 W !, 2r, receptacle with kettle 1500 W\n"
    "Bedroom: oxygen concentrator 350 W !!, 2r\n"
    "Panel Main in Cellar 20 spaces, 100 A main: 1 15; 3 15; 5 15; 7 20; 9 15; 2+4 20";
inline constexpr const char* kFeeds =
    "By J.\nCellar freezer <- Main 1\nCellar furnace <- Main 3\nKitchen refrigerator <- Main 5\nKitchen receptacle 1 <- Main 7\n"
    "Kitchen receptacle 2 <- Main 7\nKitchen receptacle 3 <- Main 7\nBedroom oxygen concentrator <- Main 9\nBedroom receptacle 1 <- Main 9\n"
    "Bedroom receptacle 2 <- Main 9\nCellar well pump <- Main 2+4\n";

inline std::string on_positions(const std::string& source = "Generator G 3600/4500 W 120/240") {
  return std::string(kRooms) + "\n" + kFeeds + source +
         "\nTransfer T in Cellar 7 positions from G: 1 15 L1 <- Main 1; 2 15 L1 <- Main 3; 3 15 L2 <- Main 5; 4 20 L1 <- Main 7; 5 15 L2 <- Main 9; 6+7 20 <- Main 2+4\n";
}
inline std::string on_interlock(const std::string& source = "Generator G 3600/4500 W 120/240") {
  return source + "\n" + kRooms + "; 6+8 30 backfed from G, interlocked\n" + kFeeds;
}

/// The story after the utility was told to be gone.
inline OutageStory begun(const std::string& text) {
  OutageStory story(text);
  story.board().begin(story.time(), "Ana");
  return story;
}

}  // namespace ohmstead
