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

namespace ohmstead {

HouseFile open_house(const Session& session, Access access) { return HouseFile::open(house_path(session), access); }

Record load_record(const Session& session) { return make_record(open_house(session, Access::read).load()); }

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
    file.open(path, std::ios::binary);
    if (!file) throw Error(ErrorKind::storage, shown + " cannot be read.");
  }
  std::istream& in = path == "-" ? session.in : file;
  std::string text;
  char block[65536];
  while (in.read(block, sizeof block) || in.gcount() > 0) {
    text.append(block, static_cast<std::size_t>(in.gcount()));
    if (text.size() > most_bytes)
      throw Error(ErrorKind::invalid_input, shown + " is larger than the " + std::to_string(most_bytes / 1'000'000) + " MB that are read.");
  }
  if (in.bad() || (path == "-" && std::ferror(stdin) != 0))
    throw Error(ErrorKind::storage, shown + " cannot be read to its end; nothing was changed.");
  return text;
}

}  // namespace ohmstead
