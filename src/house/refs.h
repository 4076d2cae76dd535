#pragma once
// References that can point at several kinds of thing: a handle that a hand can move, and
// anything a note can be about.

#include <compare>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

#include "house/enum_text.h"

namespace ohmstead {

/// What kind of handle a HandleRef names, and which row its id belongs to.
enum class HandleKind {
  none,
  main,              ///< the main breaker of a panel (id of the Panel)
  breaker,           ///< id of the Breaker
  position,          ///< the throw of a transfer position (id of the Position): utility, off, backup
  position_breaker,  ///< the position's own small breaker (id of the Position)
  device,            ///< a wall switch, GFCI receptacle or disconnect (id of the Handle)
};
OHMSTEAD_WORDS(HandleKind, "none", "main", "breaker", "position", "position_breaker", "device")

/// Something a hand can move. Text form: `breaker:0123456789ab`.
struct HandleRef {
  HandleKind kind = HandleKind::none;
  std::uint64_t id = 0;
  explicit operator bool() const { return kind != HandleKind::none; }
  auto operator<=>(const HandleRef&) const = default;
};

/// Kinds of thing a note, or a name, can be about.
enum class ThingKind {
  house, floor, room, box, point, load, panel, breaker, circuit, device, handle, source,
  transfer_device, position,
};
OHMSTEAD_WORDS(ThingKind, "house", "floor", "room", "box", "point", "load", "panel", "breaker", "circuit", "device",
               "handle", "source", "transfer_device", "position")

/// Any thing in the house; kind `house` has id 0. Text form: `room:0123456789ab`.
struct ThingRef {
  ThingKind kind = ThingKind::house;
  std::uint64_t id = 0;
  auto operator<=>(const ThingRef&) const = default;
};

/// Text forms of the two, and back. Nothing comes back for a text that is not one; "" is the
/// empty HandleRef and "house" is the house.
[[nodiscard]] std::string text_of_ref(const HandleRef& ref);
[[nodiscard]] std::string text_of_ref(const ThingRef& ref);
[[nodiscard]] std::optional<HandleRef> parse_handle_ref(std::string_view text);
[[nodiscard]] std::optional<ThingRef> parse_thing_ref(std::string_view text);

}  // namespace ohmstead
