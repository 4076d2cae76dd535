#pragma once
// A house with what follows from it: the feeds concluded, and the graph built on them. Every
// question is answered from one of these.

#include "feed/graph.h"
#include "feed/liveness.h"
#include "trace/behind_found.h"

namespace ohmstead {

struct Record {
  House house;  ///< as found: with what looks have found behind its devices (trace/behind_found.h)
  Feeds feeds;
  Graph graph;
  std::vector<FoundBehind> found_behind;  ///< which of it was found so
};

/// Concludes and builds. Never write `Record::house` back: what was found is not part of the record.
[[nodiscard]] Record make_record(House house);

/// How the house is supplied when a question is asked.
struct Supplied {
  int source = 0;  ///< 0 utility, else place in house.sources plus one
};

/// The state to start from: an ordinary day, or an outage carried by the source.
[[nodiscard]] State state_when(const Record& record, Supplied supplied);

}  // namespace ohmstead
