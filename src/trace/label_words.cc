#include "trace/label_words.h"

#include <algorithm>
#include <cctype>

namespace ohmstead {

namespace {

bool is_number(const std::string& word) { return std::ranges::all_of(word, [](unsigned char c) { return std::isdigit(c) != 0; }); }

bool any_of(const std::set<std::string>& words, std::initializer_list<const char*> these) {
  return std::ranges::any_of(these, [&](const char* word) { return words.contains(word); });
}

/// Words that rooms share and that do not tell them apart.
bool is_plain(const std::string& word) { return word == "room" || word == "the" || word == "down" || word == "up" || is_number(word); }

/// 0: no; 1: some of the room's telling words; 2: all of its words.
int names_room(const std::set<std::string>& said, const std::set<std::string>& room) {
  bool some = false, all = !room.empty();
  for (const std::string& word : room) {
    all = all && said.contains(word);
    some = some || (!is_plain(word) && said.contains(word));
  }
  return all ? 2 : some ? 1 : 0;
}

}  // namespace

std::set<std::string> words_in(std::string_view text) {
  std::set<std::string> words;
  std::string word;
  const auto end_word = [&] {
    if (word.size() > 3 && word.back() == 's') word.pop_back();
    if (word.size() >= 2 || (!word.empty() && is_number(word))) words.insert(word);
    word.clear();
  };
  for (const char c : text) {
    const auto byte = static_cast<unsigned char>(c);
    if (c == '/' && word == "a") continue;  // a/c
    if (std::isalnum(byte) != 0 || byte >= 0x80) word += static_cast<char>(std::tolower(byte));
    else end_word();
  }
  end_word();
  return words;
}

bool names_an_appliance(const std::set<std::string>& words) {
  return any_of(words, {"dishwasher", "disposal", "fridge", "refrigerator", "microwave", "washer", "washing", "dryer", "furnace",
                        "boiler", "opener", "freezer", "range", "stove", "oven", "cooktop", "hood", "pump", "heater", "condenser",
                        "handler", "charger", "tub", "igniter", "sump", "well", "server", "oxygen", "baseboard", "heat"});
}

LabelReader::LabelReader(const House& house) {
  for (const Room& room : house.rooms) rooms_.push_back(words_in(room.name));
  for (const Load& load : house.loads) loads_.push_back(words_in(load.name));
}

/// "Bath 2" names that bath and not the others; "Bath" by itself names them all. A room that is
/// named only in part counts when no room with the same telling word is named in full.
std::set<std::size_t> LabelReader::rooms_named(const std::set<std::string>& said) const {
  std::set<std::size_t> exactly, partly;
  for (std::size_t r = 0; r < rooms_.size(); ++r) {
    const int named = names_room(said, rooms_[r]);
    if (named == 2) exactly.insert(r);
    if (named >= 1) partly.insert(r);
  }
  std::set<std::size_t> all = exactly;
  for (const std::size_t r : partly) {
    const bool covered = std::ranges::any_of(exactly, [&](std::size_t e) { return names_room(rooms_[e], rooms_[r]) > 0; });
    const bool number_said = std::ranges::any_of(said, is_number) && std::ranges::any_of(rooms_[r], is_number);
    if (!covered && !number_said) all.insert(r);
  }
  return all;
}

LabelSays LabelReader::read(std::string_view label) const {
  LabelSays says;
  says.words = words_in(label);
  if (says.words.empty()) return says;
  says.spare = says.words.contains("spare");
  says.lights = any_of(says.words, {"light", "lighting", "lt", "lamp"});
  says.receptacles = any_of(says.words, {"receptacle", "recept", "recep", "outlet", "plug", "socket"});
  says.alarms = any_of(says.words, {"alarm", "smoke", "detector"});
  says.names_a_thing = names_an_appliance(says.words) ||
                       std::ranges::any_of(loads_, [&](const auto& load) { return names_room(says.words, load) > 0; });
  says.rooms = rooms_named(says.words);
  return says;
}

LabelSays read_label(const House& house, std::string_view label) { return LabelReader(house).read(label); }

}  // namespace ohmstead
