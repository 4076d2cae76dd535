#pragma once
// A house as a stranger may have it: what an owner who sells would hand to the buyer, and nothing of who lived there.

#include "house/house.h"

namespace ohmstead {

/// The same house, sound as before, without: notes and photos that are private; who looked, declared, wrote or did a step; the outage log; settings;
/// the list of what was printed; machines that tell of somebody's health and what is plugged in and a life hangs on, with notes and photos of
/// them (a point that is called after such a machine is an "appliance"). Persons in names and old labels go as on everything that is printed (rules/plain_words.h: "Bob's room" is "room").
/// Looks, declarations, plan and wiring stay as they are.
[[nodiscard]] House without_private(House house);

}  // namespace ohmstead
