#pragma once

namespace ohmstead {
/// The one place where the version stands; CMake reads it from here.
inline constexpr const char* kVersion = "0.1.0";
}  // namespace ohmstead
