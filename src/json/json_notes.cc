#include "json/json_notes.h"

#include <nlohmann/json.hpp>

#include "ask/notes.h"
#include "json/json_text.h"

namespace ohmstead {

std::string json_of_notes(const House& house, const Names& names, const std::vector<std::size_t>& notes) {
  nlohmann::ordered_json json = started_json("note", words_of_notes(house, names, notes));
  json["notes"] = nlohmann::ordered_json::array();
  for (const std::size_t n : notes) {
    const Note& note = house.notes[n];
    json["notes"].push_back({{"number", n + 1},
                             {"id", note.id.text()},
                             {"about", {{"ref", text_of_ref(note.about)}, {"name", names.name_of(note.about)}}},
                             {"topic", topic_of(note)},
                             {"text", note.text},
                             {"private", note.is_private},
                             {"who", note.who},
                             {"at", note.at}});
  }
  return json_text(json);
}

}  // namespace ohmstead
