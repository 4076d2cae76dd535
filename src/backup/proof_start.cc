#include "backup/proof_start.h"

#include <algorithm>
#include <charconv>
#include <set>

#include "backup/proof_board.h"

namespace ohmstead {

void prove_anew(House& house) {
  for (Round& round : house.rounds)
    if (round.kind == RoundKind::proof) round.finished = true;
  std::erase_if(house.settings, [](const Setting& setting) { return setting.name.starts_with(kProveTry); });
  const std::string from = std::to_string(house.rounds.size());
  const auto found = std::ranges::find(house.settings, kProveFrom, &Setting::name);
  if (found != house.settings.end()) found->value = from;
  else house.settings.push_back({Id<Setting>::fresh(), kProveFrom, from});
}

std::size_t proofs_from(const House& house) {
  const auto found = std::ranges::find(house.settings, kProveFrom, &Setting::name);
  if (found == house.settings.end()) return 0;
  std::size_t from = 0;
  std::from_chars(found->value.data(), found->value.data() + found->value.size(), from);
  return std::min(from, house.rounds.size());
}

House without_proofs(const House& house) {
  House plain = house;
  std::set<Id<Round>> proofs;
  for (const Round& round : house.rounds)
    if (round.kind == RoundKind::proof) proofs.insert(round.id);
  std::erase_if(plain.observations, [&](const Observation& seen) { return proofs.contains(seen.round); });
  std::erase_if(plain.opened, [&](const Opened& opened) { return proofs.contains(opened.round); });
  std::erase_if(plain.rounds, [&](const Round& round) { return proofs.contains(round.id); });
  return plain;
}

}  // namespace ohmstead
