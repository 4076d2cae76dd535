#include <charconv>
#include <limits>
#include <ostream>

#include "cli/exit_code.h"
#include "cli/open_house.h"
#include "cli/run.h"
#include "db/history_answer.h"
#include "db/undo.h"
#include "house/error.h"
#include "json/json_history.h"

namespace ohmstead {

namespace {

constexpr std::size_t kShown = 30;

int whole_number(const std::string& text, const std::string& what) {
  int value = 0;
  const auto [end, fault] = std::from_chars(text.data(), text.data() + text.size(), value);
  if (fault != std::errc{} || end != text.data() + text.size() || value < 1 || value > 1'000'000)
    throw Error(ErrorKind::invalid_input, what + " is a whole number from 1 to 1000000, not '" + text.substr(0, 40) + "'.");
  return value;
}

/// How many of the newest changes are shown.
std::size_t shown(const Session& session, const Arguments& arguments) {
  constexpr std::size_t kAll = std::numeric_limits<std::size_t>::max();
  if (!arguments.has("--last")) return session.json ? kAll : kShown;
  const std::string last = arguments.text("--last");
  return last == "all" ? kAll : static_cast<std::size_t>(whole_number(last, "--last"));
}

/// A thing that is there, or one that was: by its present name, or by that of a thing that is gone.
ThingRef named_thing(const HouseFile& file, const std::string& words) {
  const House house = file.load();
  const Names names(house);
  try {
    return names.one(words);
  } catch (const Error& error) {
    if (error.kind != ErrorKind::not_found) throw;
    const House all = with_all_that_is_gone(house, file.rows_naming(0));
    const MatchResult gone = Names(all).find(words);
    if (gone.best.size() == 1) return gone.best.front().thing;
    throw;
  }
}

int say_undone(Session& session, const char* verb, const HouseFile& file, const Undone& undone) {
  for (const std::int64_t revision : undone.revisions)
    for (const FileChange& change : file.changes())
      if (change.revision == revision) show(session, {{LineKind::answer, std::string(verb) + " revision " + std::to_string(revision) + ", " + change.at.substr(0, 10) + ": " + change.what + ".", {}}});
  session.out << "Saved as revision " << undone.revision << ".\n";
  return kDone;
}

}  // namespace

int run_history(Session& session, const Arguments& arguments) {
  const HouseFile file = open_house(session, Access::read);
  const std::string words = phrase(arguments.texts("THING"));
  std::optional<ThingRef> thing;
  if (!words.empty()) thing = named_thing(file, words);
  const HistoryAnswer answer = history_of(file, thing, shown(session, arguments));
  if (session.json) session.out << json_of_history(answer);
  else show(session, words_of_history(answer));
  return kDone;
}

int run_undo(Session& session, const Arguments& arguments) {
  HouseFile file = open_house(session, Access::change);
  if (arguments.has("--revision") && arguments.has("N")) throw Error(ErrorKind::invalid_input, "Give how many changes, or one revision, not both.");
  const Undone undone = arguments.has("--revision") ? undo_revision(file, whole_number(arguments.text("--revision"), "--revision"))
                                                    : undo(file, whole_number(arguments.text("N", "1"), "How many changes"));
  return say_undone(session, "Took back", file, undone);
}

int run_redo(Session& session, const Arguments& arguments) {
  HouseFile file = open_house(session, Access::change);
  return say_undone(session, "Made again", file, redo(file, whole_number(arguments.text("N", "1"), "How many changes")));
}

}  // namespace ohmstead
