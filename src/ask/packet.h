#pragma once
// What is handed to an electrician: the whole record in the order in which the trade asks for it, with what is proved
// and what is not, and what was found. Computed from the record; print draws it.

#include <cstdint>
#include <string>
#include <vector>

#include "ask/answer_words.h"
#include "ask/one_line.h"
#include "ask/panel_schedule.h"

namespace ohmstead {

/// A change as the house file records it.
struct RecordedChange {
  std::int64_t revision = 0;
  std::string at;    ///< UTC
  std::string what;  ///< what was done
};

struct PacketFact {
  std::string name, value;
};

/// A circuit that shares its neutral, or what a GFCI protects: a head and what belongs to it.
struct PacketGroup {
  std::string head;
  std::vector<std::string> items;
};

/// A point and what is known of its feed.
struct PacketPoint {
  std::string room, point;
  std::string circuit;   ///< "Main 14"; "not found"
  std::string standing;  ///< "proved", "declared", "likely", "disputed", "open"
  std::size_t dead = 0, live = 0;  ///< looks that count
  std::string last;      ///< date of the last of them; empty: none
  std::string by;        ///< without looks of its own: what its standing rests on, "its GFCI"; else empty
};

/// Something that was found, and on what rule it rests.
struct PacketFinding {
  std::string text;  ///< one or more sentences
  std::string rule;  ///< "NFPA 70 210.4(B), secondary"; empty: it is a matter of the record
  bool urgent = false;
};

/// A photo that is not private.
struct PacketPhoto {
  std::string about, caption;
  std::string date;     ///< YYYY-MM-DD
  std::string id;       ///< of the photo's row
  std::string picture;  ///< its sum (house/photo.h)
  int width = 0, height = 0;
};

struct Packet {
  std::vector<PacketFact> cover;
  std::vector<std::string> inside;      ///< what the packet holds, in order
  std::vector<std::string> limits;      ///< what it is not
  OneLine line;
  PanelSchedules schedules;
  std::vector<PacketGroup> shared;      ///< multiwire branch circuits
  std::vector<PacketGroup> chains;      ///< GFCI receptacles and what is downstream; breakers with GFCI or AFCI
  std::vector<PacketPoint> points;      ///< room by room, in the order of the house
  std::vector<PacketFinding> findings;  ///< urgent ones first
  std::vector<PacketPhoto> photos;      ///< by what they show
  std::size_t private_photos = 0;       ///< that were left out
  std::vector<std::string> history;     ///< oldest first: "2026-11-25, revision 3 to 41: trace"
};

/// `changes` as the file has them, oldest first; empty: nothing of it is recorded.
[[nodiscard]] Packet packet(const Record& record, std::int64_t revision, const std::vector<RecordedChange>& changes);

}  // namespace ohmstead
