#pragma once
// Invented houses with their truth, for tests and measurements of tracing. Invented data: good for
// comparing one way of tracing with another on the same houses, never a check against the outside.
// All numbers behind them (how many rooms, points, labels, strays) are domain experience, no source.

#include "tests/trace/world.h"

namespace ohmstead::test {

/// A house that depends on `kind` and `seed` alone, the same with every compiler and library.
/// It keeps fault_of (tests/trace/world.h).
///
/// - ordinary: a North American dwelling of about 13 rooms, 98 points and 28 breakers, of which 2
///   spare; 16 are labelled, most of them right; 5 points are on a surprising circuit, 1.4 dead at
///   the start; split receptacles, breakers that may only be off alone, tied multiwire pairs.
/// - labels_wrong: the same, but each label tells of another circuit.
/// - no_labels: the same without labels.
/// - no_locality: the points of each circuit come from the whole house, as far as kinds and
///   ratings allow it.
/// - few_circuits: an old house of 6 to 10 breakers and 35 to 50 points; lights and receptacles of
///   some rooms of one floor share a breaker.
/// - two_panels: an ordinary house with a subpanel in another room, and its feeder in the main panel.
/// - single_phase_230: lights on 6 or 10 A, socket outlets on 16 A, larger loads on their own; no breaker
///   has two poles.
/// - tiny: 4 breakers and 4 to 6 points, so that an exact optimum can be computed.
/// - big: 200 breakers in 3 panels and 1000 points, for the time that a step takes.
[[nodiscard]] World make_world(WorldKind kind, unsigned seed);

}  // namespace ohmstead::test
