#pragma once
// What was seen, and what was said. Observations are kept for ever; which breaker feeds a point
// is a conclusion from them (src/trace), never typed over them.

#include <string>

#include "house/enum_text.h"
#include "house/id.h"
#include "house/refs.h"

namespace ohmstead {

struct Breaker;
struct Point;
struct Device;
struct Source;

enum class RoundKind {
  trace,       ///< a step of a tracing session: handles were opened on purpose
  daily_life,  ///< 'breaker 12 tripped, and the hall went dark'
  proof,       ///< a look during a proving session of the transfer device
};
OHMSTEAD_WORDS(RoundKind, "trace", "daily_life", "proof")

/// A stretch of time with one set of handles open (Opened); everything else as usual.
struct Round {
  static constexpr const char* kTable = "round";
  Id<Round> id;
  RoundKind kind = RoundKind::trace;
  std::string at;         ///< UTC, `2026-11-25T09:30:00Z`
  std::string who;        ///< may be empty
  bool finished = false;  ///< the handles were put back
  Id<Source> source;      ///< in a proof: the source that was running; none: none was
  bool utility = true;    ///< in a proof: the utility was there, its main closed
  bool operator==(const Round&) const = default;
  template <class Self, class F>
  static void fields(Self& s, F&& f) {
    f("id", s.id), f("kind", s.kind), f("at", s.at), f("who", s.who), f("finished", s.finished),
        f("source", s.source), f("utility", s.utility);
  }
};

/// A handle that was open (off) during a round; in a proof, a handle that stood elsewhere than usual.
struct Opened {
  static constexpr const char* kTable = "opened";
  Id<Opened> id;
  Id<Round> round;
  HandleRef handle;
  int stands = 0;  ///< its throw: 0 off; in a proof also 1 (on, utility) and 2 (backup)
  bool operator==(const Opened&) const = default;
  template <class Self, class F>
  static void fields(Self& s, F&& f) {
    f("id", s.id), f("round", s.round), f("handle", s.handle), f("stands", s.stands);
  }
};

enum class Seen { live, dead, not_sure, skipped };
OHMSTEAD_WORDS(Seen, "live", "dead", "not_sure", "skipped")

enum class Method { look, lamp, tester, non_contact, listening, other };
OHMSTEAD_WORDS(Method, "look", "lamp", "tester", "non_contact", "listening", "other")

/// During this round, this point was seen live or dead. An answer that was taken back stays, with
/// `withdrawn` set.
struct Observation {
  static constexpr const char* kTable = "observation";
  Id<Observation> id;
  Id<Round> round;
  Id<Point> point;
  Seen seen = Seen::not_sure;
  Method method = Method::look;
  std::string at;
  bool withdrawn = false;
  bool operator==(const Observation&) const = default;
  template <class Self, class F>
  static void fields(Self& s, F&& f) {
    f("id", s.id), f("round", s.round), f("point", s.point), f("seen", s.seen), f("method", s.method),
        f("at", s.at), f("withdrawn", s.withdrawn);
  }
};

/// Somebody (an electrician, a plan) said which breaker feeds a point or a device. Evidence of its
/// own kind, shown as such. A point with two hots has one row for each.
struct DeclaredFeed {
  static constexpr const char* kTable = "declared_feed";
  Id<DeclaredFeed> id;
  Id<Point> point;    ///< exactly one of point and device is given
  Id<Device> device;
  int hot = 1;        ///< which hot conductor of it, 1-based
  Id<Breaker> breaker;
  int pole = 1;       ///< pole of the breaker, 1-based
  std::string who, at;
  bool operator==(const DeclaredFeed&) const = default;
  template <class Self, class F>
  static void fields(Self& s, F&& f) {
    f("id", s.id), f("point", s.point), f("device", s.device), f("hot", s.hot), f("breaker", s.breaker),
        f("pole", s.pole), f("who", s.who), f("at", s.at);
  }
};

/// Free words about anything.
struct Note {
  static constexpr const char* kTable = "note";
  Id<Note> id;
  ThingRef about;
  std::string text;
  bool is_private = false;  ///< left out of hand-overs
  std::string who, at;
  bool operator==(const Note&) const = default;
  template <class Self, class F>
  static void fields(Self& s, F&& f) {
    f("id", s.id), f("about", s.about), f("text", s.text), f("is_private", s.is_private), f("who", s.who),
        f("at", s.at);
  }
};

/// A remembered preference, such as the size of the door pocket or who is tracing.
struct Setting {
  static constexpr const char* kTable = "setting";
  Id<Setting> id;
  std::string name, value;  ///< name is unique
  bool operator==(const Setting&) const = default;
  template <class Self, class F>
  static void fields(Self& s, F&& f) {
    f("id", s.id), f("name", s.name), f("value", s.value);
  }
};

}  // namespace ohmstead
