#include <ostream>

#include "ask/printable.h"
#include "cli/exit_code.h"
#include "json/json_answers.h"
#include "cli/open_house.h"
#include "cli/run.h"

namespace ohmstead {

namespace {

std::string joined_words(const std::vector<std::string>& words, std::size_t from, std::size_t count) {
  const auto first = words.begin() + static_cast<std::ptrdiff_t>(from);
  return phrase({first, first + static_cast<std::ptrdiff_t>(count)});
}

/// Do these words name a handle, or several, so that it is to be asked which?
bool names_a_handle(const Names& names, const std::string& words) {
  try {
    (void)names.one_handle(words.substr(0, words.rfind('=')));
  } catch (const Error& error) {
    return error.kind == ErrorKind::ambiguous;
  }
  return true;
}

/// "12", "main", "T3", or "T3=backup", "12=on". Without "=" the handle is turned off.
AskedMove asked_move(const Names& names, const std::string& word) {
  const auto equals = word.rfind('=');
  const HandleRef handle = names.one_handle(word.substr(0, equals));
  const std::string to = equals == std::string::npos ? "off" : word.substr(equals + 1);
  if (to == "off") return {handle, kOff};
  const bool position = handle.kind == HandleKind::position;
  if (position && to == "utility") return {handle, kUtilitySide};
  if (position && to == "backup") return {handle, kBackupSide};
  if (!position && to == "on") return {handle, kOn};
  throw Error(ErrorKind::invalid_input, "'" + terminal::printable(word.substr(0, 80)) + "': after '=' comes " + (position ? "off, utility or backup." : "on or off."));
}

/// The words in handles: `Main 3` and `workshop main` are one each, though the shell cuts them in
/// two. As many words as name a handle belong together; a number begins no name of several words.
std::vector<AskedMove> asked_moves(const Names& names, const std::vector<std::string>& words) {
  constexpr std::size_t kMostWords = 6;
  std::vector<AskedMove> moves;
  for (std::size_t at = 0; at < words.size();) {
    const bool number = !words[at].empty() && words[at][0] >= '0' && words[at][0] <= '9';
    std::size_t most = 1;
    while (!number && most < kMostWords && at + most < words.size() && words[at + most - 1].find('=') == std::string::npos) ++most;
    std::size_t taken = most;
    while (taken > 1 && !names_a_handle(names, joined_words(words, at, taken))) --taken;
    if (taken == 1 && most > 1 && !names_a_handle(names, words[at])) taken = most;  // the whole is named in the refusal
    moves.push_back(asked_move(names, joined_words(words, at, taken)));
    at += taken;
  }
  return moves;
}

}  // namespace

int run_off(Session& session, const Arguments& arguments) {
  const Record record = load_record(session);
  const Names names(record.house);
  const std::vector<AskedMove> moves = asked_moves(names, arguments.texts("HANDLE"));
  const OffAnswer answer = what_goes_off(record, moves, supplied_by(record, names, arguments));
  if (session.json) session.out << json_of_answer(record, names, answer);
  else show(session, words_of_answer(record, names, answer));
  return kDone;
}

}  // namespace ohmstead
