#pragma once
// Internal to the words of the outage board: parts that several of them use.

#include <string>
#include <vector>

#include "ask/outage_words.h"

namespace ohmstead::outage_words {

/// "freezer (Storage), oxygen concentrator (NE bedroom)"
[[nodiscard]] std::vector<std::string> load_names(const House& house, const std::vector<Id<Load>>& loads);
[[nodiscard]] std::string source_name(const OutageView& view);
[[nodiscard]] bool is_engine(const OutageView& view);
/// A load of the record, or a guest's thing with where it is.
[[nodiscard]] std::string consumer_name(const OutageView& view, const Consumer& one);
/// The same with the handle that it hangs on: "freezer (Storage; handle 3 on Transfer)"; without one, as consumer_name.
[[nodiscard]] std::string consumer_on_handle(const OutageView& view, const Names& names, const Consumer& one);
/// What stays off since an overload, with its handle and for how long.
[[nodiscard]] std::vector<std::string> left_out_texts(const OutageView& view, const OutageStatus& status);
/// What a hand does to switch it off: its handle, where that carries nothing else and it has no plug or switch that is sure to be
/// at hand; else the thing itself: "Move handle 3 on Transfer to OFF: well pump (Cellar)", "Switch off or unplug television (Hall; handle 4 on Transfer)".
[[nodiscard]] std::string switch_off_text(const OutageView& view, const Names& names, const Consumer& one);
/// Where a handle is to stand, as it is marked: "BACKUP", "OFF", "ON".
[[nodiscard]] std::string throw_text(const HandleRef& handle, int to);
/// "3 h 20 min", "45 min"
[[nodiscard]] std::string minutes_text(long minutes);
/// Steps at the source itself: where it stands, its cord, start, fuel, stop, and what asks about an automatic switch.
void say_source_step(const OutageView& view, const Names& names, const OutageStep& step, Lines& lines);
/// Which breakers stay on, by the kept plan, behind a source that comes onto their panel by itself.
void say_stay_on(const OutageView& view, const Names& names, Lines& lines);
/// What keeps somebody alive and has no power: said before all else.
void say_life(const OutageView& view, const std::vector<std::size_t>& loads, Lines& lines);
/// What hangs on a unit: its loads, and its other points by room.
[[nodiscard]] std::vector<std::string> comes_on_items(const OutageView& view, int unit);

}  // namespace ohmstead::outage_words
