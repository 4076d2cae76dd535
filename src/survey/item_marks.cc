// The longer marks of an item: switches, what is plugged in, what is downstream.

#include <algorithm>
#include <array>

#include "survey/entry.h"
#include "survey/item_parser.h"

namespace ohmstead::entry_detail {

namespace {

/// Handles that a switch word stands for, or 0.
int handles_of(const Word& word) {
  if (word.is("switch") || word.is("dimmer") || word.is("sw")) return 1;
  if (word.is("3-way") || word.is("3w") || word.is("three-way")) return 2;
  if (word.is("4-way") || word.is("4w") || word.is("four-way")) return 3;
  return 0;
}

bool is_short_switch(const Word& word) { return word.is("sw") || word.is("3w") || word.is("4w"); }

}  // namespace

bool ItemParser::switch_words_at(std::size_t i) const {
  if (i >= words_.size()) return false;
  if (is_short_switch(words_[i]) || words_[i].is("switched")) return true;
  if (!words_[i].is("on") && !words_[i].is("with")) return false;
  std::size_t next = i + 1;
  constexpr std::array kFill = {"a", "an", "one", "the"};
  if (next < words_.size() && std::ranges::any_of(kFill, [&](const char* w) { return words_[next].is(w); })) ++next;
  return next < words_.size() && handles_of(words_[next]) > 0;
}

bool ItemParser::strong_mark_at(std::size_t i) const {
  const Word& word = words_[i];
  constexpr std::array kMarks = {"<-", "+", "with", "box", "!", "!!"};
  return word.quoted || figure_at(i) || switch_words_at(i) || (word.is("behind") && i + 1 < words_.size() && !words_[i + 1].is("the")) ||
         std::ranges::any_of(kMarks, [&](const char* mark) { return word.is(mark); });
}

bool ItemParser::mark_at(std::size_t i, bool after_name) const {
  const Word& word = words_[i];
  const auto number = split(word.text, "-");
  const bool negative = word.text.size() > 1 && word.text[0] == '-' && word.text[1] >= '0' && word.text[1] <= '9';
  if (strong_mark_at(i) || negative || std::ranges::all_of(number, [](const std::string& n) { return whole_number(n).has_value(); }))
    return true;
  if (!after_name) return false;
  constexpr std::array kMarks = {"at", "by", "near", "under", "over", "above", "below", "beside", "outside", "inside", "next",
                                 "facing", "along", "between", "in", "on", "behind", "low", "high", "life-safety", "hurt",
                                 "nameplate", "measured", "split", "half-hot", "half-switched", "half", "gfci", "3-phase"};
  const bool side = (word.is("left") || word.is("right")) && i + 1 < words_.size() && words_[i + 1].is("of");
  const bool life = word.is("life") && i + 1 < words_.size() && words_[i + 1].is("safety");
  return side || life || std::ranges::any_of(kMarks, [&](const char* mark) { return word.is(mark); });
}

bool ItemParser::take_switch() {
  if (!switch_words_at(at_)) return false;
  int handles = 1;
  while (more()) {  // the words in front of the switch word
    const Word& word = words_[at_++];
    if (word.is("switched")) break;
    if (handles_of(word) == 0) continue;
    handles = handles_of(word);
    if (take("switch") || take("switches") || take("pair")) {}
    break;
  }
  take_switch_details(handles);
  return true;
}

void ItemParser::take_switch_details(int handles) {
  SwitchSpec& spec = item_.on_switch;
  spec.handles = handles;
  if (more() && words_[at_].quoted) {
    spec.name = words_[at_++].text;
    if (spec.name.empty()) draft_.fail("the name of the switch in quotes is empty.");
  }
  if (handles == 1 && is("in") && !is("the", 1)) {
    ++at_;
    spec.rooms.push_back(draft_.room_at(words_, at_));
  } else if (take("from")) {
    do {
      spec.rooms.push_back(take("here") ? Id<Room>{} : draft_.room_at(words_, at_));
    } while (take("and"));
    if (static_cast<int>(spec.rooms.size()) != handles)
      draft_.fail("this switch has " + std::to_string(handles) + " handles, but " + std::to_string(spec.rooms.size()) +
                  " places are given for them (such as 'on 3-way from here and Hall').");
  }
  if (spec.rooms.empty()) spec.rooms.assign(static_cast<std::size_t>(handles), Id<Room>{});
}

void ItemParser::take_with() {
  if (take_switch()) return;
  ++at_;  // 'with'
  if (take("disconnect") || (is("a") && is("disconnect", 1) && (at_ += 2) != 0)) {
    item_.disconnect = true;
    return;
  }
  do {
    item_.plugged.push_back(take_plugged());
  } while (take("and") && item_.plugged.size() < static_cast<std::size_t>(kMostOfOneItem));
}

LoadSpec ItemParser::take_plugged() {
  if (is("a") || is("an")) ++at_;
  const std::size_t first = at_;
  while (more() && !is("and") && !mark_at(at_, at_ > first)) ++at_;
  LoadSpec load;
  load.name = joined(words_, first, at_);
  if (load.name.empty() && more() && words_[at_].quoted) load.name = words_[at_++].text;
  if (load.name.empty()) draft_.fail("after 'with' what is plugged in is expected, as in 'with freezer 100 W'.");
  load.kind = find_kind(load.name);
  if (load.kind != nullptr) load.name = load.kind->name;
  while (take_load_mark(load)) {}
  if (load.kind == nullptr && !load.running_watts) {
    const auto near = nearest_kind_word(load.name);
    draft_.fail(shown(load.name) + " is not a thing I know" + (near ? " (" + *near + "?)" : "") +
                "; if it is one, give its watts, as in 'with kiln 5 kW'.");
  }
  return load;
}

void ItemParser::take_downstream() {
  Downstream down;
  const auto count = take_count();
  if (count) down.count = *count;
  const std::size_t first = at_;
  while (more() && !is("downstream") && !is("in") && !strong_mark_at(at_)) ++at_;
  const std::string noun = joined(words_, first, at_);
  down.kind = find_kind(noun.empty() ? "receptacle" : noun);
  if (down.kind == nullptr && noun == lower(noun)) down.kind = find_short_kind(noun);
  if (!count && noun.empty()) draft_.fail("after '+' what is downstream is expected, as in 'gfci + 3 downstream'.");
  if (down.kind == nullptr) draft_.fail("after '+' a thing is expected, not " + shown(noun) + ", as in 'gfci + 3 downstream'.");
  take("downstream");
  if (is("in") && !is("the", 1)) {
    ++at_;
    down.room = draft_.room_at(words_, at_);
  }
  take("downstream");
  item_.downstream.push_back(down);
}

}  // namespace ohmstead::entry_detail
