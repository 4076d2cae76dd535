#pragma once
// A house with what follows from it: the feeds concluded, and the graph built on them. Every
// question is answered from one of these.

#include "feed/graph.h"
#include "feed/liveness.h"

namespace ohmstead {

struct Record {
  House house;
  Feeds feeds;
  Graph graph;
};

/// Concludes and builds.
[[nodiscard]] Record make_record(House house);

/// How the house is supplied when a question is asked.
struct Supplied {
  int source = 0;  ///< 0 utility, else place in house.sources plus one
};

/// The state to start from: an ordinary day, or an outage carried by the source.
[[nodiscard]] State state_when(const Record& record, Supplied supplied);

}  // namespace ohmstead
