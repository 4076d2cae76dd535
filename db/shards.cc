#include "db/shards.h"

#include <isa-l/erasure_code.h>

#include <algorithm>

#include "house/error.h"

namespace ohmstead {

namespace {

using Bytes = std::vector<unsigned char>;

unsigned char* bytes_of(std::string& text) { return reinterpret_cast<unsigned char*>(text.data()); }

std::size_t size_of(int rows, int columns) { return static_cast<std::size_t>(rows) * static_cast<std::size_t>(columns); }

/// One row for each shard, k columns; the first k rows are the identity.
Bytes coefficients(int shards, int k) {
  Bytes matrix(size_of(shards, k));
  gf_gen_cauchy1_matrix(matrix.data(), shards, k);
  return matrix;
}

/// `rows` rows of coefficients times the k inputs.
std::vector<std::string> multiply(Bytes rows_of_k, int rows, std::vector<std::string> inputs) {
  const int k = static_cast<int>(inputs.size()), length = static_cast<int>(inputs[0].size());
  std::vector<std::string> outputs(static_cast<std::size_t>(rows), std::string(inputs[0].size(), '\0'));
  Bytes tables(32 * size_of(rows, k));
  ec_init_tables(k, rows, rows_of_k.data(), tables.data());
  std::vector<unsigned char*> from, to;
  for (std::string& input : inputs) from.push_back(bytes_of(input));
  for (std::string& output : outputs) to.push_back(bytes_of(output));
  ec_encode_data(length, k, rows, tables.data(), from.data(), to.data());
  return outputs;
}

}  // namespace

int recovery_shards(int k) { return std::max(3, (3 * k + 9) / 10); }

std::vector<std::string> make_shards(std::string_view data, int k, int m) {
  const std::size_t count = static_cast<std::size_t>(k), length = std::max<std::size_t>(1, (data.size() + count - 1) / count);
  std::vector<std::string> shards;
  for (std::size_t i = 0; i < count; ++i) {
    shards.emplace_back(data.substr(std::min(i * length, data.size()), length));
    shards.back().resize(length, '\0');
  }
  const Bytes matrix = coefficients(k + m, k);
  for (std::string& recovery : multiply({matrix.begin() + static_cast<std::ptrdiff_t>(size_of(k, k)), matrix.end()}, m, shards))
    shards.push_back(std::move(recovery));
  return shards;
}

std::string data_of_shards(const std::map<int, std::string>& shards, int k) {
  const Bytes matrix = coefficients(kMostShards, k);
  Bytes rows, inverse(size_of(k, k));
  std::vector<std::string> inputs;
  for (auto at = shards.begin(); static_cast<int>(inputs.size()) < k && at != shards.end(); ++at) {
    const auto row = matrix.begin() + static_cast<std::ptrdiff_t>(size_of(at->first, k));
    rows.insert(rows.end(), row, row + k);
    inputs.push_back(at->second);
  }
  if (static_cast<int>(inputs.size()) < k || gf_invert_matrix(rows.data(), inverse.data(), k) != 0)
    throw Error(ErrorKind::invalid_input, "There are too few pieces to bring the record back.");
  std::string data;
  for (const std::string& shard : multiply(inverse, k, std::move(inputs))) data += shard;
  return data;
}

}  // namespace ohmstead
