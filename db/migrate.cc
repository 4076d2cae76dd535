#include "db/migrate.h"

#include <SQLiteCpp/SQLiteCpp.h>

#include <string>

#include "house/error.h"

namespace ohmstead {

int newest_version() { return schema_steps().back().to_version; }

int version_of(SQLite::Database& db) { return db.execAndGet("PRAGMA user_version").getInt(); }

void refuse_newer(int have, int newest) {
  if (have <= newest) return;
  throw Error(ErrorKind::storage, "This house file has version " + std::to_string(have) +
                                      "; this program reads versions up to " + std::to_string(newest) +
                                      ". Use a newer ohmstead.");
}

void migrate(SQLite::Database& db, std::span<const Migration> steps) {
  int step_number = 0;
  try {
    const int have = version_of(db);
    refuse_newer(have, steps.empty() ? 0 : steps.back().to_version);
    for (const Migration& step : steps) {
      if (step.to_version <= have) continue;
      step_number = step.to_version;
      SQLite::Transaction transaction(db, SQLite::TransactionBehavior::IMMEDIATE);
      if (version_of(db) >= step.to_version) continue;  // another program has just done it
      db.exec(step.sql);
      db.exec("PRAGMA user_version = " + std::to_string(step.to_version));
      transaction.commit();  // version and schema land together or not at all
    }
  } catch (const SQLite::Exception& e) {
    throw Error(ErrorKind::storage, "The house file was not brought to version " + std::to_string(step_number) +
                                        " and is as it was: " + e.what() + ".");
  }
}

}  // namespace ohmstead
