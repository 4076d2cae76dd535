#pragma once
// The questions a household asks, and their answers as plain values. Commands, page, paper and
// QR text render these and never compute them again. Sentences are in answer_words.h.

#include <optional>
#include <string>
#include <vector>

#include "ask/dangers.h"
#include "ask/record.h"
#include "feed/isolate.h"
#include "feed/restore.h"
#include "feed/what_if.h"
#include "trace/contradictions.h"

namespace ohmstead {

/// One handle to be moved, as asked for.
struct AskedMove {
  HandleRef handle;
  Throw to = kOff;
};

/// What goes off (and on) if these handles move.
struct OffAnswer {
  Supplied supplied;
  std::vector<HandleRef> moved;      ///< with those tied to them
  Change change;
  std::vector<std::size_t> hurt;     ///< points in change.off with a load that is hurt by power loss
  std::vector<InterlockedPair> broken_interlocks;
  std::vector<dangers::NotKnownNear> not_known_near;      ///< in the same box, not traced: may stay live
  std::vector<Id<TransferDevice>> will_move;              ///< automatic, and losing their normal side
  std::vector<HandleRef> stays_fed;  ///< breakers that are off now but whose circuit stays live from another side
};

[[nodiscard]] OffAnswer what_goes_off(const Record& record, const std::vector<AskedMove>& moves, Supplied supplied);

/// Where a point is, what feeds it, what carries it in an outage, what else hangs on it.
struct WhereAnswer {
  std::size_t point = 0;
  Feed feed;
  std::vector<Id<Device>> behind;        ///< nearest first
  std::vector<Id<Position>> positions;   ///< transfer positions that carry its circuit
  std::vector<Id<Panel>> panels;         ///< from its own panel up to the service
  std::vector<std::size_t> same_breaker; ///< other points on the same breaker
  std::size_t seen_dead = 0, seen_live = 0;  ///< observations that count
  std::string last_seen;                 ///< UTC of the newest of them; empty: none
  std::vector<std::size_t> loads;        ///< places in house.loads
};

[[nodiscard]] WhereAnswer where_is(const Record& record, std::size_t point);

/// Everything a breaker (or a position, switch, GFCI) carries.
struct CarriesAnswer {
  HandleRef handle;
  std::vector<std::size_t> points;
};

[[nodiscard]] CarriesAnswer what_does_it_carry(const Record& record, HandleRef handle);

/// What must be opened to work in a box.
struct IsolateAnswer {
  Id<Box> box;                    ///< none: the point's box is not recorded, it alone was looked at
  InBox inside;
  Isolation isolation;
  bool unknown_supply = false;    ///< something in it can still be fed by what the record does not know
};

[[nodiscard]] IsolateAnswer isolate_box(const Record& record, Id<Box> box);
[[nodiscard]] IsolateAnswer isolate_point(const Record& record, std::size_t point);

/// What brings a point back.
struct RestoreAnswer {
  std::size_t point = 0;
  Supplied from;
  bool works_already = false;
  Restoration restoration;
};

/// `now` is where the handles stand; see state_when and move_handle.
[[nodiscard]] RestoreAnswer bring_back(const Record& record, std::size_t point, const State& now, Supplied from);

/// What is recorded and what is still open.
struct StandAnswer {
  std::size_t rooms = 0, points = 0, breakers = 0, observations = 0;
  std::vector<std::size_t> proved, declared, likely, open, disputed;  ///< points
  std::vector<Id<Breaker>> nothing_found;                              ///< breakers with no point on them
  std::vector<Contradiction> contradictions;                          ///< what was seen against the most believed feeds
};

[[nodiscard]] StandAnswer how_it_stands(const Record& record);

}  // namespace ohmstead
