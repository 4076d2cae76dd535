#include "tests/db/paper_copy_by_hand.h"

#include <zlib.h>

#include <cstdint>
#include <cstdio>
#include <ctime>
#include <map>
#include <nlohmann/json.hpp>
#include <sstream>
#include <stdexcept>

namespace ohmstead::test {

namespace {

using Json = nlohmann::ordered_json;
using Row = std::vector<unsigned>;

void must(bool holds, const std::string& what) {
  if (!holds) throw std::runtime_error(what);
}

// 1. The text of a code
struct Shard {
  std::string set;
  int number = 0, k = 0, m = 0;
  std::string bytes;
};

std::string from_base32(const std::string& body) {
  const std::string alphabet = "ABCDEFGHIJKLMNOPQRSTUVWXYZ234567";
  std::string bits, bytes;
  for (const char c : body) {
    const auto value = alphabet.find(c);
    must(value != std::string::npos, "no character of base 32");
    for (int bit = 4; bit >= 0; --bit) bits += (value >> bit & 1U) != 0 ? '1' : '0';
  }
  for (std::size_t at = 0; at + 8 <= bits.size(); at += 8) bytes += static_cast<char>(std::stoi(bits.substr(at, 8), nullptr, 2));
  return bytes;
}

unsigned big_endian(const std::string& bytes) {
  unsigned value = 0;
  for (const char c : bytes) value = value * 256 + static_cast<unsigned char>(c);
  return value;
}

Shard shard_of(const std::string& text) {
  const auto slash = text.rfind('/');
  std::string head = text.substr(0, slash + 1);
  Shard shard;
  char set[9] = {};
  int revision = 0;
  must(std::sscanf(head.c_str(), "OHP1/%8[0-9A-F]/%d/%d.%d.%d/", set, &revision, &shard.number, &shard.k, &shard.m) == 5, "head of a code");
  shard.set = set;
  const std::string bytes = from_base32(text.substr(slash + 1));
  shard.bytes = bytes.substr(0, bytes.size() - 4);
  must(crc32_by_hand(head + shard.bytes) == big_endian(bytes.substr(bytes.size() - 4)), "check sum of a code");
  return shard;
}

// 2. From the shards to the data
unsigned inverse(unsigned a) {
  for (unsigned b = 1; b < 256; ++b)
    if (product_by_hand(a, b) == 1) return b;
  throw std::runtime_error("0 has no inverse");
}

/// Left: what each shard is made of; right: its bytes. Gaussian elimination makes the left side the identity.
void eliminate(std::vector<Row>& left, std::vector<Row>& right) {
  const std::size_t k = left.size();
  const auto add = [](Row& to, const Row& from, unsigned factor) {
    for (std::size_t i = 0; i < to.size(); ++i) to[i] ^= product_by_hand(from[i], factor);
  };
  for (std::size_t c = 0; c < k; ++c) {
    std::size_t pivot = c;
    while (left.at(pivot)[c] == 0) ++pivot;
    std::swap(left[c], left[pivot]), std::swap(right[c], right[pivot]);
    const unsigned scale = inverse(left[c][c]);
    for (Row* row : {&left[c], &right[c]})
      for (unsigned& value : *row) value = product_by_hand(value, scale);
    for (std::size_t r = 0; r < k; ++r) {
      const unsigned factor = left[r][c];
      if (r == c || factor == 0) continue;
      add(left[r], left[c], factor), add(right[r], right[c], factor);
    }
  }
}

std::string data_of(const std::map<int, Shard>& shards) {
  const int k = shards.begin()->second.k;
  std::vector<Row> left, right;
  for (const auto& [number, shard] : shards) {
    if (static_cast<int>(left.size()) == k) break;
    Row row;
    for (int j = 0; j < k; ++j)
      row.push_back(number <= k ? (number - 1 == j ? 1U : 0U) : inverse(static_cast<unsigned>((k + number - k - 1) ^ j)));
    left.push_back(row);
    right.emplace_back();
    for (const char c : shard.bytes) right.back().push_back(static_cast<unsigned char>(c));
  }
  must(static_cast<int>(left.size()) == k, "too few codes");
  eliminate(left, right);
  std::string data;
  for (const Row& row : right)
    for (const unsigned byte : row) data += static_cast<char>(byte);
  char set[9] = {};
  std::snprintf(set, sizeof set, "%08X", crc32_by_hand(data));
  must(shards.begin()->second.set == set, "name of the set");
  return data;
}

// 3. From the data to ids and text
/// And how many bytes they take.
std::pair<std::vector<std::string>, std::size_t> ids_of(const std::string& bytes, std::size_t count) {
  const std::string alphabet = "0123456789abcdefghjkmnpqrstvwxyz";
  std::size_t bit = 0;
  const auto number = [&](int bits) {
    unsigned long long value = 0;
    for (int i = 0; i < bits; ++i, ++bit) value = value * 2 + (static_cast<unsigned char>(bytes.at(bit / 8)) >> (7 - bit % 8) & 1U);
    return value;
  };
  std::vector<std::string> ids;
  unsigned long long id = 0;
  while (ids.size() < count) {
    id = number(1) == 1 ? id + number(5) + 1 : number(60);
    std::string text;
    for (int shift = 55; shift >= 0; shift -= 5) text += alphabet[id >> shift & 31];
    ids.push_back(text);
  }
  return {ids, (bit + 7) / 8};
}

std::string inflated(const std::string& bytes) {
  std::string text(10'000'000, '\0');
  uLongf length = text.size();
  must(uncompress(reinterpret_cast<Bytef*>(text.data()), &length, reinterpret_cast<const Bytef*>(bytes.data()), bytes.size()) == Z_OK, "zlib stream");
  return text.substr(0, length);
}

// 4. From the columns to the document
std::string moment(std::int64_t seconds) {
  if (seconds == 0) return "";
  const std::time_t time = seconds;
  std::tm parts{};
  gmtime_r(&time, &parts);
  char text[32];
  return {text, std::strftime(text, sizeof text, "%Y-%m-%dT%H:%M:%SZ", &parts)};
}

class Builder {
 public:
  explicit Builder(std::vector<std::string> ids) : ids_(std::move(ids)) {}

  Json document(const Json& text) {
    Json made = {{"format", text.at("document").at(0)}, {"version", text.at("document").at(1)}};
    for (const Json& table : text.at("tables")) {
      const bool alone = table.at(1).is_null();
      std::vector<Json> rows(alone ? 1 : table.at(1).get<std::size_t>(), Json::object());
      for (std::size_t c = 2; c < table.size(); ++c)
        for (std::size_t i = 0; i < rows.size(); ++i) rows[i][table[c].at(0).get<std::string>()] = value(table[c], i);
      made[table.at(0).get<std::string>()] = alone ? rows[0] : Json(rows);
    }
    return made;
  }

 private:
  static std::int64_t number(const Json& list, std::size_t i, bool differences) {
    if (!differences) return list.at(i).get<std::int64_t>();
    std::int64_t sum = 0;
    for (std::size_t at = 0; at <= i; ++at) sum += list.at(at).get<std::int64_t>();
    return sum;
  }
  Json value(const Json& column, std::size_t i) {
    std::string how = column.at(1);
    if (how == "id") return ids_.at(next_++);
    if (how == "=") return column.at(2);
    if (how == "l") return column.at(2).at(i);
    const bool differences = how.back() == '+';
    if (differences) how.pop_back();
    const std::int64_t last = number(column.back(), i, differences);
    if (how == "n") return last;
    if (how == "t") return moment(last);
    if (how == "r") return last == 0 ? Json() : Json(ids_.at(static_cast<std::size_t>(last - 1)));
    if (how == "w") return column.at(2).at(static_cast<std::size_t>(last));
    must(how == "k", "unknown kind of column");
    const std::string word = column.at(2).at(column.at(3).at(i).get<std::size_t>());
    return last == 0 ? word : word + ":" + ids_.at(static_cast<std::size_t>(last - 1));
  }

  std::vector<std::string> ids_;
  std::size_t next_ = 0;
};

}  // namespace

unsigned product_by_hand(unsigned a, unsigned b) {
  unsigned product = 0;
  for (int bit = 0; bit < 8; ++bit)
    if ((b >> bit & 1U) != 0) product ^= a << bit;
  for (int bit = 15; bit >= 8; --bit)
    if ((product >> bit & 1U) != 0) product ^= 0x11DU << (bit - 8);
  return product;
}

unsigned crc32_by_hand(const std::string& bytes) {
  unsigned crc = 0xFFFFFFFFU;
  for (const char byte : bytes) {
    crc ^= static_cast<unsigned char>(byte);
    for (int bit = 0; bit < 8; ++bit) crc = (crc & 1U) != 0 ? crc >> 1 ^ 0xEDB88320U : crc >> 1;
  }
  return crc ^ 0xFFFFFFFFU;
}

std::string document_by_hand(const std::vector<std::string>& codes) {
  std::map<int, Shard> shards;
  for (const std::string& code : codes) {
    Shard shard = shard_of(code);
    shards[shard.number] = std::move(shard);
  }
  const std::string data = data_of(shards);
  const auto [ids, id_bytes] = ids_of(data.substr(36), big_endian(data.substr(32, 4)));
  const Json text = Json::parse(inflated(data.substr(36 + id_bytes)));
  return Builder(ids).document(text).dump(2) + "\n";
}

}  // namespace ohmstead::test
