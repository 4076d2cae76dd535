#include "ask/fed_words.h"

#include <algorithm>
#include <map>
#include <set>

#include "ask/answer_words.h"
#include "house/index.h"
#include "house/numbering.h"
#include "rules/panel_text.h"
#include "rules/plain_words.h"
#include "rules/wording.h"

namespace ohmstead {

namespace {

struct Number {
  const Panel* panel = nullptr;
  std::string text;
};

std::vector<Number> numbers_of(const House& house, const std::vector<Id<Breaker>>& breakers) {
  std::vector<Number> numbers;
  for (const Id<Breaker> id : breakers) {
    const Breaker* breaker = find_row(house, id);
    const Panel* panel = breaker == nullptr ? nullptr : find_row(house, breaker->panel);
    if (panel != nullptr) numbers.push_back({panel, breaker_number(*panel, *breaker)});
  }
  return numbers;
}

void say_numbers(const std::vector<Number>& numbers, FedWords& words) {
  std::vector<std::string> texts;
  const bool one_panel = std::ranges::all_of(numbers, [&](const Number& n) { return n.panel == numbers[0].panel; });
  for (const Number& number : numbers) {
    texts.push_back(number.text);
    words.panels += (words.panels.empty() ? "" : ", ") + number.text + " of " + panel_title(*number.panel);
  }
  words.numbers = joined(texts);
  if (one_panel) words.panels = numbers.empty() ? "" : panel_title(*numbers[0].panel);
}

std::string mark_of(const House& house, Id<TransferDevice> device, const std::set<int>& numbers) {
  std::string mark = std::string(1, mark_letter(house, device)) + std::to_string(*numbers.begin());
  return numbers.size() > 1 ? mark + "-" + std::to_string(*numbers.rbegin()) : mark;
}

/// Positions by device, in words and as marks.
void say_positions(const House& house, const std::vector<Id<Position>>& positions, FedWords& words) {
  std::map<Id<TransferDevice>, std::set<int>> by_device;
  for (const Id<Position> id : positions)
    if (const Position* position = find_row(house, id)) by_device[position->device].insert(position->number);
  for (const auto& [id, numbers] : by_device) {
    const TransferDevice* device = find_row(house, id);
    std::vector<std::string> texts;
    for (const int number : numbers) texts.push_back(std::to_string(number));
    std::string text = (texts.size() == 1 ? "position " : "positions ") + joined(texts);
    if (device != nullptr && device->kind == TransferKind::whole_house) text = "whole house";
    else if (house.transfer_devices.size() > 1) text += " of " + transfer_device_text(house, id);
    words.position += (words.position.empty() ? "" : ", ") + text;
    words.mark += (words.mark.empty() ? "" : " ") + mark_of(house, id, numbers);
  }
}

}  // namespace

PositionProofs position_proofs(const Record& record) {
  PositionProofs proofs;
  for (const TransferDevice& device : record.house.transfer_devices) {
    const bool carries = std::ranges::any_of(record.house.positions, [&](const Position& position) { return position.device == device.id && position.breaker; });
    if (device.kind != TransferKind::circuits || device.automatic || !carries) continue;
    try {
      for (const UnitProof& unit : proved(record.house, record.feeds, device.source).units)
        for (const std::size_t position : unit.positions) proofs[record.house.positions[position].id] = unit.result;
    } catch (const Error&) {  // such wiring cannot be proved with the program: then nothing was
      continue;
    }
  }
  return proofs;
}

FedWords fed_words(const Record& record, const PositionProofs& proofs, std::size_t point) {
  const House& house = record.house;
  const WhereAnswer where = where_is(record, point);
  FedWords words;
  for (const Tap& tap : where.feed.taps)
    if (std::ranges::find(words.breakers, tap.breaker) == words.breakers.end()) words.breakers.push_back(tap.breaker);
  const std::vector<Number> numbers = numbers_of(house, words.breakers);
  if (numbers.empty()) return {};
  say_numbers(numbers, words);
  if (!relied_on(where.feed.standing)) words.sign = "?";
  say_positions(house, where.positions, words);
  words.found_wrong = std::ranges::any_of(where.positions, [&](Id<Position> id) {
    const auto found = proofs.find(id);
    return found != proofs.end() && found->second == ProofResult::wrong;
  });
  // As `where` says it: with an interlock any breaker may be left on, so nothing is said of it.
  if (words.position.empty() && !house.sources.empty() && house.interlocks.empty()) words.position = words.mark = "none";
  return words;
}

std::string point_label_name(const House& house, const RoomWords& rooms, std::size_t point) {
  const Point& row = house.points[point];
  const auto room = std::ranges::find(house.rooms, row.room, &Room::id);
  std::string name = label_name(row.name, kLongestPointName);
  if (name.empty()) name = std::string(text_of(row.kind)) + " " + std::to_string(point + 1);
  if (room == house.rooms.end()) return with_capital(name);
  const std::string& of_room = rooms.rooms[static_cast<std::size_t>(room - house.rooms.begin())];
  return with_capital(holds_word(name.substr(0, of_room.size()), of_room) ? name : of_room + " " + without_capital(name));
}

}  // namespace ohmstead
