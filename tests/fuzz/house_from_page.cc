// Any bytes as a saved page give a sound house or an Error, and a house that was read is written into a page and read again.

#include <cstdint>
#include <cstdlib>

#include "db/record_in_page.h"
#include "house/error.h"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  try {
    const std::string_view page(reinterpret_cast<const char*>(data), size);
    const ohmstead::House house = ohmstead::house_from_page(page);
    if (ohmstead::house_from_page(ohmstead::record_element(house)) != house) std::abort();
  } catch (const ohmstead::Error&) {
  }
  return 0;
}
