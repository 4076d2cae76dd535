#pragma once
// "Why is it dead?" as a state machine without input or output:
//   step() -> a person looks -> answer() -> step() ...
// Its whole state is in rows of the house (diagnosis, diagnosis_look), so a session that was interrupted goes on exactly where it was.
// The caller writes house() to disk before it shows the next step. Nobody is sent into a panel: handles and lamps are looked at, and
// a meter is used at receptacles only, by who owns one.

#include <memory>
#include <vector>

#include "trace/diagnosis_step.h"

namespace ohmstead {

/// What is known when it is asked.
struct DiagnosisStart {
  std::vector<Id<Point>> dead, live;
  std::vector<HandleRef> off, tripped;  ///< as found: tripped ones are not in `off`
};
/// The house with a new session in it. `diagnosis.id` is given one where it has none; one that was not finished is ended. Of the
/// dead the first kMostComplaints are why it is asked; the rest is seen like anything else. Throws Error{invalid_input} and changes
/// nothing where nothing is said to be dead.
[[nodiscard]] House begin_diagnosis(House house, Diagnosis diagnosis, const DiagnosisStart& start);
inline constexpr std::size_t kMostComplaints = 20;
/// The session that is not finished, or none.
[[nodiscard]] Id<Diagnosis> open_diagnosis(const House& house);

class DiagnosisSession {
 public:
  /// Precondition: the house is sound. Throws Error{not_found} where there is no such session.
  DiagnosisSession(House house, Id<Diagnosis> diagnosis);
  ~DiagnosisSession();
  DiagnosisSession(DiagnosisSession&&) noexcept;
  DiagnosisSession& operator=(DiagnosisSession&&) noexcept;

  [[nodiscard]] const House& house() const;
  [[nodiscard]] const DiagnosisStep& step() const;
  /// Most believed first; beliefs add up to 1.
  [[nodiscard]] const std::vector<RankedCause>& causes() const;
  /// Causes that are as good as the first: no look that is left would tell them from it.
  [[nodiscard]] std::vector<RankedCause> settled() const;
  [[nodiscard]] const std::vector<RankedCause>& singles() const;  ///< what `both` of two faults names
  [[nodiscard]] std::size_t looks() const;  ///< answered so far, those that tell something

  /// Takes the answer to step(). Throws Error{invalid_input} and changes nothing if the step cannot be answered so.
  void answer(const DiagnosisAnswer& answer);
  /// Takes back the last answer that still stands; it stays in the record as withdrawn. False when there is nothing to take back.
  bool undo();

 private:
  struct State;
  std::unique_ptr<State> state_;
};

}  // namespace ohmstead
