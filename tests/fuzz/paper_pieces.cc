// Any bytes as what was scanned from a paper copy, as the data behind good check sums, and as columns: a sound house or an Error.

#include <cstdint>
#include <cstdlib>
#include <numeric>
#include <string_view>
#include <vector>

#include "db/columns.h"
#include "db/interchange.h"
#include "db/paper_copy.h"
#include "house/error.h"
#include "house/invariants.h"

namespace {

using namespace ohmstead;

std::vector<std::uint64_t> nineteen_ids() {
  std::vector<std::uint64_t> ids(19);
  std::iota(ids.begin(), ids.end(), 1);
  return ids;
}

void read_as_text(std::string_view text) {
  PaperReading reading;
  reading.add(text);
  for (const std::string& note : reading.notes())
    if (note.find_first_of("\n\x1b") != std::string::npos) std::abort();
  const FromPaper back = reading.bring_back();
  if (!problems_of(back.house).empty()) std::abort();
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  if (size == 0) return 0;
  const std::string_view rest(reinterpret_cast<const char*>(data) + 1, size - 1);
  try {
    switch (data[0]) {
      case 'S': (void)unpack_record(rest); break;
      case 'C': {
        const std::string document = document_of_columns({nineteen_ids(), std::string(rest)});  // as many as the seed has
        if (document_of_columns(columns_of_document(house_to_json(house_from_json(document)))) != house_to_json(house_from_json(document))) std::abort();
        break;
      }
      case 'P': {  // as the shard of a piece whose check sums are right
        const std::string bytes(rest);
        if (!bytes.empty()) read_as_text(text_of_piece({crc32_of(bytes), 1, 1, 1, 3, bytes}));
        break;
      }
      default: read_as_text({reinterpret_cast<const char*>(data), size});
    }
  } catch (const Error& error) {
    if (std::string_view(error.what()).find_first_of("\n\x1b") != std::string_view::npos) std::abort();
  }
  return 0;
}
