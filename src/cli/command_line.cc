// The only file that talks to CLI11.

#include <CLI/CLI.hpp>
#include <algorithm>
#include <filesystem>
#include <memory>
#include <new>
#include <ostream>

#include "ask/printable.h"
#include "cli/command.h"
#include "cli/exit_code.h"
#include "db/storage_error.h"
#include "version.h"

namespace ohmstead {

namespace {

/// "--output,-o" -> "--output"
std::string long_name(const std::string& name) { return name.substr(0, name.find(',')); }

void declare(CLI::App& app, const Option& option, std::map<std::string, std::vector<std::string>>& values) {
  auto& into = values[long_name(option.name)];
  CLI::Option* made = nullptr;
  switch (option.kind) {
    case OptionKind::flag: app.add_flag_callback(option.name, [&into] { into.emplace_back("yes"); }, option.help); return;
    case OptionKind::value:
    case OptionKind::argument:
      made = app.add_option_function<std::string>(option.name, [&into](const std::string& text) { into.push_back(text); }, option.help);
      break;
    case OptionKind::values: made = app.add_option(option.name, into, option.help)->expected(1)->take_all(); break;
    case OptionKind::arguments: made = app.add_option(option.name, into, option.help)->expected(1, 1000); break;
  }
  made->required(option.required);
  made->option_text(option.value_name.empty() ? (option.required ? "" : "[optional]") : option.value_name);
}

/// Help in our own words: an option shows what it takes and nothing of the library's.
class PlainHelp : public CLI::Formatter {
 public:
  PlainHelp() {
    label("Positionals", "What to give");
    label("SUBCOMMAND", "COMMAND ...");
    label("Subcommands", "Commands");
    label("OPTIONS", "OPTIONS");
    column_width(26);
  }
  std::string make_option_opts(const CLI::Option* option) const override {
    return option->get_option_text().empty() ? "" : " " + option->get_option_text();
  }
  std::string make_option_usage(const CLI::Option* option) const override {
    const bool several = option->get_expected_max() > 1;
    return option->get_name() + (several ? " ..." : "");
  }
};

std::size_t distance(const std::string& a, const std::string& b) {
  std::vector<std::size_t> row(b.size() + 1);
  for (std::size_t j = 0; j <= b.size(); ++j) row[j] = j;
  for (std::size_t i = 1; i <= a.size(); ++i) {
    std::size_t diagonal = row[0];
    row[0] = i;
    for (std::size_t j = 1; j <= b.size(); ++j) {
      const std::size_t up = row[j];
      row[j] = std::min({up + 1, row[j - 1] + 1, diagonal + (a[i - 1] == b[j - 1] ? 0U : 1U)});
      diagonal = up;
    }
  }
  return row[b.size()];
}

/// One sentence for a first word that is no command.
std::string no_such_command(const std::string& word) {
  std::string nearest;
  std::size_t least = 3;
  for (const Command& command : commands())
    if (const std::size_t d = distance(word.substr(0, 40), command.name); d < least) least = d, nearest = command.name;
  const std::string hint = nearest.empty() ? "`ohmstead --help` lists them." : "Did you mean '" + nearest + "'?";
  return "There is no command '" + terminal::printable(word.substr(0, 40)) + "'. " + hint;
}

/// First word that is not an option of the program itself.
std::string first_word(const std::vector<std::string>& words) {
  for (std::size_t i = 0; i < words.size(); ++i) {
    if (words[i] == "--house" || words[i] == "-f") ++i;
    else if (words[i].empty() || words[i][0] != '-') return words[i];
  }
  return "";
}

bool is_command(const std::string& word) {
  return std::ranges::any_of(commands(), [&](const Command& c) { return c.name == word; });
}

int usage_error(Session& session, const std::string& sentence) {
  session.err << "ohmstead: " << sentence << '\n';
  return kUsage;
}

std::string plain_usage(const CLI::ParseError& error, const std::string& command) {
  std::string text = error.what();
  std::erase(text, '\n');
  const std::string what = text.substr(0, text.find(':'));
  if (dynamic_cast<const CLI::ArgumentMismatch*>(&error) != nullptr)
    text = text.find("missing") != std::string::npos ? what + " needs a value behind it" : what + " is given more often than it may be";
  if (dynamic_cast<const CLI::ExtrasError*>(&error) != nullptr) text = "There is something it does not know on the line";
  return "`" + (command.empty() ? std::string("ohmstead") : "ohmstead " + command) + "`: " + terminal::printable(text) +
         ". See `ohmstead " + (command.empty() ? "" : command + " ") + "--help`.";
}

int run_caught(Session& session, const Command& command, const Arguments& arguments) try {
  return command.run(session, arguments);
} catch (const Error& error) {
  session.out.flush();
  session.err << "ohmstead: " << terminal::printable(error.what()) << '\n';
  return exit_code_of(error.kind);
} catch (const std::bad_alloc&) {
  session.err << "ohmstead: there is not enough memory for this; nothing was changed.\n";
  return kHouseFile;
} catch (const std::filesystem::filesystem_error& error) {
  session.out.flush();
  session.err << "ohmstead: " << terminal::printable(quoted(error.path1())) << " cannot be used: " << error.code().message() << ". Give another path.\n";
  return kHouseFile;
} catch (const std::exception& error) {
  session.err << "ohmstead: a fault of the program itself (" << terminal::printable(error.what())
              << "). Nothing more was written; please report it.\n";
  return kOurFault;
}

constexpr const char* kAbout =
    "Finds out which breaker feeds what, answers from the record, plans and leads through outages, prints.\n"
    "Start:  ohmstead new home.house      then `enter` or `survey`, `trace`, `off`, `directory`.";

}  // namespace

int run_command_line(const std::vector<std::string>& words, Session& session) {
  session.words = words;
  const std::string word = first_word(words);
  if (!word.empty() && !is_command(word)) return usage_error(session, no_such_command(word));
  CLI::App app{kAbout, "ohmstead"};
  app.formatter(std::make_shared<PlainHelp>());
  app.set_version_flag("--version", std::string("ohmstead ") + kVersion);
  app.add_option("--house,-f", session.house_path, "House file; without it the only NAME.house in this folder, or $OHMSTEAD_HOUSE")
      ->option_text("FILE");
  app.require_subcommand(0, 1);
  std::map<std::string, std::vector<std::string>> values;
  const Command* chosen = nullptr;
  for (const Command& command : commands()) {
    if (!word.empty() && command.name != word) continue;  // only the one that was asked for is set up
    CLI::App* sub = app.add_subcommand(command.name, word.empty() ? command.help : command.help + ".\n" + command.explained);
    sub->group("Commands");
    sub->fallthrough();
    sub->callback([&chosen, &command] { chosen = &command; });
    if (!word.empty())
      for (const Option& option : command.options) declare(*sub, option, values);
  }
  try {
    std::vector<std::string> reversed(words.rbegin(), words.rend());
    app.parse(std::move(reversed));
  } catch (const CLI::Success& asked) {
    app.exit(asked, session.out, session.err);
    return kDone;
  } catch (const CLI::ParseError& error) {
    return usage_error(session, plain_usage(error, word));
  }
  if (chosen == nullptr) {
    session.out << app.help();
    return words.empty() ? kDone : kUsage;
  }
  Arguments arguments;
  for (auto& [name, given] : values)
    if (!given.empty()) arguments.put(name, std::move(given));
  session.json = arguments.has("--json"), session.as_of = arguments.text("--as-of", session.as_of), session.who = arguments.text("--who");
  return run_caught(session, *chosen, arguments);
}

}  // namespace ohmstead
