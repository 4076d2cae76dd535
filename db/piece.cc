#include "db/piece.h"

#include <zlib.h>

#include <array>
#include <charconv>
#include <optional>

#include "db/shards.h"

namespace ohmstead {

namespace {

constexpr std::string_view kMark = "OHP1/";
constexpr std::string_view kAlphabet = "ABCDEFGHIJKLMNOPQRSTUVWXYZ234567";  // RFC 4648
constexpr std::size_t kLongestBody = 7100;  // characters; no code holds more than 4296
constexpr std::int64_t kMostRevision = 999'999'999;

std::string base32(std::string_view bytes) {
  std::string text;
  unsigned held = 0;
  int bits = 0;
  for (const char byte : bytes) {
    held = held << 8 | static_cast<unsigned char>(byte);
    for (bits += 8; bits >= 5; bits -= 5) text += kAlphabet[held >> (bits - 5) & 31U];
    held &= (1U << bits) - 1;
  }
  if (bits > 0) text += kAlphabet[held << (5 - bits) & 31U];
  return text;
}

/// Nothing if a character is none of the alphabet, or the bits left over are not zero.
std::optional<std::string> bytes_of_base32(std::string_view text) {
  std::string bytes;
  unsigned held = 0;
  int bits = 0;
  for (const char c : text) {
    const auto value = kAlphabet.find(c);
    if (value == std::string_view::npos) return std::nullopt;
    held = held << 5 | static_cast<unsigned>(value);
    bits += 5;
    if (bits >= 8) bits -= 8, bytes += static_cast<char>(held >> bits & 255U);
    held &= (1U << bits) - 1;
  }
  return bits < 5 && held == 0 ? std::optional(bytes) : std::nullopt;
}

std::string four_bytes(std::uint32_t value) {
  std::string bytes;
  for (const int shift : {24, 16, 8, 0}) bytes += static_cast<char>(value >> shift & 255U);
  return bytes;
}

std::string head_of(const Piece& piece) {
  return std::string(kMark) + set_name(piece.set) + "/" + std::to_string(piece.revision) + "/" + std::to_string(piece.number) + "." +
         std::to_string(piece.k) + "." + std::to_string(piece.m) + "/";
}

/// A number of at most nine digits at the start of the text, which goes on behind it and the character `end`.
std::optional<std::int64_t> take_number(std::string_view& text, char end, int base = 10) {
  std::int64_t value = 0;
  const auto [after, fault] = std::from_chars(text.data(), text.data() + std::min<std::size_t>(text.size(), 10), value, base);
  const auto length = static_cast<std::size_t>(after - text.data());
  if (fault != std::errc{} || value < 0 || length >= text.size() || text[length] != end) return std::nullopt;
  text.remove_prefix(length + 1);
  return value;
}

/// Everything but the bytes. `text` begins with the mark; it goes on behind the head.
std::optional<Piece> take_head(std::string_view& text) {
  text.remove_prefix(kMark.size());
  const auto set = take_number(text, '/', 16), revision = take_number(text, '/');
  const auto number = take_number(text, '.'), k = take_number(text, '.'), m = take_number(text, '/');
  if (!set || !revision || !number || !k || !m || *set > 0xFFFFFFFFLL || *revision > kMostRevision) return std::nullopt;
  if (*k < 1 || *m < 1 || *k > kMostShards || *m > kMostShards || *k + *m > kMostShards || *number < 1 || *number > *k + *m) return std::nullopt;
  return Piece{static_cast<std::uint32_t>(*set), *revision, static_cast<int>(*number), static_cast<int>(*k), static_cast<int>(*m), {}};
}

bool is_space(char c) { return c == ' ' || c == '\t' || c == '\r'; }

std::string without_spaces(std::string_view text) {
  std::string kept;
  for (const char c : text)
    if (!is_space(c)) kept += c;
  return kept;
}

/// The piece, if the body is one whose CRC-32 is right.
bool fill(Piece& piece, std::string_view body) {
  if (body.size() > kLongestBody) return false;
  auto bytes = bytes_of_base32(body);
  if (!bytes || bytes->size() <= 4) return false;
  const std::string crc = bytes->substr(bytes->size() - 4);
  bytes->resize(bytes->size() - 4);
  if (four_bytes(crc32_of(head_of(piece) + *bytes)) != crc) return false;
  piece.bytes = std::move(*bytes);
  return true;
}

/// Goes through the lines of a text in capitals.
class Finder {
 public:
  explicit Finder(std::string_view text) {
    for (std::size_t at = 0; at < text.size();) {
      const std::size_t end = std::min(text.find('\n', at), text.size());
      lines_.push_back(text.substr(at, end - at));
      at = end + 1;
    }
  }

  PiecesInText find() {
    for (line_ = 0; line_ < lines_.size(); ++line_) {
      const std::string_view line = lines_[line_];
      std::size_t at = line.find(kMark);
      if (at == std::string_view::npos && !without_spaces(line).empty()) ++found_.other_lines;
      while (at != std::string_view::npos) {
        const std::size_t next = line.find(kMark, at + 1);
        take(line.substr(at, next - at), next == std::string_view::npos);
        at = next;
      }
    }
    return std::move(found_);
  }

 private:
  void take(std::string_view text, bool last_of_line) {
    std::optional<Piece> piece = take_head(text);
    const std::string_view run = text.substr(0, std::min(text.find_first_not_of(kAlphabet), text.size()));
    if (piece && !fill(*piece, run) && !fill(*piece, without_spaces(text)) && !(last_of_line && fill(*piece, with_next_lines(text)))) piece.reset();
    if (piece) found_.pieces.push_back(std::move(*piece));
    else ++found_.damaged;
  }

  /// The rest of a line and the lines after it that could belong to the same piece; these are not looked at again.
  std::string with_next_lines(std::string_view rest) {
    std::string body = without_spaces(rest);
    while (line_ + 1 < lines_.size() && body.size() <= kLongestBody) {
      const std::string next = without_spaces(lines_[line_ + 1]);
      if (next.empty() || next.find_first_not_of(kAlphabet) != std::string::npos) break;
      body += next;
      ++line_;
    }
    return body;
  }

  std::vector<std::string_view> lines_;
  std::size_t line_ = 0;
  PiecesInText found_;
};

}  // namespace

std::string set_name(std::uint32_t set) {
  std::string name;
  for (int shift = 28; shift >= 0; shift -= 4) name += "0123456789ABCDEF"[set >> shift & 15U];
  return name;
}

std::uint32_t crc32_of(std::string_view bytes) {
  return static_cast<std::uint32_t>(::crc32_z(0, reinterpret_cast<const unsigned char*>(bytes.data()), bytes.size()));
}

std::string text_of_piece(const Piece& piece) {
  const std::string head = head_of(piece);
  return head + base32(piece.bytes + four_bytes(crc32_of(head + piece.bytes)));
}

std::size_t shard_bytes(std::size_t text_length, std::int64_t revision) {
  Piece longest;
  longest.revision = revision, longest.number = longest.k = longest.m = 100;
  const std::size_t head = head_of(longest).size(), bytes = text_length <= head ? 0 : (text_length - head) * 5 / 8;
  return bytes <= 4 ? 0 : bytes - 4;
}

PiecesInText pieces_in(std::string_view text) {
  std::string capitals(text);
  for (char& c : capitals)
    if (c >= 'a' && c <= 'z') c = static_cast<char>(c - 'a' + 'A');
  return Finder(capitals).find();
}

}  // namespace ohmstead
