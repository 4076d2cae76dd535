#pragma once
// Reed-Solomon shards: k pieces of data and m more, all of one length; any k of them give the data back. Systematic, over
// GF(256) with the polynomial 0x11D; recovery shard p (0 is the first) is the sum over j of D_j / ((k + p) xor j).

#include <map>
#include <string>
#include <string_view>
#include <vector>

namespace ohmstead {

/// Most shards of one set, data and recovery together.
inline constexpr int kMostShards = 255;

/// Recovery shards that go with k data shards: 0.3 k rounded up, and at least 3.
[[nodiscard]] int recovery_shards(int k);

/// The data, filled up with zero bytes, as k shards, then m recovery shards. 1 <= k, 1 <= m, k + m <= kMostShards.
[[nodiscard]] std::vector<std::string> make_shards(std::string_view data, int k, int m);

/// The data with its zero bytes, from at least k shards by their number (0 is the first), all of one length above 0. Numbers
/// are below kMostShards.
[[nodiscard]] std::string data_of_shards(const std::map<int, std::string>& shards, int k);

}  // namespace ohmstead
