#include "db/back_up.h"

#include <SQLiteCpp/SQLiteCpp.h>

#include "db/check.h"
#include "db/connection.h"
#include "db/storage_error.h"

namespace ohmstead {

void back_up(const std::filesystem::path& from, const std::filesystem::path& to) {
  const auto findings = check_house_file(from);
  if (!findings.empty()) throw Error(ErrorKind::storage, "No copy was made, for the copy would be damaged too: " + findings.front());
  const auto db = open_database(from, Access::read);
  try {
    copy_database(*db, to);
  } catch (const SQLite::Exception& e) {
    throw storage_error(e, to);
  } catch (const Error& e) {
    throw Error(ErrorKind::storage, e.what());
  }
}

}  // namespace ohmstead
