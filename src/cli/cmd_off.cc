#include <ostream>

#include "ask/printable.h"
#include "cli/exit_code.h"
#include "cli/json_answers.h"
#include "cli/open_house.h"
#include "cli/run.h"

namespace ohmstead {

namespace {

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

}  // namespace

int run_off(Session& session, const Arguments& arguments) {
  const Record record = load_record(session);
  const Names names(record.house);
  std::vector<AskedMove> moves;
  for (const std::string& word : arguments.texts("HANDLE")) moves.push_back(asked_move(names, word));
  const OffAnswer answer = what_goes_off(record, moves, supplied_by(record, names, arguments));
  if (session.json) session.out << json_of_answer(record, names, answer);
  else show(session, words_of_answer(record, names, answer));
  return kDone;
}

}  // namespace ohmstead
