#pragma once
// Random houses that keep every rule of house/invariants.h, for tests that must hold in any house.

#include <cstdint>

#include "house/house.h"

namespace ohmstead {

/// A sound house that depends on `seed` and `size` alone: the same two numbers give the same value,
/// ids included. `size` (1 or more) is its number of rooms; there are about four points in each.
/// Over some hundred seeds every field and every kind of thing occurs: all numberings and voltage
/// systems, tandems, quads, 3-pole breakers, handle ties, subpanels on breakers and on transfer
/// positions, multiwire circuits, wall switches alone and in groups, GFCI chains, disconnects,
/// split receptacles, both kinds of transfer device, backfed breakers, interlocks, sources of every
/// output, evidence of every kind, notes on everything, names in many scripts.
[[nodiscard]] House random_house(std::uint64_t seed, int size);

}  // namespace ohmstead
