#include <ostream>

#include "cli/keys.h"
#include "cli/merge_talk.h"
#include "cli/open_house.h"
#include "cli/wrapped.h"
#include "db/merge_words.h"

namespace ohmstead {

namespace {

void show_conflict(Session& session, const Merged& merged) {
  const SideBySide sides = side_by_side(merged, merged.open.front());
  const std::size_t left = merged.open.size();
  Line line{LineKind::answer, sides.about + (left > 1 ? " (" + std::to_string(left - 1) + " more to decide.)" : ""), {}};
  if (!sides.before.empty()) line.items.push_back("before: " + sides.before);
  line.items.push_back("m  here:  " + sides.mine);
  line.items.push_back("t  there: " + sides.theirs);
  session.out << '\n';
  show(session, {line});
  session.out << "  m  as it is here     t  as it is there     q  stop, and nothing is changed\n> " << std::flush;
}

}  // namespace

std::optional<Merged> decide_at_terminal(Session& session, const MergeFn& merge) {
  Keys keys(session.in, session.out, session.in_is_terminal);
  Decisions decisions;
  Merged merged = merge(decisions);
  bool show_it = true;
  while (!merged.open.empty()) {
    if (show_it) show_conflict(session, merged);
    const char key = keys.key();
    if (key == kInputEnded || key == 'q' || key == 'p') return std::nullopt;
    show_it = key == 'm' || key == 't';
    if (!show_it) continue;
    session.out << (key == 'm' ? "here\n" : "there\n");
    decisions[merged.open.front().key] = key == 'm' ? Side::mine : Side::theirs;
    merged = merge(decisions);
  }
  return merged;
}

}  // namespace ohmstead
