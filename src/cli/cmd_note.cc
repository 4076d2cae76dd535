#include <ostream>

#include "ask/notes.h"
#include "ask/printable.h"
#include "cli/exit_code.h"
#include "cli/open_house.h"
#include "cli/run.h"
#include "house/error.h"
#include "json/json_notes.h"

namespace ohmstead {

namespace {

Error refused(const std::string& message) { return {ErrorKind::invalid_input, message}; }

/// What a note is about, as it was named; the house where nothing was.
ThingRef about_given(const Names& names, const std::string& words) {
  if (words.empty()) return {};
  return names.one(words, kAnything);
}

int list_notes(Session& session, const std::string& words) {
  const House house = open_house(session, Access::read).load();
  const Names names(house);
  std::vector<std::size_t> notes;
  if (words.empty()) {
    for (std::size_t n = 0; n < house.notes.size(); ++n) notes.push_back(n);
  } else {
    notes = notes_about(house, about_given(names, words));
  }
  if (session.json)
    session.out << json_of_notes(house, names, notes);
  else if (notes.empty())
    session.out << (words.empty() ? "Nothing is noted yet. `ohmstead note add 'Gas shut-off: where it is'` keeps it.\n"
                                  : "Nothing is noted about it.\n");
  for (const std::size_t n : notes)
    if (!session.json) session.out << n + 1 << "  " << terminal::printable(note_text(names, house.notes[n])) << '\n';
  return notes.empty() ? kDoneButNo : kDone;
}

int add_note(Session& session, const Arguments& arguments, const std::string& text) {
  HouseFile file = open_house(session, Access::change);
  std::string said;
  const auto revision = file.change("noted", [&](House& house) {
    const Names names(house);
    Note note{.about = about_given(names, arguments.text("--about")),
              .text = text,
              .is_private = arguments.has("--private"),
              .who = arguments.text("--who"),
              .at = session.now()};
    said = note_text(names, note);
    house = with_note(house, std::move(note));
  });
  session.out << "Noted: " << terminal::printable(said) << "\nSaved as revision " << revision << ".\n";
  return kDone;
}

/// WORDS: the number of a note, or words that only it has; behind it, with `edit`, the new text.
int edit_note(Session& session, const Arguments& arguments, const std::vector<std::string>& words) {
  if (words.empty() || (words.size() < 2 && !arguments.has("--private") && !arguments.has("--not-private") && !arguments.has("--about")))
    throw refused("Say which note and its new text, such as `ohmstead note edit 3 'Gas shut-off: by the back door'`; nothing was changed.");
  if (arguments.has("--private") && arguments.has("--not-private"))
    throw refused("A note is private or it is not; give one of the two. Nothing was changed.");
  HouseFile file = open_house(session, Access::change);
  std::string said;
  const auto revision = file.change("note changed", [&](House& house) {
    const Names names(house);
    Note note = house.notes[one_note(house, names, words.front())];
    if (words.size() > 1) note.text = phrase({words.begin() + 1, words.end()});
    if (arguments.has("--about")) note.about = about_given(names, arguments.text("--about"));
    if (arguments.has("--private")) note.is_private = true;
    if (arguments.has("--not-private")) note.is_private = false;
    if (arguments.has("--who")) note.who = arguments.text("--who");
    note.at = session.now();
    said = note_text(names, note);
    house = with_note(house, std::move(note));
  });
  session.out << "Now: " << terminal::printable(said) << "\nSaved as revision " << revision << ".\n";
  return kDone;
}

int remove_note(Session& session, const std::string& words) {
  if (words.empty()) throw refused("Say which note, by its number in `ohmstead note list`; nothing was changed.");
  HouseFile file = open_house(session, Access::change);
  std::string said;
  const auto revision = file.change("note removed", [&](House& house) {
    const Names names(house);
    const std::size_t n = one_note(house, names, words);
    said = note_text(names, house.notes[n]);
    house.notes.erase(house.notes.begin() + static_cast<std::ptrdiff_t>(n));
  });
  session.out << "Removed: " << terminal::printable(said) << "\nSaved as revision " << revision << ".\n";
  return kDone;
}

}  // namespace

int run_note(Session& session, const Arguments& arguments) {
  const std::string what = arguments.text("WHAT");
  const std::vector<std::string> words = arguments.texts("WORDS");
  if (what == "add") return add_note(session, arguments, phrase(words));
  if (what == "list") return list_notes(session, phrase(words));
  if (what == "edit") return edit_note(session, arguments, words);
  if (what == "remove") return remove_note(session, phrase(words));
  throw refused("`ohmstead note` is followed by add, list, edit or remove, not '" + terminal::printable(what.substr(0, 40)) + "'.");
}

}  // namespace ohmstead
