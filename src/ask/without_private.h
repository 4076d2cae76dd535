#pragma once
// A house as a stranger may have it: what an owner who sells would hand to the buyer, and nothing of who lived there.

#include "house/house.h"

namespace ohmstead {

/// The same house, sound as before, without: notes that are private; who looked, declared, wrote or did a step; the outage log; settings;
/// the list of what was printed; what is plugged in at a receptacle and somebody's life hangs on (it tells of a person's health), with
/// notes about it. Persons in names and old labels go as on everything that is printed (rules/plain_words.h: "Bob's room" is "room").
/// Looks, declarations, plan and wiring stay as they are.
[[nodiscard]] House without_private(House house);

}  // namespace ohmstead
