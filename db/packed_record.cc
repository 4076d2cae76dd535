// The record made small and back: SHA-256, ids as steps or 60 bits, zlib.

#include <zlib.h>

#include "db/columns.h"
#include "db/interchange.h"
#include "db/paper_copy.h"
#include "db/sha256.h"
#include "house/error.h"
#include "house/invariants.h"

namespace ohmstead {

namespace {

constexpr std::size_t kShaBytes = 32, kIdBits = 60, kStepBits = 5;
constexpr std::uint64_t kLargestStep = std::uint64_t{1} << kStepBits;

[[noreturn]] void refuse(const std::string& what) {
  throw Error(ErrorKind::invalid_input, "The pieces fit together, but what they hold is no record that this program can read (" + what + ").");
}

/// Bits one after the other, the highest of each number first.
class BitWriter {
 public:
  void put(std::uint64_t number, std::size_t bits) {
    for (std::size_t bit = bits; bit-- > 0; ++count_) {
      if (count_ % 8 == 0) bytes_ += '\0';
      if ((number >> bit & 1U) != 0) bytes_.back() = static_cast<char>(static_cast<unsigned char>(bytes_.back()) | 0x80U >> count_ % 8);
    }
  }
  [[nodiscard]] const std::string& bytes() const { return bytes_; }

 private:
  std::string bytes_;
  std::size_t count_ = 0;
};

class BitReader {
 public:
  explicit BitReader(std::string_view bytes) : bytes_(bytes) {}
  std::uint64_t take(std::size_t bits) {
    if (8 * bytes_.size() - at_ < bits) refuse("it has too few ids");
    std::uint64_t number = 0;
    for (std::size_t bit = 0; bit < bits; ++bit, ++at_) number = number << 1 | (static_cast<unsigned char>(bytes_[at_ / 8]) >> (7 - at_ % 8) & 1U);
    return number;
  }
  [[nodiscard]] std::size_t bytes_used() const { return (at_ + 7) / 8; }

 private:
  std::string_view bytes_;
  std::size_t at_ = 0;
};

/// Rows that were written down together have ids that follow each other: those are steps from the id before.
std::string packed_ids(const std::vector<std::uint64_t>& ids) {
  BitWriter out;
  std::uint64_t before = 0;
  for (const std::uint64_t id : ids) {
    const bool near = id > before && id - before <= kLargestStep;
    out.put(near ? 1 : 0, 1);
    near ? out.put(id - before - 1, kStepBits) : out.put(id, kIdBits);
    before = id;
  }
  return out.bytes();
}

/// `bytes` is left at what follows them.
std::vector<std::uint64_t> unpacked_ids(std::string_view& bytes, std::size_t count) {
  BitReader in(bytes);
  std::vector<std::uint64_t> ids;
  std::uint64_t before = 0;
  for (std::size_t i = 0; i < count; ++i) {
    before = in.take(1) == 1 ? before + in.take(kStepBits) + 1 : in.take(kIdBits);
    if (before >> kIdBits != 0) refuse("an id that is too large");
    ids.push_back(before);
  }
  bytes = bytes.substr(in.bytes_used());
  return ids;
}

std::string deflated(const std::string& text) {
  uLongf length = compressBound(text.size());
  std::string bytes(length, '\0');
  if (compress2(reinterpret_cast<Bytef*>(bytes.data()), &length, reinterpret_cast<const Bytef*>(text.data()), text.size(), 9) != Z_OK)
    throw Error(ErrorKind::output, "The record could not be compressed.");
  bytes.resize(length);
  return bytes;
}

/// At most kLongestColumns bytes. What follows the end of the stream must be zero bytes.
std::string inflated(std::string_view bytes) {
  std::string text(kLongestColumns + 1, '\0');
  uLongf length = text.size();
  uLong used = bytes.size();
  const int result = uncompress2(reinterpret_cast<Bytef*>(text.data()), &length, reinterpret_cast<const Bytef*>(bytes.data()), &used);
  if (result == Z_BUF_ERROR && length > kLongestColumns) refuse("more than 2 MB of columns");
  if (result != Z_OK || length > kLongestColumns) refuse("the compressed columns are damaged");
  if (bytes.find_first_not_of('\0', used) != std::string_view::npos) refuse("something follows the columns");
  text.resize(length);
  return text;
}

}  // namespace

PackedRecord pack_record(const House& house) {
  require_sound(house);
  const std::string document = house_to_json(house);
  const Columns columns = columns_of_document(document);
  if (columns.text.size() > kLongestColumns || document.size() > kLongestFromColumns / 4)
    throw Error(ErrorKind::invalid_input, "The record is too large for a paper copy; `ohmstead export` writes all of it into a file.");
  PackedRecord record;
  const std::string digest = sha256_bytes(document);
  record.sha256 = hexadecimal(digest);
  record.bytes = digest;
  for (const int shift : {24, 16, 8, 0}) record.bytes += static_cast<char>(columns.ids.size() >> shift & 255U);
  record.bytes += packed_ids(columns.ids) + deflated(columns.text);
  if (unpack_record(record.bytes) != document) throw Error(ErrorKind::output, "The record does not come back from its columns unchanged, so no paper copy was made.");
  return record;
}

std::string unpack_record(std::string_view bytes) {
  if (bytes.size() < kShaBytes + 4) refuse("it is too short");
  std::size_t count = 0;
  for (std::size_t i = 0; i < 4; ++i) count = count << 8 | static_cast<unsigned char>(bytes[kShaBytes + i]);
  std::string_view rest = bytes.substr(kShaBytes + 4);
  std::vector<std::uint64_t> ids = unpacked_ids(rest, count);
  std::string document = document_of_columns({std::move(ids), inflated(rest)});
  if (sha256_bytes(document) != bytes.substr(0, kShaBytes)) refuse("its SHA-256 is another one");
  return document;
}

}  // namespace ohmstead
