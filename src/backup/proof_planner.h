#pragma once
// Internal to next_proof_step: the parts of the policy.

#include <optional>

#include "backup/proof_looks.h"
#include "backup/proof_plan.h"

namespace ohmstead::backup_detail {

class ProofPlanner {
 public:
  explicit ProofPlanner(const ProofBoard& board);
  [[nodiscard]] ProofStep next() const;
  [[nodiscard]] const Series& series() const { return series_; }
  [[nodiscard]] ProofProgress progress() const;

 private:
  // On the utility (proof_plan.cc)
  [[nodiscard]] ProofStep next_on_utility() const;
  [[nodiscard]] std::vector<DueLook> due_on_utility() const;
  void add_planned(std::vector<DueLook>& due, const ProofState& state) const;
  void add_doubtful(std::vector<DueLook>& due) const;
  void add_search(std::vector<DueLook>& due) const;
  void add_ordinary(std::vector<DueLook>& due) const;
  [[nodiscard]] std::optional<ProofState> next_state_on_utility(ProofReason& reason) const;
  [[nodiscard]] std::optional<ProofState> state_for_doubt() const;
  [[nodiscard]] std::optional<ProofState> state_for_search() const;
  [[nodiscard]] bool searches(std::size_t unit, std::size_t line) const;
  [[nodiscard]] ProofState with_off(const std::vector<std::size_t>& units) const;

  // With the source running (proof_plan_source.cc)
  [[nodiscard]] ProofStep next_with_source() const;
  [[nodiscard]] ProofStep next_main_off() const;
  [[nodiscard]] int moves_with_source(bool looks_left) const;
  [[nodiscard]] bool wants_source() const;
  [[nodiscard]] std::vector<std::size_t> back_lines(bool if_all_is_right) const;
  [[nodiscard]] std::vector<DueLook> due_back() const;
  [[nodiscard]] std::vector<DueLook> due_backup(const ProofState& state) const;
  void add_halves(std::vector<DueLook>& due, const ProofState& state) const;
  [[nodiscard]] std::optional<ProofState> backup_state() const;
  [[nodiscard]] bool back_alarm() const;
  [[nodiscard]] bool panel_alarm() const;
  [[nodiscard]] bool time_over() const;
  [[nodiscard]] ProofState main_off() const;  ///< every position on utility, main off, source running

  // Steps
  [[nodiscard]] ProofStep look_at(const std::vector<DueLook>& due) const { return backup_detail::look_at(board_, due); }
  [[nodiscard]] ProofStep move_to(const ProofState& state, ProofReason reason) const;
  [[nodiscard]] std::vector<std::size_t> moving_order(const ProofState& state) const;
  [[nodiscard]] bool loses_power(std::size_t unit, const ProofState& state) const;
  [[nodiscard]] std::optional<ProofStep> caution_before(const ProofState& state) const;
  void add_due(std::vector<DueLook>& due, const ProofState& state, std::size_t line, ProofReason reason, bool another = false) const {
    backup_detail::add_due(board_, due, state, {line, reason, another});
  }
  [[nodiscard]] int looks_in(std::size_t line, const ProofState& state) const { return backup_detail::looks_in(board_, line, state); }
  [[nodiscard]] bool last_was_dead(std::size_t line) const { return backup_detail::last_was_dead(board_, line); }

  const ProofBoard& board_;
  const ProofWiring& wiring_;
  Verdict verdict_;
  std::vector<std::size_t> unit_of_series_;  ///< units that take part in the series
  Series series_;                            ///< with places in wiring_.units
};

}  // namespace ohmstead::backup_detail
