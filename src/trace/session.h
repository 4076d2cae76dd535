#pragma once
// A guided tracing session as a state machine without input or output:
//   step() -> a person does it -> answer() -> step() ...
// Its whole state is in rows of the house (rounds, opened handles, observations, settings), so a
// session that was interrupted goes on exactly where it was when the file is opened again. The
// caller writes house() to disk before it shows the next step.

#include <memory>
#include <vector>

#include "trace/plan.h"

namespace ohmstead {

class TraceSession {
 public:
  /// Precondition: the house is sound (house/invariants.h).
  explicit TraceSession(House house);
  ~TraceSession();
  TraceSession(TraceSession&&) noexcept;
  TraceSession& operator=(TraceSession&&) noexcept;

  [[nodiscard]] const House& house() const;
  [[nodiscard]] const Step& step() const;
  [[nodiscard]] Progress progress() const;
  [[nodiscard]] const Conclusions& conclusions() const;

  /// Takes the answer to step(). Throws Error{invalid_input} and changes nothing if the step
  /// cannot be answered so, or if `at` or `who` is longer than a name may be.
  void answer(const Answer& answer);

  /// Takes back the last answer that still stands; step() is then what it was before it. Looks
  /// stay in the record as withdrawn. False when there is nothing to take back. A skipped breaker
  /// or a caution can be taken back only in the run in which it was answered.
  bool undo();

  /// Takes back one look that turned out wrong later; undo() brings it back, in the same run. Throws
  /// Error{not_found}.
  void withdraw(Id<Observation> wrong);

  /// A breaker went off by itself, or was found off, and will not come on again: from now on it counts
  /// as open, also in what is left of this round. undo() takes it back. Throws Error{not_found}.
  void stays_off(Id<Breaker> breaker, const std::string& at, const std::string& who = "");

  /// The time now, UTC. After a pause it must be told before step() is shown: a breaker that may be
  /// off briefly is closed first when its time is over.
  void now_is(const std::string& at);

  /// Goes on with another state of the same house: points, breakers or a subpanel found on the
  /// way were added, or somebody else changed the file. Rows a running step needs must be in it.
  void adopt(House next);

  /// A point found on the way, with what is plugged or wired in at it. Can be taken back in this
  /// run until it is looked at. Throws Error{invalid_input} and changes nothing if the house would
  /// not be sound with it.
  void add(const Point& found, const std::vector<Load>& loads);

  /// Goes on in another manner; kept in the house. Throws as keep_manner.
  void work_as(const Manner& manner);
  /// These points are to be traced anew. Throws Error{not_found} and changes nothing.
  void again(const std::vector<Id<Point>>& points);

  /// Breakers that were skipped may be proposed again, and those that would not go on again: they
  /// are on now.
  void forget_skipped();

 private:
  struct State;
  std::unique_ptr<State> state_;
};

}  // namespace ohmstead
