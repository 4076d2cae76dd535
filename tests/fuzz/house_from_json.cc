// Any bytes give a sound house or an Error, and a house that was read is written and read again.

#include <cstdint>
#include <cstdlib>

#include "db/interchange.h"
#include "house/error.h"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  try {
    const std::string_view text(reinterpret_cast<const char*>(data), size);
    const ohmstead::House house = ohmstead::house_from_json(text);
    if (ohmstead::house_from_json(ohmstead::house_to_json(house)) != house) std::abort();
  } catch (const ohmstead::Error&) {
  }
  return 0;
}
