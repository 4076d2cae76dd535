// Lines for transfer devices and interlocks.

#include <algorithm>

#include "house/index.h"
#include "survey/breaker_words.h"
#include "survey/line_kinds.h"
#include "survey/space_words.h"

namespace ohmstead::entry_detail {

namespace {

constexpr int kMostPositions = 200;

/// Everything behind `from` up to a comma or colon and before 'automatic'.
struct TransferHeading {
  std::string name;
  Id<Room> room;
  Id<Source> source;
  int positions = 0;
  bool whole_house = false, automatic = false;
};

TransferHeading transfer_heading(const Draft& draft, const std::vector<Word>& words) {
  TransferHeading heading;
  const auto key = [&](std::size_t i) {
    return words[i].is(",") || words[i].is("in") || words[i].is("from") || words[i].is("whole") || words[i].is("automatic") ||
           (!words[i].quoted && whole_number(words[i].text).has_value());
  };
  std::size_t at = 1;
  while (at < words.size() && !key(at)) ++at;
  heading.name = joined(words, 1, at);
  if (heading.name.empty()) draft.fail("behind 'Transfer' its name is expected, as in 'Transfer T 8 positions from G'.");
  while (at < words.size()) {
    const Word& word = words[at++];
    if (word.is(",") || word.is("positions") || word.is("position")) continue;
    if (word.is("in")) heading.room = draft.room_at(words, at);
    else if (word.is("from")) heading.source = draft.source_at(words, at);
    else if (word.is("automatic")) heading.automatic = true;
    else if (word.is("whole")) at += at < words.size() && words[at].is("house") ? 1 : 0, heading.whole_house = true;
    else if (const auto number = whole_number(word.text); number && *number >= 1 && *number <= kMostPositions) heading.positions = *number;
    else draft.fail("I do not understand " + shown(word.text) + " in the heading of transfer device " + shown(heading.name) +
                    "; expected is 'in ROOM', '8 positions' (at most 200), 'whole house', 'from SOURCE' or 'automatic'.");
  }
  if (!heading.source) draft.fail("transfer device " + shown(heading.name) + " needs its source, as in 'from G'.");
  return heading;
}

Position& position_numbered(Draft& draft, Id<TransferDevice> device, int number) {
  if (number < 1 || number > kMostPositions) draft.fail("a position has a number from 1 to 200, not " + std::to_string(number) + ".");
  for (Position& known : draft.house.positions)
    if (known.device == device && known.number == number) return known;
  const TransferDevice& of = row(draft.house, device);
  const Source* source = find_row(draft.house, of.source);
  const int legs = source != nullptr && source->output == SourceOutput::one_leg ? 1 : leg_count(draft.house.dwelling.system);
  draft.house.positions.push_back({.id = Id<Position>::fresh(), .device = device, .number = number, .leg = (number - 1) % 2 % legs + 1});
  return draft.house.positions.back();
}

/// Breaker poles that a position item carries: one for each of `count` positions.
std::vector<BreakerAt> carried(const Draft& draft, const std::string& text, std::size_t count) {
  std::vector<BreakerAt> poles;
  for (const std::string& part : split(text, ",")) {
    const BreakerAt from = draft.breaker(part);
    const int has = row(draft.house, from.breaker).poles;
    if (from.pole > 0 || has == 1) poles.push_back({from.breaker, std::max(from.pole, 1)});
    else
      for (int pole = 1; pole <= has; ++pole) poles.push_back({from.breaker, pole});
  }
  if (poles.size() != count)
    draft.fail(shown(text) + " is " + std::to_string(poles.size()) + (poles.size() == 1 ? " pole" : " poles") + " for " + std::to_string(count) +
               (count == 1 ? " position; say which, as in 'Main 2+4 pole 1'." : " positions; each tied position carries one."));
  return poles;
}

void enter_position(Draft& draft, Id<TransferDevice> device, const std::vector<Word>& words) {
  const auto numbers = parse_places(words.front().text);
  if (!numbers) draft.fail(shown(words.front().text) + " is not the number of a position; expected is one such as 1 or 3+4.");
  std::vector<int> legs;
  int amps = 0;
  std::size_t at = 1;
  for (; at < words.size() && !words[at].is("<-"); ++at) {
    const std::string text = words[at].lower();
    if (text == "l1" || text == "l2" || text == "l3") legs.push_back(text[1] - '0');
    else if (const auto rating = parse_rating(draft, words[at]); rating && rating->poles == 1 && rating->lower_amps < 0) amps = rating->amps;
    else if (text != "a" && text != "amps")
      draft.fail("I do not understand " + shown(words[at].text) + " at position " + shown(words.front().text) + "; expected is a rating, L1 or L2, or '<- Main 5'.");
  }
  const std::size_t count = numbers->size();
  const int legs_there = leg_count(draft.house.dwelling.system);
  std::vector<BreakerAt> poles;
  if (at < words.size()) poles = carried(draft, joined(words, at + 1, words.size()), count);
  if (!legs.empty() && legs.size() != count) draft.fail("there are " + std::to_string(legs.size()) + " legs for " + std::to_string(count) + " positions at " + shown(words.front().text) + ".");
  const Id<Position> first = position_numbered(draft, device, numbers->front().space).id;
  for (std::size_t i = 0; i < count; ++i) {
    Position& position = position_numbered(draft, device, (*numbers)[i].space);
    position.amps = amps;
    if (count > 1) position.tie = first, position.leg = static_cast<int>(i) % legs_there + 1;
    if (!legs.empty()) position.leg = legs[i];
    if (!poles.empty()) position.breaker = poles[i].breaker, position.pole = poles[i].pole;
  }
}

void add_whole_house_positions(Draft& draft, Id<TransferDevice> device) {
  Id<Position> first;
  const int legs = leg_count(draft.house.dwelling.system);
  for (int leg = 1; leg <= legs; ++leg) {
    Position& position = position_numbered(draft, device, leg);
    if (!first) first = position.id;
    position.leg = position.pole = leg;
    if (legs > 1) position.tie = first;
  }
}

}  // namespace

void enter_transfer(Draft& draft, const Line& line) {
  const auto parts = split(line.text, ":");
  const TransferHeading heading = transfer_heading(draft, words_of(line.number, parts.front(), ","));
  for (const TransferDevice& known : draft.house.transfer_devices)
    if (lower(known.name) == lower(heading.name)) draft.fail("there is a transfer device " + shown(heading.name) + " already; choose another name.");
  if (draft.house.transfer_devices.size() >= 20) draft.fail("there are more than 20 transfer devices.");
  const Id<TransferDevice> id = Id<TransferDevice>::fresh();
  draft.house.transfer_devices.push_back({id, heading.name, heading.room,
                                          heading.whole_house ? TransferKind::whole_house : TransferKind::circuits, heading.source, heading.automatic});
  if (heading.whole_house) add_whole_house_positions(draft, id);
  for (int number = 1; number <= heading.positions && !heading.whole_house; ++number) position_numbered(draft, id, number);
  const std::size_t colon = line.text.find(':', parts.front().size());
  if (colon != std::string::npos)
    for (const std::string& item : split(std::string_view(line.text).substr(colon + 1), ";\n")) {
      const std::vector<Word> words = words_of(line.number, item, "");
      if (!words.empty()) enter_position(draft, id, words);
    }
  draft.said.push_back("Transfer device " + heading.name + ": " +
                       std::to_string(std::ranges::count(draft.house.positions, id, &Position::device)) + " positions.");
}

void enter_interlock(Draft& draft, const Line& line) {
  const std::vector<Word> words = words_of(line.number, line.text, ",");
  const auto with = std::ranges::find_if(words, [](const Word& word) { return word.is("with") || word.is("and"); });
  if (with == words.end()) draft.fail("write 'Interlock BREAKER with BREAKER', as in 'Interlock Main 2+4 with Main main'.");
  const auto mid = static_cast<std::size_t>(with - words.begin());
  draft.house.interlocks.push_back({Id<Interlock>::fresh(), draft.handle(joined(words, 1, mid)), draft.handle(joined(words, mid + 1, words.size()))});
  draft.said.push_back("Interlock of " + joined(words, 1, mid) + " with " + joined(words, mid + 1, words.size()) + ".");
}

}  // namespace ohmstead::entry_detail
