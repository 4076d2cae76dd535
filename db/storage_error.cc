#include "db/storage_error.h"

#include <SQLiteCpp/SQLiteCpp.h>
#include <sqlite3.h>

namespace ohmstead {

std::string quoted(const std::filesystem::path& path) {
  constexpr std::size_t kShown = 300;
  std::string text = path.string();
  if (text.size() > kShown) {  // the end of a path says most
    std::size_t cut = text.size() - kShown;
    while (cut < text.size() && (static_cast<unsigned char>(text[cut]) & 0xC0) == 0x80) ++cut;  // not inside a character
    text = "..." + text.substr(cut);
  }
  for (char& c : text)
    if (static_cast<unsigned char>(c) < 0x20 || c == 0x7f) c = '?';
  return "'" + text + "'";
}

Error storage_error(const SQLite::Exception& failure, const std::filesystem::path& path) {
  const std::string name = quoted(path);
  const auto storage = [](const std::string& text) { return Error(ErrorKind::storage, text); };
  switch (failure.getErrorCode()) {
    case SQLITE_BUSY:
    case SQLITE_LOCKED:
      return Error(ErrorKind::conflict, "Another program is writing " + name + "; nothing was changed. Try again in a moment.");
    case SQLITE_FULL:
      return storage("The disk that " + name + " is on is full; nothing was changed. Make room on it and try again.");
    case SQLITE_READONLY:
    case SQLITE_PERM:
      return storage(name + " cannot be written: the file or its folder is read-only; nothing was changed.");
    case SQLITE_CORRUPT:
      return storage(name + " is damaged. Use a copy from before; keep this file, some of it may be read by hand.");
    case SQLITE_NOTADB:
      return storage(name + " is not a house file, or it is damaged at its beginning.");
    case SQLITE_CONSTRAINT:
      return storage(name + " refuses a row that this program would keep, so it was changed by another program; nothing was changed. "
                     "Use a copy from before.");
    case SQLITE_AUTH:
      return storage(name + " holds something in the place of one of its tables, so it was changed by another program. Use a copy from before.");
    case SQLITE_CANTOPEN:
      return storage(name + " cannot be opened. Look at the rights of the file and of its folder.");
    case SQLITE_IOERR:
      return storage("The disk failed to read or write " + name + "; nothing was changed. Is it full, or was it taken out?");
    default: return storage(name + " could not be used: " + failure.what() + ".");
  }
}

}  // namespace ohmstead
