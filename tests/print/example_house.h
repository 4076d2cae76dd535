#pragma once
// An invented house for looking at a printed card: 26 breakers of every kind in one panel, a
// subpanel, a transfer device, an interlocked inlet.

#include "feed/feeds.h"
#include "tests/print/house_maker.h"

namespace ohmstead::test {

struct ExampleHouse {
  House house;
  Feeds feeds;
  Id<Panel> main, workshop;
};

[[nodiscard]] ExampleHouse example_house();

}  // namespace ohmstead::test
