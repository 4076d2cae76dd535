#pragma once
// What is written on labels, as plain values: number dots, plates of points, panels, and strips for the breakers of
// a panel and the positions of a transfer device. Print draws them and computes nothing.

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "ask/location.h"
#include "ask/record.h"

namespace ohmstead {

/// Most bytes in the code of a label.
inline constexpr std::size_t kMostLabelCodeBytes = 160;

/// One line of a label in several ways of saying it, longest first, each of them true by itself and on one line.
struct LabelLine {
  std::vector<std::string> ways;
  bool required = false;  ///< else it may be left out where there is no room
};

struct LabelItem {
  std::string key;   ///< what it is about, the same as long as that is in the record: "plate:POINT", "dot:BREAKER"
  std::string name;  ///< "plate of Kitchen receptacle 1"
  std::vector<LabelLine> lines;    ///< most important first; the first is its head, and required
  std::vector<std::string> codes;  ///< texts of which one goes into its code, longest first; empty: it has none
  Location location = Location::dry;  ///< where it hangs, as far as the record tells
  bool heading = false;  ///< no label: says whose the labels after it are; it has one line
};

/// A label that is one of a row: from half a pitch to half a pitch, because a tandem splits its space.
struct LabelCell {
  LabelItem item;
  int first_half = 0, halves = 2;
};

/// Labels in one piece, beside a column of breakers or above a row of positions.
struct LabelStrip {
  std::string key;   ///< "strip:PANEL:0" (its column), "transfer:DEVICE"
  std::string name;  ///< "strip of Panel Main, left"
  std::string head;  ///< printed at its end: "Panel Main, left"
  bool down = true;  ///< its cells stand one under the other; else side by side
  int places = 0;    ///< whole pitches
  std::vector<LabelCell> cells;  ///< in their order, none over another
  std::vector<std::string> short_heads = {};  ///< its head in fewer words, longest first; each of them still tells which strip it is
};

/// What labels are made from.
struct LabelRecord {
  const Record& record;
  std::string as_of;  ///< at the end of every code: "2026-11-25 rev 12"
};

/// For each of these points (places in house.points) what to switch off, in which panel, its place on backup, and
/// what else goes off. Both halves of a split receptacle with the same feed share one. A feed that is not relied on
/// carries "?", one that is not established says so.
[[nodiscard]] std::vector<LabelItem> plate_labels(const LabelRecord& from, const std::vector<std::size_t>& points);
/// For each of these points the number of its breaker alone; "?" where it is not established.
[[nodiscard]] std::vector<LabelItem> point_dots(const LabelRecord& from, const std::vector<std::size_t>& points);

/// The number of each breaker, of one panel or of all, in their physical order. Where there are several panels a heading with the
/// panel's name stands before its own.
[[nodiscard]] std::vector<LabelItem> breaker_dots(const LabelRecord& from, std::optional<Id<Panel>> panel);
/// The name of each panel, what feeds it, and where it is.
[[nodiscard]] std::vector<LabelItem> panel_labels(const LabelRecord& from, std::optional<Id<Panel>> panel);
/// Number, words, rating and backup position beside each breaker; one strip a column.
[[nodiscard]] std::vector<LabelStrip> breaker_strips(const LabelRecord& from, std::optional<Id<Panel>> panel);

/// What a strip of a transfer device speaks of.
enum class StripOf {
  wired_now,  ///< what its positions carry by the record
  kept_plan,  ///< what they are to carry by the plan that is kept; each cell says whether it is wired so
};

/// One strip for each device with positions of its own (whole-house devices have none that carry a circuit): number,
/// what it carries, its watts, and whether that is wired, proved, or was found wrong. `what` none: as wired now; by the kept plan where nothing is
/// wired yet. Throws Error{not_found} if the plan is asked for and none is kept.
[[nodiscard]] std::vector<LabelStrip> transfer_strips(const LabelRecord& from, std::optional<StripOf> what = std::nullopt);

}  // namespace ohmstead
