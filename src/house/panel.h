#pragma once
// Panels, their breakers and the circuits that leave them. Which leg a breaker is on is never
// stored: it follows from the panel's numbering (house/numbering.h).

#include <string>

#include "house/enum_text.h"
#include "house/id.h"

namespace ohmstead {

struct Room;
struct Position;
struct Source;
struct Breaker;

/// How the spaces of a panel are numbered, seen from the front.
enum class Numbering {
  odd_left_even_right,  ///< 1 3 5 .. down the left, 2 4 6 .. down the right
  sequential_down,      ///< 1 .. n/2 down the left, the rest down the right
  single_column,        ///< 1 .. n in one column (or one row of a rail), no second column
};
OHMSTEAD_WORDS(Numbering, "odd_left_even_right", "sequential_down", "single_column")

/// What the line side of a panel is connected to.
enum class Supply { utility, breaker, position, nothing_known };
OHMSTEAD_WORDS(Supply, "utility", "breaker", "position", "nothing_known")

/// A panelboard or subpanel.
struct Panel {
  static constexpr const char* kTable = "panel";
  Id<Panel> id;
  std::string name;
  Id<Room> room;
  int spaces = 0;  ///< numbered places, 1..spaces
  Numbering numbering = Numbering::odd_left_even_right;
  Supply supply = Supply::nothing_known;
  Id<Breaker> feeder;     ///< with supply breaker: the breaker in another panel that feeds this one
  Id<Position> position;  ///< with supply position: a transfer position (one of its tied set)
  int main_amps = 0;      ///< rating of its own main breaker; 0: it has none
  bool operator==(const Panel&) const = default;
  template <class Self, class F>
  static void fields(Self& s, F&& f) {
    f("id", s.id), f("name", s.name), f("room", s.room), f("spaces", s.spaces), f("numbering", s.numbering),
        f("supply", s.supply), f("feeder", s.feeder), f("position", s.position), f("main_amps", s.main_amps);
  }
};

/// Which part of a space a breaker takes. A tandem puts two half-height breakers, a (upper) and
/// b (lower), into one space.
enum class Half { whole, a, b };
OHMSTEAD_WORDS(Half, "whole", "a", "b")

enum class Protection { plain, gfci, afci, dual };  ///< dual: both GFCI and AFCI
OHMSTEAD_WORDS(Protection, "plain", "gfci", "afci", "dual")

/// May this breaker be opened while tracing?
enum class OpenRule { free, briefly_alone, never };
OHMSTEAD_WORDS(OpenRule, "free", "briefly_alone", "never")

/// A breaker in a panel. It takes `poles` rows of its column from `space` down. With a half given
/// and two poles it is the outer (a) or inner (b) pair of a quad: a is space's upper and the next
/// space's lower half, b is the two halves in the middle.
struct Breaker {
  static constexpr const char* kTable = "breaker";
  Id<Breaker> id;
  Id<Panel> panel;
  int space = 0;
  Half half = Half::whole;
  int poles = 1;
  int amps = 0;  ///< 0: not read
  Protection protection = Protection::plain;
  Id<Breaker> tie;               ///< handle tie: id of the first breaker of the tie, also on that one; none: untied
  std::string old_label;         ///< words of the old directory, as found
  OpenRule open_rule = OpenRule::free;
  Id<Source> backfed_from;       ///< the source whose inlet is wired to this breaker; none: an ordinary breaker
  bool operator==(const Breaker&) const = default;
  template <class Self, class F>
  static void fields(Self& s, F&& f) {
    f("id", s.id), f("panel", s.panel), f("space", s.space), f("half", s.half), f("poles", s.poles),
        f("amps", s.amps), f("protection", s.protection), f("tie", s.tie), f("old_label", s.old_label),
        f("open_rule", s.open_rule), f("backfed_from", s.backfed_from);
  }
};

enum class WireMaterial { not_known, copper, aluminium, copper_clad_aluminium };
OHMSTEAD_WORDS(WireMaterial, "not_known", "copper", "aluminium", "copper_clad_aluminium")

/// What is known of the conductors behind a breaker: a branch circuit, or a feeder.
/// Circuits that share one neutral (a multiwire branch circuit) carry the same `multiwire`: the
/// id of the first of them, also on that one. A two-pole breaker that feeds 120 V points on both
/// poles is one circuit whose `multiwire` is its own id.
struct Circuit {
  static constexpr const char* kTable = "circuit";
  Id<Circuit> id;
  Id<Breaker> breaker;  ///< at most one circuit for each breaker
  std::string wire;     ///< size as the trade writes it: "14", "12", "2/0"; or "2.5 mm2"; empty: not known
  WireMaterial material = WireMaterial::not_known;
  int length_m = 0;  ///< one way to the farthest point; 0: not known
  Id<Circuit> multiwire;
  bool operator==(const Circuit&) const = default;
  template <class Self, class F>
  static void fields(Self& s, F&& f) {
    f("id", s.id), f("breaker", s.breaker), f("wire", s.wire), f("material", s.material),
        f("length_m", s.length_m), f("multiwire", s.multiwire);
  }
};

}  // namespace ohmstead
