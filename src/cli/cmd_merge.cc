#include <filesystem>
#include <nlohmann/json.hpp>
#include <ostream>

#include "ask/printable.h"
#include "cli/exit_code.h"
#include "cli/merge_talk.h"
#include "cli/open_house.h"
#include "cli/other_copy.h"
#include "cli/run.h"
#include "db/merge_base.h"
#include "db/merge_words.h"
#include "house/error.h"

namespace ohmstead {

namespace {

/// Decides every conflict for one side.
Merged decide_all(Side side, const MergeFn& merge) {
  Decisions decisions;
  for (;;) {
    Merged merged = merge(decisions);
    if (merged.open.empty()) return merged;
    for (const Conflict& conflict : merged.open) decisions[conflict.key] = side;
  }
}

int show_only(Session& session, const House& mine, const Merged& merged) {
  Lines lines{{LineKind::answer, "As far as nothing is asked: " + brought_words(mine, merged.house) + ".", {}}};
  for (const Conflict& conflict : merged.open) {
    const SideBySide sides = side_by_side(merged, conflict);
    Line line{LineKind::answer, "Would be asked: " + sides.about, {}};
    if (!sides.before.empty()) line.items.push_back("before: " + sides.before);
    line.items.push_back("here: " + sides.mine), line.items.push_back("there: " + sides.theirs);
    lines.push_back(std::move(line));
  }
  show(session, lines);
  return merged.open.empty() && merged.house == mine ? kDone : kDoneButNo;
}

int say_nothing_new(Session& session, bool by_lines, std::int64_t revision) {
  if (by_lines) session.out << nlohmann::ordered_json{{"type", "merged"}, {"revision", revision}, {"changed", false}}.dump() << '\n';
  else session.out << "There is nothing new in it; nothing was changed.\n";
  return kDone;
}

}  // namespace

int run_merge(Session& session, const Arguments& arguments) {
  if (arguments.has("--mine") && arguments.has("--theirs")) throw Error(ErrorKind::invalid_input, "Give --mine or --theirs, not both.");
  const bool whole = arguments.has("--mine") || arguments.has("--theirs"), only_show = arguments.has("--show");
  const bool by_lines = !whole && !only_show && (arguments.has("--json-lines") || !session.in_is_terminal);
  const std::string path = arguments.text("OTHER");
  OtherCopy other = read_other_copy(session, path);
  HouseFile file = open_house(session, only_show ? Access::read : Access::change);
  const House mine = file.load();
  if (mine.dwelling.id != other.house.dwelling.id) (void)merge_houses(mine, mine, other.house, {});  // says so
  const Parting parting = parting_of(file, mine, other);
  if (parting.nothing_new) return say_nothing_new(session, by_lines, file.revision());
  if (!by_lines && parting.revision == 0) session.out << "The two have no change in common, so only what is alike in both, and what this file had earlier, is taken as known.\n";
  const MergeFn merge = [&](const Decisions& decisions) { return merge_houses(parting.base, mine, parting.theirs, decisions); };
  if (only_show) return show_only(session, mine, merge({}));
  const std::optional<Merged> merged = whole ? decide_all(arguments.has("--mine") ? Side::mine : Side::theirs, merge)
                                       : by_lines ? decide_by_lines(session, merge)
                                                  : decide_at_terminal(session, merge);
  if (!merged) {
    session.err << "ohmstead: not everything was decided, so nothing was merged.\n";
    return kDoneButNo;
  }
  const std::int64_t before = file.revision();
  const std::int64_t revision = keep_merged(file, mine, *merged, other, "merged " + terminal::printable(std::filesystem::path(path).filename().string()));
  if (revision == before) return say_nothing_new(session, by_lines, revision);
  if (by_lines) session.out << nlohmann::ordered_json{{"type", "merged"}, {"revision", revision}, {"changed", true}, {"brought", brought_words(mine, merged->house)}, {"decided", merged->decided}}.dump() << '\n';
  else session.out << "\nMerged: " << brought_words(mine, merged->house) << (merged->decided == 0 ? "" : "; " + std::to_string(merged->decided) + " decided") << ". Saved as revision " << revision << ".\n";
  return kDone;
}

}  // namespace ohmstead
