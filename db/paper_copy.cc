#include "db/paper_copy.h"

#include <algorithm>

#include "db/interchange.h"
#include "db/sha256.h"
#include "db/shards.h"
#include "house/error.h"

namespace ohmstead {

namespace {

constexpr std::int64_t kMostRevision = 999'999'999;

[[noreturn]] void refuse(const std::string& sentence) { throw Error(ErrorKind::invalid_input, sentence); }

std::string counted(int n, const char* one, const char* many) { return std::to_string(n) + " " + (n == 1 ? one : many); }

}  // namespace

PaperCopy cut_into_pieces(const PackedRecord& record, std::int64_t revision, std::size_t most_characters) {
  if (revision < 0 || revision > kMostRevision) refuse("The revision of a paper copy is from 0 to 999,999,999.");
  const std::size_t most = shard_bytes(most_characters, revision);
  if (most == 0) refuse("Pieces of " + std::to_string(most_characters) + " characters hold nothing.");
  const std::size_t needed = std::max<std::size_t>(1, (record.bytes.size() + most - 1) / most);
  const int k = static_cast<int>(std::min<std::size_t>(needed, kMostShards));
  PaperCopy copy{"", revision, k, recovery_shards(k), record.sha256, {}};
  if (copy.k + copy.m > kMostShards)
    refuse("The record is too large for a paper copy: it would need more than 255 codes. `ohmstead export` writes all of it into a file.");
  const std::vector<std::string> shards = make_shards(record.bytes, copy.k, copy.m);
  std::string data;
  for (int i = 0; i < copy.k; ++i) data += shards[static_cast<std::size_t>(i)];
  Piece piece{crc32_of(data), revision, 0, copy.k, copy.m, {}};
  copy.set = set_name(piece.set);
  for (const std::string& shard : shards) {
    ++piece.number, piece.bytes = shard;
    copy.pieces.push_back(text_of_piece(piece));
  }
  return copy;
}

int PaperReading::add(std::string_view text) {
  PiecesInText found = pieces_in(text);
  damaged_ += found.damaged, other_lines_ += found.other_lines;
  int fresh = 0;
  for (Piece& piece : found.pieces) {
    Shards& shards = sets_[{piece.set, piece.revision, piece.k, piece.m, piece.bytes.size()}];
    const auto [at, is_new] = shards.try_emplace(piece.number - 1, std::move(piece.bytes));
    if (is_new) ++fresh;
    else if (!piece.bytes.empty() && at->second != piece.bytes) ++contradicting_;
  }
  return fresh;
}

bool PaperReading::enough(const std::string& set) const {
  return std::ranges::any_of(sets_, [&](const auto& one) { return (set.empty() || set_name(one.first.set) == set) && static_cast<int>(one.second.size()) >= one.first.k; });
}

std::vector<std::string> PaperReading::notes() const {
  std::vector<std::string> notes;
  if (damaged_ > 0) notes.push_back(counted(damaged_, "damaged piece was skipped: its check sum is wrong.", "damaged pieces were skipped: their check sums are wrong."));
  if (other_lines_ > 0) notes.push_back(counted(other_lines_, "line is no piece of a paper copy and was skipped.", "lines are no pieces of a paper copy and were skipped."));
  if (contradicting_ > 0)
    notes.push_back(counted(contradicting_, "piece has", "pieces have") + " the number of another one that was read before, and not the same contents; the first was kept.");
  return notes;
}

std::string PaperReading::words_of(const SetKey& key, const Shards& shards) const {
  return counted(static_cast<int>(shards.size()), "piece", "pieces") + " of set " + set_name(key.set) + " (revision " + std::to_string(key.revision) + ", " +
         std::to_string(key.k + key.m) + " pieces, any " + std::to_string(key.k) + " are enough)";
}

const std::pair<const PaperReading::SetKey, PaperReading::Shards>& PaperReading::chosen(const std::string& set) const {
  std::vector<const std::pair<const SetKey, Shards>*> fitting;
  std::string all;
  constexpr std::size_t kMostNamed = 4;
  for (const auto& one : sets_) {
    if (set.empty() || set_name(one.first.set) == set) {
      fitting.push_back(&one);
      if (fitting.size() <= kMostNamed) all += (all.empty() ? "" : ", ") + words_of(one.first, one.second);
      if (fitting.size() == kMostNamed + 1) all += ", and more";
    }
  }
  if (sets_.empty()) refuse("There is no piece of a paper copy in this; pieces begin with OHP1/, one for each code on the paper.");
  if (fitting.empty()) refuse("There is no piece of set " + set + " among these; " + words_of(sets_.begin()->first, sets_.begin()->second) + " was read.");
  if (fitting.size() > 1 && set.empty()) refuse("These are pieces of different paper copies: " + all + ". Say which to bring back with --set, such as --set " + set_name(fitting[0]->first.set) + ".");
  if (fitting.size() > 1) refuse("The pieces of set " + set + " do not agree with each other: " + all + ". Read them again from one paper.");
  return *fitting[0];
}

FromPaper PaperReading::bring_back(const std::string& set) const {
  const auto& [key, shards] = chosen(set);
  const int read = static_cast<int>(shards.size()), missing = key.k - read;
  if (missing > 0)
    refuse(std::to_string(read) + " of the " + std::to_string(key.k + key.m) + " pieces of set " + set_name(key.set) + " were read; " + std::to_string(missing) +
           (missing == 1 ? " more, any of them, is needed." : " more of any are needed."));
  const std::string data = data_of_shards(shards, key.k);
  if (crc32_of(data) != key.set) refuse("The pieces of set " + set_name(key.set) + " do not belong together, although each is whole; read them again from one paper.");
  FromPaper back;
  back.document = unpack_record(data);
  back.house = house_from_json(back.document);
  back.sha256 = sha256_text(back.document);
  back.set = set_name(key.set), back.revision = key.revision, back.k = key.k, back.m = key.m, back.read = read;
  return back;
}

}  // namespace ohmstead
