#include <algorithm>
#include <functional>
#include <optional>
#include <ostream>

#include "ask/names.h"
#include "ask/outage_ask.h"
#include "ask/outage_words.h"
#include "ask/proving_words.h"
#include "cli/exit_code.h"
#include "json/json_outage.h"
#include "db/keeper.h"
#include "cli/open_house.h"
#include "cli/outage_terminal.h"
#include "cli/run.h"
#include "house/error.h"

namespace ohmstead {

namespace {

/// The source that is meant: of the outage under way, named, or the only one.
std::size_t source_given(const House& house, const Names& names, const Arguments& arguments) {
  if (!arguments.has("--source") || source_of_outage(house)) return outage_source(house);
  const Id<Source> id = names.one_source(arguments.text("--source"));
  std::size_t at = 0;
  while (house.sources[at].id != id) ++at;
  return at;
}

OutageAnswer answer_given(const std::string& word, const std::string& at, const std::string& who) {
  const auto kind = parse_enum<OutageAnswerKind>(word);
  if (!kind) throw Error(ErrorKind::invalid_input, "A step is answered with done, no or no_effect.");
  return {*kind, at, who};
}

/// What the command line tells of; nothing if it tells nothing.
std::optional<OutageEvent> told(const OutageBoard& board, const Names& names, const Arguments& arguments) {
  for (const std::string_view what : kOutageTold)
    if (const std::string option = "--" + std::string(what); arguments.has(option)) return told_in_words(board.view(), names, what, arguments.text(option), arguments.text("--at"));
  return std::nullopt;
}

/// One line of the log, or one answer, at a time: of several the order would be a guess.
void require_one_thing_told(const Arguments& arguments) {
  std::vector<std::string> things{"--answer", "--undo"};
  for (const std::string_view what : kOutageTold) things.push_back("--" + std::string(what));
  std::string given;
  int count = 0;
  for (const std::string& thing : things)
    if (arguments.has(thing)) given += (count++ == 0 ? "" : " and ") + thing;
  if (count > 1) throw Error(ErrorKind::invalid_input, given + " are told one after the other; give one at a time. Nothing was recorded.");
}

/// The step that is answered is the one that was read: with --after nobody has changed the house since, whatever it was.
void require_the_step_that_was_read(const Arguments& arguments, std::int64_t revision) {
  const std::string now = std::to_string(revision);
  if (arguments.has("--answer") && !arguments.has("--after"))
    throw Error(ErrorKind::invalid_input, "Say which step is answered, for somebody else may have gone on meanwhile: `ohmstead outage --json` has it with its number, `revision`; the step of "
                                          "now takes --after " + now + ". Nothing was recorded.");
  if (!arguments.has("--after") || arguments.number("--after", 0, 0, 1e15) == static_cast<double>(revision)) return;
  throw Error(ErrorKind::conflict, "Somebody else has gone on since that step was read: the number of the step is " + now +
                                       " now. Nothing was recorded; see `ohmstead outage --status`.");
}

int show_may(Session& session, const OutageBoard& board, const Names& names, const Arguments& arguments) {
  const AskedInWords asked = asked_in_words(board.view(), names, arguments.text("--may"), arguments.text("--at"));
  const MayI answer = may_i(board.view(), asked.thing);
  if (session.json) session.out << json_of_may_i(board.view(), names, asked.name, answer);
  else show(session, words_of_may_i(board.view(), names, asked.name, answer));
  return answer.kind == MayIKind::yes || answer.kind == MayIKind::on_already || answer.kind == MayIKind::no_outage ? kDone : kDoneButNo;
}

/// `revision` of the house file: the number of the step.
int show_status(Session& session, const OutageBoard& board, const Names& names, std::int64_t revision) {
  const OutageStatus status = outage_status(board.view(), session.now());
  if (session.json) {
    session.out << json_of_outage(board.view(), names, {board.step(), status, revision}, {session.clock_ahead});
    return kDone;
  }
  show(session, words_of_outage_status(board.view(), status, {session.clock_ahead}));
  if (board.now().phase == OutagePhase::none) return kDone;
  session.out << "Now:\n";
  show(session, words_of_outage_step(board.view(), names, board.step()));
  if (!is_settled(board.step().kind)) session.out << "(To answer without a session: --answer done --after " << revision << ")\n";
  return kDone;
}

int show_log(Session& session, const House& house) {
  const Names names(house);
  const Lines lines = words_of_outage_log(house, names, {session.clock_ahead});
  if (session.json) session.out << json_of_outage_log(house, lines);
  else show(session, lines);
  return kDone;
}

/// Keeps the log; all else of the house stays as it is on disk.
KeepFn log_keeper(Keeper& keeper) {
  return [&keeper](const std::string& what, const House& board_house) {
    House next = keeper.house();
    next.outage_events = board_house.outage_events;
    keeper(what, next);
  };
}

/// The board anew, if another program has changed the house.
std::optional<OutageBoard> board_of_others(Keeper& keeper, Id<Source> source) {
  if (!keeper.changed_by_others()) return std::nullopt;
  const Record record = make_record(keeper.house());
  const auto at = std::ranges::find(record.house.sources, source, &Source::id);
  return OutageBoard(record.house, record.feeds, at == record.house.sources.end() ? outage_source(record.house) : static_cast<std::size_t>(at - record.house.sources.begin()));
}

int run_session(Session& session, OutageBoard& board, Keeper& keeper, const Arguments& arguments) {
  const Id<Source> source = board.house().sources[board.gear().source].id;
  OutageOptions options{.now = session.now, .who = arguments.text("--who"), .single_keys = session.in_is_terminal, .local = {session.clock_ahead},
                              .others = [&keeper, source] { return board_of_others(keeper, source); }};
  options.look_seconds = static_cast<int>(arguments.number("--look-every", options.look_seconds, 1, 3600));
  const OutageEnd end = run_outage_terminal(board, session.in, session.out, log_keeper(keeper), options);
  return end == OutageEnd::input_ended ? kDoneButNo : kDone;
}

}  // namespace

int run_outage(Session& session, const Arguments& arguments) {
  require_one_thing_told(arguments);
  const bool asks = arguments.has("--may") || arguments.has("--status");
  HouseFile file = open_house(session, arguments.has("--log") || asks ? Access::read : Access::change);
  Keeper keeper(file);
  if (arguments.has("--log")) return show_log(session, keeper.house());
  const Record record = make_record(keeper.house());
  const Names names(record.house);
  OutageBoard board(record.house, record.feeds, source_given(record.house, names, arguments));
  if (arguments.has("--may")) return show_may(session, board, names, arguments);
  if (arguments.has("--status")) return show_status(session, board, names, keeper.revision());
  if (board.now().phase == OutagePhase::none)
    if (const std::string left = proving_left_text(record.house, record.house.sources[board.gear().source].id); !left.empty())
      (session.json ? session.err : session.out) << "! " << left << " The outage is led from there, as on an ordinary day.\n";
  require_the_step_that_was_read(arguments, keeper.revision());
  const KeepFn keep = log_keeper(keeper);
  const std::string who = arguments.text("--who");
  if (auto event = told(board, names, arguments)) {
    event->at = session.now(), event->who = who;
    board.tell(*event);
  } else if (arguments.has("--answer")) {
    board.answer(answer_given(arguments.text("--answer"), session.now(), who));
  } else if (arguments.has("--undo")) {
    if (!board.undo()) throw Error(ErrorKind::not_found, "There is nothing to take back in the outage under way.");
  } else if (session.json) {
    return show_status(session, board, names, keeper.revision());
  } else {
    return run_session(session, board, keeper, arguments);
  }
  keep("Outage log", board.house());
  return show_status(session, board, names, keeper.revision());
}

}  // namespace ohmstead
