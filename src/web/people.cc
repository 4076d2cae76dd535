#include "web/people.h"

#include <algorithm>
#include <nlohmann/json.hpp>

namespace ohmstead::web {

bool People::stand(const Device& device, Standpoint place, bool ready) {
  const Person person{device.name, place, ready && place != Standpoint::away};
  const auto [at, is_new] = persons_.try_emplace(device.number, person);
  const bool news = is_new ? place != Standpoint::away : at->second != person;
  at->second = person;
  return news;
}

void People::handle_moved() {
  for (auto& [number, person] : persons_)
    if (person.place == Standpoint::rooms) person.ready = false;
}

bool People::leave(std::uint64_t device) {
  const bool had_a_place = place_of(device) != Standpoint::away;
  persons_.erase(device);
  return had_a_place;
}

Standpoint People::place_of(std::uint64_t device) const {
  const auto at = persons_.find(device);
  return at == persons_.end() ? Standpoint::away : at->second.place;
}

bool People::helper_at_panel() const {
  const auto is_at = [&](Standpoint place) { return std::ranges::any_of(persons_, [&](const auto& one) { return one.second.place == place; }); };
  return is_at(Standpoint::panel) && is_at(Standpoint::rooms);
}

bool People::anybody() const {
  return std::ranges::any_of(persons_, [](const auto& one) { return one.second.place != Standpoint::away; });
}

nlohmann::ordered_json People::list(std::uint64_t me) const {
  auto list = nlohmann::ordered_json::array();
  for (const auto& [number, person] : persons_)
    if (person.place != Standpoint::away)
      list.push_back({{"name", person.name}, {"place", text_of(person.place)}, {"ready", person.ready}, {"me", number == me}});
  return list;
}

}  // namespace ohmstead::web
