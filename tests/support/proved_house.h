#pragma once
// A house after a proving session.

#include "ask/record.h"
#include "survey/entry.h"
#include "tests/support/proving_played.h"

namespace ohmstead {

/// One position in use, and its house after a proving session. With `past` everything is live always: it is fed past the positions.
[[nodiscard]] inline Record after_proving(bool past) {
  House house;
  house.dwelling.id = {1};
  house = enter_text(house, "Cellar: freezer 100/400 W nameplate !, 2l\nPanel Main in Cellar 12 spaces, 100 A main: 1 15; 5 15; 7 15\nGenerator G 3600/4500 W 120/240\n"
                            "Transfer T in Cellar 2 positions from G: 1 15 <- Main 1; 2 15\nBy J.\nCellar freezer <- Main 1\nCellar light 1 <- Main 5\nCellar light 2 <- Main 7\n").house;
  ProvingSession session(house, make_record(house).feeds, house.sources[0].id);
  play_proving(session, past);
  return make_record(session.house());
}

}  // namespace ohmstead
