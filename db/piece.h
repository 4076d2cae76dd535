#pragma once
// One piece of a paper copy as text: capitals, digits, '/' and '.' only, so that it can be a code, be typed, or be read by
// a machine that reads print. docs/paper-copy.md describes it for a time without this program:
//   OHP1/<set, 8 hexadecimal digits>/<revision>/<number>.<k>.<m>/<base 32 of the bytes and of their CRC-32>

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

namespace ohmstead {

struct Piece {
  std::uint32_t set = 0;
  std::int64_t revision = 0;  ///< of the record, 0 .. 999,999,999
  int number = 1;             ///< 1 .. k + m; the first k are the data
  int k = 1, m = 1;           ///< pieces that are needed, and how many more there are
  std::string bytes;          ///< the shard
  bool operator==(const Piece&) const = default;
};

/// Eight hexadecimal digits in capitals: how people call a set.
[[nodiscard]] std::string set_name(std::uint32_t set);
/// The CRC-32 of zlib, PNG and Ethernet.
[[nodiscard]] std::uint32_t crc32_of(std::string_view bytes);

[[nodiscard]] std::string text_of_piece(const Piece& piece);
/// Bytes of a shard whose piece's text is at most that long, whatever its numbers; 0: none.
[[nodiscard]] std::size_t shard_bytes(std::size_t text_length, std::int64_t revision);

struct PiecesInText {
  std::vector<Piece> pieces;  ///< as they come, repeats included; the CRC-32 of each is right
  int damaged = 0;            ///< begin like a piece, but are none
  int other_lines = 0;        ///< lines that have nothing of a piece
};

/// All pieces in what a scanner or a person wrote: one a line or several, with other words around them, small letters, and a
/// piece parted by spaces or over lines. Takes time in proportion to the text.
[[nodiscard]] PiecesInText pieces_in(std::string_view text);

}  // namespace ohmstead
