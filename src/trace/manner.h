#pragma once
// How the people work while tracing: how many breakers may be off at once, whether somebody stays at
// the panel, what they have at hand, and what they want to know. Kept in settings of the house, so
// that a session goes on the same way after a pause. Docs: docs/trace.md.

#include <string>
#include <vector>

#include "house/house.h"

namespace ohmstead {

/// Name of the settings that hold a manner begins so; the rest is the name of a field below.
inline constexpr const char* kMannerPrefix = "trace.manner.";
/// + point id: it is to be traced anew. The value is the number of observations at that time;
/// looks before it no longer settle the point, though they still count as evidence.
inline constexpr const char* kAgainPrefix = "trace.again.";
/// + point id: a plug-in lamp is in that receptacle.
inline constexpr const char* kLampPrefix = "trace.lamp.";

/// + point id: no lamp can stay in that receptacle.
inline constexpr const char* kNoLampPrefix = "trace.no_lamp.";

inline constexpr int kMostLamps = 50;
inline constexpr int kMostAtOnce = 1000;

struct Manner {
  int at_once = 1;       ///< most breakers off at one time, 1..; 0: any number
  bool helper = false;   ///< somebody stays at the panel and moves the handles when called
  int lamps = 0;         ///< plug-in lamps at hand, 0..kMostLamps
  std::vector<Id<Room>> rooms;  ///< only points of these rooms; empty: of all
  bool for_plan = false; ///< only points with a load of high importance, or hurt by a power loss
  Method method = Method::tester;  ///< how points other than lights and fans are looked at
  bool operator==(const Manner&) const = default;
};

/// The manner kept in the settings; what is missing or makes no sense there is as above.
[[nodiscard]] Manner manner_of(const House& house);
/// Keeps it. Throws Error{invalid_input} if a number is out of its range, Error{not_found} for a
/// room that is not in the house; nothing is changed then.
void keep_manner(House& house, const Manner& manner);

/// "Up to 4 breakers off at a time, with a helper at the panel, by tester. Only in: Kitchen, Hall."
[[nodiscard]] std::string manner_text(const House& house, const Manner& manner);

/// Does the person want to know about this point?
[[nodiscard]] bool is_wanted(const House& house, const Manner& manner, const Point& point);

/// Throws Error{invalid_input} if the manner leaves no point of a house that has some.
void require_some_wanted(const House& house, const Manner& manner);

/// Marks a point to be traced anew. Throws Error{not_found}.
void trace_again(House& house, Id<Point> point);
/// Place in house.observations from which on looks settle this point; 0 where all do.
[[nodiscard]] std::size_t settled_from(const House& house, Id<Point> point);

}  // namespace ohmstead
