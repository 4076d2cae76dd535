#pragma once
// The outage board as a state machine without input or output:
//   begin() -> step() -> a person does it -> answer() -> step() ...
// and at any time tell(): what somebody did or saw on their own. Its whole state is the outage log of the house
// (house/outage.h, backup/outage_now.h), so that it goes on where it was after it was closed, after a crash or
// after days. The caller writes house().outage_events to disk before it shows the next step.

#include "backup/outage_advice.h"

namespace ohmstead {

class OutageBoard {
 public:
  /// `source` is the place in house.sources of what carries the house. Precondition: the house is sound, the feeds
  /// fit it. Throws Error{invalid_input}, {not_found} as outage_gear does.
  OutageBoard(House house, const Feeds& feeds, std::size_t source);

  [[nodiscard]] const House& house() const { return house_; }
  [[nodiscard]] const OutageGear& gear() const { return gear_; }
  [[nodiscard]] const OutageNow& now() const { return now_; }
  [[nodiscard]] const OutageStep& step() const { return step_; }
  [[nodiscard]] OutageView view() const { return {house_, gear_, now_}; }

  /// The utility is gone: an outage begins, or goes on if the way home was not finished. Throws Error{invalid_input}
  /// if it is gone already.
  void begin(const std::string& at, const std::string& who = "");

  /// Takes the answer to step(). Throws Error{invalid_input} and changes nothing if the step cannot be answered so,
  /// or if `at` or `who` is longer than a name may be.
  void answer(const OutageAnswer& answer);

  /// What happened besides the steps: moved, load_on, load_off (`load`, or `text` with `point` and watts), overload,
  /// source_started, source_stopped, utility_back, note. Id is given here, the source where it is not named; an
  /// overload also gets what is to stay off; load_off of a load may say in `text` that it is kForAWhile, a note with `source` that it
  /// is kToRefuel or kRefuelled. Throws Error{invalid_input} or {not_found}, and changes nothing, if no outage is under way, there is
  /// no tank to refuel, the handle is none of those that carry power, or the row would not be sound.
  void tell(OutageEvent event);

  /// Takes back the last answer or what was told last, as withdrawn; step() is then what it was before. False when
  /// there is nothing to take back in the outage under way, or of what was answered in this run.
  bool undo();

 private:
  void add(OutageEvent event, const OutageAnswer& answer, bool first = true);
  void add_moves(const OutageAnswer& answer, bool to_backup, bool first);
  void take_move(const OutageAnswer& answer);
  void take_switch_off(const OutageAnswer& answer);
  void take_source(const OutageAnswer& answer);
  void check_tank() const;
  void refresh();

  House house_;
  OutageGear gear_;
  OutageNow now_;
  OutageStep step_;
  std::size_t lines_before_run_ = 0;
};

/// The source that carries the outage under way; where none is, the only one. Throws Error{not_found}, {ambiguous}.
[[nodiscard]] std::size_t outage_source(const House& house);

}  // namespace ohmstead
