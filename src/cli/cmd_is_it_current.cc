#include <algorithm>
#include <nlohmann/json.hpp>
#include <optional>
#include <ostream>

#include "ask/printable.h"
#include "cli/exit_code.h"
#include "json/json_text.h"
#include "cli/open_house.h"
#include "cli/print_set.h"
#include "cli/run.h"
#include "house/error.h"

namespace ohmstead {

namespace {

/// What is told of a code.
struct CodeAnswer {
  std::optional<bool> current;       ///< none: this file does not know it
  std::string name;                  ///< of the sheet or label; empty: not known
  const Printed* printed = nullptr;  ///< null: not written down that it was printed
  Lines lines;
};

std::string when(const Printed& printed) { return printed.at.substr(0, 10) + ", rev " + std::to_string(printed.revision); }

/// It was printed from this file; is it still what would be printed?
CodeAnswer of_printed(const Session& session, const House& house, const Printed& printed) {
  const auto state = [&](const Printed& one) { return state_of(one, items_now(session, words_kept(one.words))); };
  const PrintState now = state(printed);
  const std::string what = "The " + printed.name + " of " + when(printed);
  CodeAnswer answer{now.current, printed.name, &printed, {}};
  if (now.current) {
    answer.lines = {{LineKind::answer, "Yes. " + what + " says what the record says now."}};
    return answer;
  }
  answer.lines = {{LineKind::answer, "No. " + what + (now.gone.empty() ? " is no longer true." : " cannot be printed any more: " + now.gone)}};
  const Printed* last = last_of(house, printed.item);
  if (!now.gone.empty()) answer.lines.push_back({LineKind::detail, "Take it down."});
  else if (last != &printed && state(*last).current)
    answer.lines.push_back({LineKind::detail, "It was printed again (" + when(*last) + ", check " + printed_check_code(last->code) + "). Put that one up."});
  else answer.lines.push_back({LineKind::detail, "Print it again:", {"ohmstead " + command_text(words_kept(printed.words))}});
  return answer;
}

CodeAnswer of_code(const Session& session, const House& house, const std::string& code) {
  const auto known = std::ranges::find(house.printed.rbegin(), house.printed.rend(), code, &Printed::code);
  if (known != house.printed.rend()) return of_printed(session, house, *known);
  for (const std::vector<std::string>& words : all_prints(house, ""))
    for (const PrintedItem& item : items_now(session, words).items)
      if (item.code == code)
        return {true, item.name, nullptr, {{LineKind::answer, "Yes. It is what the " + item.name + " would say now, though this file does not know that it was printed."}}};
  return {std::nullopt, "", nullptr,
          {{LineKind::answer, "Not known. Nothing with the code " + printed_check_code(code) +
                                  " was printed from this file: look at the code again; else it is from another copy of the file, or older. Do not rely on it."}}};
}

}  // namespace

int run_is_it_current(Session& session, const Arguments& arguments) {
  const std::string typed = phrase(arguments.texts("CODE"));
  const auto code = read_check_code(typed);
  if (!code)
    throw Error(ErrorKind::invalid_input, "A check code has six letters and digits, such as 7Q2-K9D; '" + terminal::printable(typed.substr(0, 40)) + "' is none. It stands at the foot of a sheet or on a label.");
  const House house = open_house(session, Access::read).load();
  const CodeAnswer answer = of_code(session, house, *code);
  if (session.json) {
    nlohmann::ordered_json json = started_json("is_it_current", answer.lines);
    json["code"] = printed_check_code(*code);
    json["current"] = answer.current ? nlohmann::ordered_json(*answer.current) : nlohmann::ordered_json();
    json["name"] = answer.name;
    json["printed_at"] = answer.printed == nullptr ? "" : answer.printed->at;
    session.out << json_text(json);
  } else {
    show(session, answer.lines);
  }
  return answer.current == true ? kDone : kDoneButNo;
}

}  // namespace ohmstead
