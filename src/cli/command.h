#pragma once
// A command is a row of plain facts and one function. One file (command_line.cc) turns the rows
// into a parser, and help is made from the same rows.

#include <functional>
#include <iosfwd>
#include <map>
#include <set>
#include <span>
#include <string>
#include <vector>

namespace ohmstead {

enum class OptionKind {
  flag,      ///< --json
  value,     ///< --output FILE
  values,    ///< may be given several times
  argument,  ///< positional, one
  arguments, ///< positional, one or more
};

struct Option {
  std::string name;  ///< "--output,-o", or the name of a positional in capitals
  OptionKind kind = OptionKind::flag;
  std::string help;
  bool required = false;
  std::string value_name;  ///< shown in help for value options
};

/// What was given on the command line, as text. Numbers are parsed by the commands in base 10.
class Arguments {
 public:
  void put(const std::string& option, std::vector<std::string> values) { given_[option] = std::move(values); }
  [[nodiscard]] bool has(const std::string& option) const { return given_.contains(option); }
  /// First value, or `fallback`.
  [[nodiscard]] std::string text(const std::string& option, const std::string& fallback = "") const;
  void drop(const std::string& option) { given_.erase(option); }
  [[nodiscard]] std::vector<std::string> texts(const std::string& option) const;
  /// A decimal number of millimetres, seconds, ...; throws Error{invalid_input} naming the option.
  [[nodiscard]] double number(const std::string& option, double fallback, double low, double high) const;

 private:
  std::map<std::string, std::vector<std::string>> given_;  ///< by long name ("--output") or positional name
};

struct PrintedItem;

/// Everything a command may touch besides its arguments.
struct Session {
  std::istream& in;
  std::ostream& out;
  std::ostream& err;
  std::string house_path;   ///< as given with --house or OHMSTEAD_HOUSE; empty: look in the folder
  bool json = false;
  std::string as_of = {};   ///< revision or date with --as-of; empty: now
  std::string who = {};     ///< with --who: who makes the change, kept in the history
  bool in_is_terminal = false;
  std::vector<std::string> words;  ///< the whole command line, as given
  std::function<std::string()> now;  ///< UTC, `2026-11-25T09:30:00Z`
  std::function<long(long)> clock_ahead;  ///< seconds that clocks here are ahead of UTC at that second since 1970; empty: none
  std::set<std::string> only;  ///< print the labels with these keys alone; empty: all
  bool for_looking = false;  ///< what is printed is only looked at: it is not written down as printed
  std::vector<PrintedItem>* asked = nullptr;  ///< a printing command prints nothing and says here what it would print (cli/print_log.h)
};

struct Command {
  std::string name;
  std::string help;       ///< one line
  std::string explained;  ///< more, with an example
  std::vector<Option> options;
  int (*run)(Session&, const Arguments&) = nullptr;  ///< returns an ExitCode
};

/// All commands, in the order in which a person needs them.
[[nodiscard]] std::span<const Command> commands();

/// Parses the command line and runs one command. Returns the exit code; catches every Error.
int run_command_line(const std::vector<std::string>& words, Session& session);

/// Path of the house file to use: the one given, or the only NAME.house in this folder.
/// Throws Error{not_found} when there is none, Error{ambiguous} when there are several.
[[nodiscard]] std::string house_path(const Session& session);

}  // namespace ohmstead
