#include "db/check.h"

#include <SQLiteCpp/SQLiteCpp.h>

#include <algorithm>

#include "db/connection.h"
#include "db/pictures.h"
#include "db/storage_error.h"
#include "db/table_sql.h"
#include "house/invariants.h"

namespace ohmstead {

namespace {

/// The first finding, in one line: what SQLite says of itself ("*** in database main ***") is left out.
std::string first_finding(std::string text) {
  if (text.starts_with("***")) text.erase(0, std::min(text.find('\n') + 1, text.size()));
  return text.substr(0, std::min<std::size_t>(text.find('\n'), 200));
}

void check_pages(SQLite::Database& db, std::vector<std::string>& findings) {
  SQLite::Statement pages(db, "PRAGMA integrity_check(20)");
  while (pages.executeStep())
    if (const std::string text = pages.getColumn(0).getString(); text != "ok") findings.push_back("The file is damaged: " + first_finding(text) + ".");
}

void check_references(SQLite::Database& db, std::vector<std::string>& findings) {
  SQLite::Statement keys(db, "PRAGMA foreign_key_check");
  while (keys.executeStep())
    findings.push_back("A row of table '" + keys.getColumn(0).getString() + "' names a row of '" +
                       keys.getColumn(2).getString() + "' that is not there.");
}

}  // namespace

std::vector<std::string> check_house_file(const std::filesystem::path& path) {
  const auto db = open_database(path, Access::read);
  std::vector<std::string> findings;
  try {
    check_pages(*db, findings);
    check_references(*db, findings);
    const House house = read_house(*db);
    for (const Problem& problem : problems_of(house)) findings.push_back(problem.path + ": " + problem.message);
    require_pictures(house, read_pictures(*db, house));
  } catch (const SQLite::Exception& e) {
    findings.emplace_back(storage_error(e, path).what());
  } catch (const Error& e) {
    findings.emplace_back(e.what());
  }
  return findings;
}

}  // namespace ohmstead
