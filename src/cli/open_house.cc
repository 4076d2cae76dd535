#include "cli/open_house.h"

#include <algorithm>
#include <cstdio>
#include <fstream>
#include <istream>
#include <iterator>
#include <ostream>
#include <sys/stat.h>

#include "ask/printable.h"
#include "db/storage_error.h"
#include "house/error.h"
#include "house/moment.h"

namespace ohmstead {

HouseFile open_house(const Session& session, Access access) {
  HouseFile file = HouseFile::open(house_path(session), access);
  file.made_by(session.who);
  return file;
}

namespace {

/// The last moment that "2026-11-25" or "2026-11-25 09:30" names, in UTC; empty for another text.
std::string last_moment(std::string text) {
  if (text.size() == 16 && (text[10] == ' ' || text[10] == 'T')) text = text.substr(0, 10) + "T" + text.substr(11) + ":59Z";
  else if (text.size() == 10) text += "T23:59:59Z";
  return seconds_since_1970(text) < 0 ? "" : text;
}

/// The change after which the house is asked about: its revision, or the last one at that time.
FileChange change_asked(const HouseFile& file, const std::string& as_of) {
  const std::vector<FileChange> changes = file.changes();
  const bool number = !as_of.empty() && as_of.size() < 10 && as_of.find_first_not_of("0123456789") == std::string::npos;
  const std::string moment = number ? "" : last_moment(as_of);
  if (!number && moment.empty()) throw Error(ErrorKind::invalid_input, "--as-of takes a revision, or a date such as 2026-11-25 or '2026-11-25 09:30' (UTC), not '" + as_of.substr(0, 40) + "'.");
  const FileChange* found = nullptr;
  for (const FileChange& change : changes)
    if (number ? change.revision == std::stol(as_of) : change.at <= moment) found = &change;
  if (found == nullptr) throw Error(ErrorKind::not_found, number ? "There is no revision " + as_of + " of this house." : "This house file was begun on " + changes.at(0).at.substr(0, 10) + ", after that date.");
  return *found;
}

}  // namespace

House load_house(const Session& session, const HouseFile& file, std::ostream& note) {
  if (session.as_of.empty()) return file.load();
  const FileChange change = change_asked(file, session.as_of);
  note << "As of revision " << change.revision << ", " << change.at.substr(0, 10) << " " << change.at.substr(11, 5) << " UTC; the house now is at revision " << file.revision() << ".\n";
  return file.as_of(change.revision);
}

Record load_record(const Session& session) {
  std::ostream nowhere(nullptr);
  return make_record(load_house(session, open_house(session, Access::read), session.json ? nowhere : session.out));
}

std::string phrase(const std::vector<std::string>& words) {
  std::string text;
  for (const std::string& word : words) text += (text.empty() ? "" : " ") + word;
  return text;
}

Supplied supplied_by(const Record& record, const Names& names, const Arguments& arguments) {
  const bool named = arguments.has("--source");
  if (!arguments.has("--on-backup") && !named) return {};
  const auto& sources = record.house.sources;
  if (sources.empty()) throw Error(ErrorKind::not_found, "This house has no source besides the utility; write one down, such as `Generator G 3500/4500 W 120/240`.");
  Id<Source> id = sources[0].id;
  if (named) id = names.one_source(arguments.text("--source"));
  else if (sources.size() > 1)
    throw Error(ErrorKind::ambiguous, "There are several sources; say which with --source NAME.");
  const auto at = std::ranges::find(sources, id, &Source::id);
  return {static_cast<int>(at - sources.begin()) + 1};
}

namespace {

constexpr std::size_t kWidth = 78;

/// Text in lines of at most kWidth bytes where words allow it; later lines are indented.
void write_wrapped(std::ostream& out, const std::string& first_indent, const std::string& indent, const std::string& text) {
  std::string line = first_indent;
  bool any = false;
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t end = std::min(text.find(' ', at), text.size());
    const std::string word = text.substr(at, end - at);
    if (any && line.size() + 1 + word.size() > kWidth) {
      out << line << '\n';
      line = indent;
      any = false;
    }
    line += (any ? " " : "") + word;
    any = true;
    at = end + 1;
  }
  out << line << '\n';
}

[[noreturn]] void refuse_larger(const std::string& shown, std::size_t most_bytes) {
  throw Error(ErrorKind::invalid_input, shown + " is larger than the " + std::to_string(most_bytes / 1'000'000) + " MB that are read.");
}

}  // namespace

void show(Session& session, const Lines& lines) {
  for (const Line& line : lines) {
    const std::string mark = line.kind == LineKind::danger ? "! " : line.kind == LineKind::caution ? "Caution: " : "";
    write_wrapped(session.out, mark, std::string(line.kind == LineKind::danger ? 2 : 0, ' '), terminal::printable(line.text));
    for (const std::string& item : line.items) write_wrapped(session.out, "    ", "      ", terminal::printable(item));
  }
}

std::size_t point_place(const House& house, Id<Point> id) {
  return static_cast<std::size_t>(std::ranges::find(house.points, id, &Point::id) - house.points.begin());
}

std::string read_all(Session& session, const std::string& path, std::size_t most_bytes) {
  std::ifstream file;
  const std::string shown = path == "-" ? "standard input" : ohmstead::quoted(path);
  if (path != "-") {
    struct stat about{};
    if (stat(path.c_str(), &about) != 0) throw Error(ErrorKind::storage, "There is no file " + shown + ".");
    if (!S_ISREG(about.st_mode)) throw Error(ErrorKind::storage, shown + " is not an ordinary file.");
    if (about.st_size > static_cast<off_t>(most_bytes)) refuse_larger(shown, most_bytes);
    file.open(path, std::ios::binary);
    if (!file) throw Error(ErrorKind::storage, shown + " cannot be read.");
  }
  std::istream& in = path == "-" ? session.in : file;
  std::string text;
  char block[65536];
  while (in.read(block, sizeof block) || in.gcount() > 0) {
    text.append(block, static_cast<std::size_t>(in.gcount()));
    if (text.size() > most_bytes) refuse_larger(shown, most_bytes);
  }
  if (in.bad() || (path == "-" && std::ferror(stdin) != 0))
    throw Error(ErrorKind::storage, shown + " cannot be read to its end; nothing was changed.");
  return text;
}

}  // namespace ohmstead
