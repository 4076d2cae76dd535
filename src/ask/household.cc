#include "ask/household.h"

#include "ask/notes.h"
#include "ask/sentence.h"

namespace ohmstead {

HouseholdSheet household_sheet(const House& house, const Names& names) {
  HouseholdSheet sheet;
  for (const Note& note : house.notes) {
    if (note.is_private) {
      ++sheet.left_out;
    } else if (note.about.kind != ThingKind::house) {
      sheet.things.push_back({sentence::capital(names.name_of(note.about)), sentence::capital(note.text)});
    } else {
      sheet.facts.push_back({topic_of(note), sentence::capital(body_of(note))});
    }
  }
  return sheet;
}

std::vector<std::string> text_of(const HouseholdSheet& sheet) {
  std::vector<std::string> lines;
  for (const auto* part : {&sheet.facts, &sheet.things})
    for (const HouseholdItem& item : *part) lines.push_back((item.head.empty() ? "" : item.head + ": ") + item.text);
  return lines;
}

}  // namespace ohmstead
