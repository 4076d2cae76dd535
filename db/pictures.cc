#include "db/pictures.h"

#include <SQLiteCpp/SQLiteCpp.h>

#include <algorithm>
#include <set>

#include "db/plain_jpeg.h"
#include "db/sha256.h"
#include "house/error.h"

namespace ohmstead {

namespace {

/// What is wrong with the bytes of a picture; empty: nothing. `row` with its size; null for the smaller one.
std::string fault_of(const std::string& sha256, std::string_view bytes, const Photo* row) {
  const int most = row == nullptr ? kMostSmallBytes : kMostPictureBytes, edge = row == nullptr ? kLongestSmallEdge : kLongestPictureEdge;
  if (bytes.size() > static_cast<std::size_t>(most)) return "The picture has more than " + std::to_string(most / 1000) + " kB.";
  if (sha256_text(bytes) != sha256) return "The bytes of the picture are not those that its SHA-256 names.";
  const auto size = size_of_plain_jpeg(bytes);
  if (!size) return "The picture is not a JPEG as this program writes them.";
  if (size->width > edge || size->height > edge) return "The picture is larger than " + std::to_string(edge) + " dots.";
  if (row != nullptr && (*size != JpegSize{row->width, row->height} || bytes.size() != static_cast<std::size_t>(row->bytes)))
    return "The picture has another size than the photo says.";
  return "";
}

}  // namespace

void require_pictures(const House& house, const Pictures& pictures) {
  std::set<std::string> named;
  for (std::size_t i = 0; i < house.photos.size(); ++i) {
    const Photo& photo = house.photos[i];
    const auto check = [&](const char* field, const std::string& sha256, const Photo* row) {
      const auto found = pictures.find(sha256);
      if (found == pictures.end()) return;
      named.insert(sha256);
      if (const std::string fault = fault_of(sha256, found->second, row); !fault.empty())
        throw Error(ErrorKind::invalid_input, "photo[" + std::to_string(i) + "]." + field + ": " + fault);
    };
    check("picture", photo.picture, &photo), check("small", photo.small, nullptr);
  }
  if (named.size() != pictures.size()) throw Error(ErrorKind::invalid_input, "picture: There is a picture that no photo names.");
}

std::size_t photos_without_picture(const House& house, const Pictures& pictures) {
  return static_cast<std::size_t>(std::ranges::count_if(house.photos, [&](const Photo& photo) { return !pictures.contains(photo.picture); }));
}

bool is_picture_of(const std::string& sha256, std::string_view bytes) { return size_of_plain_jpeg(bytes) && sha256_text(bytes) == sha256; }

void write_pictures(SQLite::Database& db, const Pictures& pictures) {
  if (pictures.empty()) return;
  SQLite::Statement insert(db, "INSERT OR IGNORE INTO \"picture\" (\"sha256\", \"jpeg\") VALUES (?, ?)");
  for (const auto& [sha256, bytes] : pictures) {
    insert.bind(1, sha256);
    insert.bind(2, bytes.data(), static_cast<int>(bytes.size()));
    insert.exec();
    insert.reset();
  }
}

std::optional<std::string> read_picture(SQLite::Database& db, const std::string& sha256) {
  SQLite::Statement find(db, "SELECT \"jpeg\" FROM \"picture\" WHERE \"sha256\" = ? AND length(\"jpeg\") <= " + std::to_string(kMostPictureBytes));
  find.bind(1, sha256);
  if (!find.executeStep()) return std::nullopt;
  return find.getColumn(0).getString();
}

Pictures read_pictures(SQLite::Database& db, const House& house) {
  Pictures pictures;
  for (const Photo& photo : house.photos)
    for (const std::string& sha256 : {photo.picture, photo.small})
      if (auto bytes = read_picture(db, sha256)) pictures[sha256] = std::move(*bytes);
  return pictures;
}

DroppedPictures drop_pictures_without_photo(SQLite::Database& db) {
  const std::string which = " FROM \"picture\" WHERE \"sha256\" NOT IN (SELECT \"picture\" FROM \"photo\" UNION SELECT \"small\" FROM \"photo\")";
  SQLite::Statement sum(db, "SELECT count(*), ifnull(sum(length(\"jpeg\")), 0)" + which);
  if (!sum.executeStep()) return {};
  const DroppedPictures dropped{sum.getColumn(0).getInt(), static_cast<long>(sum.getColumn(1).getInt64())};
  db.exec("PRAGMA secure_delete = ON");
  db.exec("DELETE" + which);
  return dropped;
}

}  // namespace ohmstead
