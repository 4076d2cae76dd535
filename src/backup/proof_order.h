#pragma once
// In which order positions go to the source while proving, so that it never has to give more than it can.

#include <vector>

#include "backup/proof_wiring.h"

namespace ohmstead {

/// `units` in an order in which they may go to backup, with `on` there already: what keeps somebody alive first as far as the source's
/// starting limits let it, then what is hurt by a power loss, then larger starts before smaller (backup/start_order.h). A unit starts with
/// every load on it that is wanted in an outage. Where no order keeps the limits, or what the source gives is not recorded: the same
/// order without the limits.
[[nodiscard]] std::vector<std::size_t> backup_order(const House& house, const ProofWiring& wiring, const std::vector<std::size_t>& units,
                                                    const std::vector<std::size_t>& on);

/// Breakers in an order in which they may go on, with nothing on before: the same, by what of their lines is wanted in an outage.
[[nodiscard]] std::vector<Id<Breaker>> breaker_order(const House& house, const ProofWiring& wiring, const std::vector<Id<Breaker>>& breakers);

}  // namespace ohmstead
