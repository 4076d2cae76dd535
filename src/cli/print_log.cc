#include "cli/print_log.h"

#include <algorithm>
#include <nlohmann/json.hpp>
#include <ostream>
#include <set>
#include <sstream>

#include "ask/printable.h"
#include "cli/open_house.h"
#include "house/error.h"

namespace ohmstead {

namespace {

/// What does not say what is printed.
const std::set<std::string> kLeftOut{"--output", "--png", "--date", "--codes-text", "--start", "--test-page"};

std::string long_name(const std::string& name) { return name.substr(0, name.find(',')); }

/// Are these words of a printing command, and none that names a file? They may come from a stranger's house file.
bool only_print(const std::vector<std::string>& words) {
  static const std::set<std::string> printing{"directory", "labels", "paper"};
  if (words.empty() || !printing.contains(words[0])) return false;
  const auto row = std::ranges::find(commands(), words[0], &Command::name);
  const auto harmless = [&](const std::string& word) {
    return word.empty() || word[0] != '-' || std::ranges::any_of(row->options, [&](const Option& option) { return long_name(option.name) == word && !kLeftOut.contains(word); });
  };
  return std::all_of(words.begin() + 1, words.end(), harmless);
}

}  // namespace

bool only_asked(Session& session, const std::vector<PrintedItem>& items) {
  if (session.asked == nullptr) return false;
  session.asked->insert(session.asked->end(), items.begin(), items.end());
  return true;
}

std::vector<std::string> words_again(const std::string& command, const Arguments& arguments) {
  std::vector<std::string> words{command};
  const auto row = std::ranges::find(commands(), command, &Command::name);
  for (const Option& option : row->options) {
    const std::string name = long_name(option.name);
    if (!arguments.has(name) || kLeftOut.contains(name)) continue;
    if (option.kind == OptionKind::flag) words.push_back(name);
    else
      for (const std::string& value : arguments.texts(name)) {
        if (name[0] == '-') words.push_back(name);
        words.push_back(value);
      }
  }
  return words;
}

void log_printed(Session& session, const HouseFile& file, const std::vector<std::string>& again, const std::vector<PrintedItem>& items) {
  const auto revision = static_cast<int>(file.revision());
  try {
    HouseFile::open(file.path(), Access::change).change("printed", [&](House& house) {
      for (const PrintedItem& item : items)
        house.printed.push_back({Id<Printed>::fresh(), item.key, item.name, kept_words(again), session.now(), revision, item.code});
    });
  } catch (const Error& error) {
    session.err << "Note: It is printed, but not written down that it was, so `ohmstead is-it-current` will not know it. " << terminal::printable(error.what()) << '\n';
  }
}

std::vector<PrintedItem> items_now(const Session& session, const std::vector<std::string>& words, std::string& why) {
  std::vector<PrintedItem> items;
  if (!only_print(words)) {
    why = "the file does not say by which command it was printed.";
    return items;
  }
  std::istringstream in;
  std::ostringstream out, err;
  Session inner{in, out, err};
  inner.house_path = session.house_path;
  inner.now = session.now, inner.clock_ahead = session.clock_ahead;
  inner.asked = &items;
  if (run_command_line(words, inner) != 0) {
    why = err.str().starts_with("ohmstead: ") ? err.str().substr(10) : err.str();
    why.erase(why.find_last_not_of('\n') + 1);
    items.clear();
  }
  return items;
}

std::string kept_words(const std::vector<std::string>& words) { return nlohmann::json(words).dump(); }

std::vector<std::string> words_kept(const std::string& text) {
  const nlohmann::json read = nlohmann::json::parse(text, nullptr, false);
  std::vector<std::string> words;
  if (!read.is_array()) return words;
  for (const nlohmann::json& word : read) {
    if (!word.is_string()) return {};
    words.push_back(word.get<std::string>());
  }
  return words;
}

}  // namespace ohmstead
