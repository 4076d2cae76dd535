#pragma once
// A transfer position by its number, told apart where there are several devices.

#include <string>

#include "house/house.h"

namespace ohmstead {

/// " on T" where the source of this position's device has several devices that carry circuits, for each of them has a position 1; else empty.
[[nodiscard]] std::string device_words(const House& house, const Position& position);

}  // namespace ohmstead
