#pragma once
// An independent reference for the feed graph, written from the rows of the house with Boost.Graph
// and sharing no code with src/feed beyond the names of rows and throws. Slow and plain on purpose.

#include <map>
#include <set>
#include <string>
#include <vector>

#include "feed/feeds.h"
#include "feed/liveness.h"

namespace ohmstead::reference {

/// Where each handle stands, and the live legs of each source ("utility" or the source's id text).
struct Switching {
  std::map<HandleRef, Throw> throws;
  std::map<std::string, std::set<int>> live_legs;
  std::set<std::pair<HandleRef, int>> broken = {};  ///< handles of which one pole (0: all) gives nothing, wherever they stand
};

/// One joint between two named conductors: `handle` none means always joined.
struct Joint {
  std::string a, b;
  HandleRef handle;
  std::set<int> closed_in;
};

/// The house as named conductors and joints.
class Wiring {
 public:
  Wiring(const House& house, const Feeds& feeds);

  /// State of each point, and whether two live terminals are joined, under `switching`.
  [[nodiscard]] std::vector<PointState> states(const Switching& switching) const;
  [[nodiscard]] bool any_joined(const Switching& switching) const;
  /// May any live terminal reach one of these conductors?
  [[nodiscard]] bool any_live(const Switching& switching, const std::set<std::string>& conductors) const;

  /// Conductors in the box, and of circuits sharing a neutral with one in it.
  [[nodiscard]] std::set<std::string> in_box(Id<Box> box) const;
  /// Least cost of parting the conductors from all terminals by opening isolating handles, each
  /// handle group counted once, every contact of other handles taken as closed; -1 if impossible.
  [[nodiscard]] long cut_cost(const std::set<std::string>& conductors, const std::map<HandleRef, int>& costs) const;

  /// Handles that move together with this one, itself included.
  [[nodiscard]] std::vector<HandleRef> group(HandleRef handle) const;
  [[nodiscard]] static bool isolates(const House& house, HandleRef handle);

 private:
  struct Reach {
    std::map<std::string, int> component;
    std::map<int, std::set<std::string>> live_terminals;  ///< by component
    std::set<int> unknown;
  };
  [[nodiscard]] Reach reach(const Switching& switching) const;
  [[nodiscard]] std::string supply(const Panel& panel, int leg) const;
  [[nodiscard]] std::string circuit(Id<Breaker> breaker, int pole) const;
  [[nodiscard]] std::string device_line(const Device& device, int pole) const;
  [[nodiscard]] std::string fed_by(const Feed& feed, int hot) const;
  [[nodiscard]] int legs_of(const Panel& panel) const;
  [[nodiscard]] std::string source_leg(Id<Source> source, int leg) const;
  void wire_panels();
  void wire_positions();
  void wire_devices();
  void wire_group(const Device& device, const std::vector<const Handle*>& handles);
  void wire_points();

  const House& house_;
  const Feeds& feeds_;
  std::vector<Joint> joints_;
  std::map<std::string, int> terminals_;  ///< name -> angle
  std::set<std::string> unknown_;
  std::vector<std::vector<std::string>> hots_;  ///< by point; "" where not established
  std::map<Id<Handle>, std::set<std::string>> at_handle_;
};

}  // namespace ohmstead::reference
