#include "cli/print_log.h"

#include <algorithm>
#include <nlohmann/json.hpp>
#include <ostream>
#include <set>
#include <sstream>

#include "ask/printable.h"
#include "cli/exit_code.h"
#include "cli/open_house.h"
#include "house/error.h"

namespace ohmstead {

namespace {

/// What does not say what is printed.
const std::set<std::string> kLeftOut{"--output", "--png", "--svg", "--date", "--codes-text", "--start", "--test-page"};

std::string long_name(const std::string& name) { return name.substr(0, name.find(',')); }

bool is_option(const std::string& word) { return word.starts_with('-'); }

/// Are these words of a printing command, and none that names a file?
bool only_print(const std::vector<std::string>& words) {
  static const std::set<std::string> printing{"directory", "labels", "paper"};
  if (words.empty() || !printing.contains(words[0])) return false;
  const auto row = std::ranges::find(commands(), words[0], &Command::name);
  for (std::size_t i = 1; i < words.size(); ++i) {
    if (!is_option(words[i])) continue;  // a thing, or the value of the option before it
    const std::size_t equals = words[i].find('=');
    const std::string name = words[i].substr(0, equals);
    const auto option = std::ranges::find(row->options, name, [](const Option& one) { return long_name(one.name); });
    if (option == row->options.end() || kLeftOut.contains(name)) return false;
    if (option->kind == OptionKind::flag && equals != std::string::npos) return false;
  }
  return true;
}

}  // namespace

void add_option(std::vector<std::string>& words, const std::string& name, const std::string& value) {
  if (is_option(value)) words.push_back(name + "=" + value);
  else words.insert(words.end(), {name, value});
}

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
    if (!arguments.has(name) || kLeftOut.contains(name) || (name == "--dpi" && command != "labels")) continue;  // dots of a picture beside the print
    if (option.kind == OptionKind::flag) words.push_back(name);
    else
      for (const std::string& value : arguments.texts(name)) {
        if (is_option(name)) add_option(words, name, value);
        else words.push_back(value);
      }
  }
  return words;
}

House house_to_print(const Session& session, const HouseFile& file) {
  std::ostream nowhere(nullptr);
  return load_house(session, file, nowhere);
}

std::int64_t revision_to_print(const Session& session, const HouseFile& file) {
  return session.as_of.empty() ? file.revision() : std::stol(session.as_of);
}

void keep_printed(const Session& session, const HouseFile& file, const std::vector<std::string>& again, const std::vector<PrintedItem>& items) {
  const auto revision = static_cast<int>(revision_to_print(session, file));
  HouseFile::open(file.path(), Access::change).change("printed", [&](House& house) {
    const std::string words = kept_words(again);
    for (const PrintedItem& item : items) {
      std::erase_if(house.printed, [&](const Printed& printed) { return printed.item == item.key && printed.code == item.code && printed.words == words; });
      house.printed.push_back({Id<Printed>::fresh(), item.key, item.name, words, session.now(), revision, item.code});
    }
  });
}

void log_printed(Session& session, const HouseFile& file, const std::vector<std::string>& again, const std::vector<PrintedItem>& items) {
  if (session.for_looking) return;
  try {
    keep_printed(session, file, again, items);
  } catch (const Error& error) {
    session.err << "Note: It is printed, but not written down that it was, so `ohmstead is-it-current` will not know it. " << terminal::printable(error.what()) << '\n';
  }
}

ItemsNow items_now(const Session& session, const std::vector<std::string>& words) {
  ItemsNow now;
  if (!only_print(words)) {
    now.refused = "the file does not say by which command it was printed.";
    return now;
  }
  std::istringstream in;
  std::ostringstream out, err;
  Session inner{in, out, err};
  inner.house_path = session.house_path;
  inner.now = session.now, inner.clock_ahead = session.clock_ahead;
  inner.asked = &now.items, inner.as_of = session.as_of;
  if (run_command_line(words, inner) == kDone) return now;
  now.items.clear();
  now.refused = err.str().starts_with("ohmstead: ") ? err.str().substr(10) : err.str();
  now.refused.erase(now.refused.find_last_not_of('\n') + 1);
  return now;
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
