// What both sides added, each under an id of its own, though there can only be one such thing.

#include <map>

#include "db/merge_parts.h"

namespace ohmstead::merge_detail {

namespace {

using Key = std::vector<std::string>;

/// What tells a row from all others of its table besides its id; empty: nothing does.
template <class Row>
Key natural_key(const Row& row) {
  const auto key = [](const auto&... parts) {
    const auto text = [](const auto& part) {
      if constexpr (requires { part.text(); }) return part.text();
      else if constexpr (std::is_same_v<std::decay_t<decltype(part)>, std::string>) return part;
      else return std::to_string(part);
    };
    return Key{text(parts)...};
  };
  if constexpr (std::is_same_v<Row, Floor>) return key(row.building, row.name, row.level);
  else if constexpr (std::is_same_v<Row, Room>) return key(row.floor, row.name);
  else if constexpr (std::is_same_v<Row, Walk>) return key(std::min(row.from, row.to), std::max(row.from, row.to));
  else if constexpr (std::is_same_v<Row, Box>) return row.name.empty() ? Key{} : key(row.room, row.name);
  else if constexpr (std::is_same_v<Row, Source> || std::is_same_v<Row, Panel> || std::is_same_v<Row, TransferDevice> ||
                     std::is_same_v<Row, Setting>) return key(row.name);
  else if constexpr (std::is_same_v<Row, Breaker>) return key(row.panel, row.space, static_cast<int>(row.half));
  else if constexpr (std::is_same_v<Row, Circuit> || std::is_same_v<Row, Pin>) return key(row.breaker);
  else if constexpr (std::is_same_v<Row, Position>) return key(row.device, row.number);
  else if constexpr (std::is_same_v<Row, Interlock>) return key(text_of_ref(std::min(row.first, row.second)), text_of_ref(std::max(row.first, row.second)));
  else if constexpr (std::is_same_v<Row, Device>) return row.at_point ? key(row.at_point) : Key{};
  else if constexpr (std::is_same_v<Row, Handle>) return key(row.device, row.name);
  else if constexpr (std::is_same_v<Row, Point>) return key(row.room, row.name);
  else if constexpr (std::is_same_v<Row, Load>) return key(row.point, row.name);
  else if constexpr (std::is_same_v<Row, Passing>) return key(row.box, row.breaker, row.pole);
  else if constexpr (std::is_same_v<Row, DeclaredFeed>) return key(row.point, row.device, row.hot, row.breaker, row.pole, row.who);
  else if constexpr (std::is_same_v<Row, Planned>) return key(row.breaker, row.pole);
  else if constexpr (std::is_same_v<Row, Tick>) return key(row.step);
  else if constexpr (std::is_same_v<Row, Note>) return key(text_of_ref(row.about), row.text, row.who);
  else if constexpr (std::is_same_v<Row, Photo>) return key(text_of_ref(row.about), row.picture);
  else return {};
}

/// Rows of `side` that the other side does not have, by what tells them from others; no two of a side that it does not.
template <class Row>
std::map<Key, std::uint64_t> own_rows(const std::vector<Row>& side, const RowsById<Row>& other) {
  std::map<Key, std::uint64_t> rows;
  std::set<Key> twice;
  for (const Row& row : side) {
    Key key = natural_key(row);
    if (key.empty() || find(other, row.id.value) != nullptr) continue;
    if (!rows.emplace(key, row.id.value).second) twice.insert(std::move(key));
  }
  for (const Key& key : twice) rows.erase(key);
  return rows;
}

/// Of two ids for one thing, the larger to the smaller one.
template <class Row>
IdMap same_things(const std::vector<Row>& base, const std::vector<Row>& mine, const std::vector<Row>& theirs) {
  IdMap renamed;
  if (mine == theirs || base == mine || base == theirs) return renamed;
  const RowsById<Row> was = rows_by_id(base);
  const auto here = own_rows(mine, rows_by_id(theirs)), there = own_rows(theirs, rows_by_id(mine));
  for (const auto& [key, id] : here)
    if (const auto same = there.find(key); same != there.end() && (find(was, id) == nullptr || find(was, same->second) == nullptr))
      renamed.emplace(std::max(id, same->second), std::min(id, same->second));
  return renamed;
}

/// A text that is made of ids and words between them.
void rename_inside(std::string& text, const IdMap& renamed) {
  constexpr std::size_t kLetters = 12;
  const auto in_id = [](char c) { return (c >= '0' && c <= '9') || (c >= 'a' && c <= 'z'); };
  for (std::size_t at = 0; at < text.size();) {
    std::size_t end = at;
    while (end < text.size() && in_id(text[end])) ++end;
    if (end - at == kLetters)
      if (const auto id = parse_id(std::string_view(text).substr(at, kLetters)))
        if (const auto found = renamed.find(*id); found != renamed.end()) text.replace(at, kLetters, id_text(found->second));
    at = end == at ? at + 1 : end;
  }
}

}  // namespace

void rename_ids(House& house, const IdMap& renamed) {
  const auto rename = [&](std::uint64_t& id) {
    if (const auto found = renamed.find(id); found != renamed.end()) id = found->second;
  };
  for_each_table(house, [&]<class Row>(std::vector<Row>& table) {
    constexpr bool made_of_ids = std::is_same_v<Row, Tick> || std::is_same_v<Row, Setting> || std::is_same_v<Row, Printed>;
    for (Row& row : table)
      Row::fields(row, [&]<class T>(const char*, T& field) {
        if constexpr (kIsId<T>) rename(field.value);
        else if constexpr (std::is_same_v<T, HandleRef> || std::is_same_v<T, ThingRef>) rename(field.id);
        else if constexpr (made_of_ids && std::is_same_v<T, std::string>) rename_inside(field, renamed);
      });
  });
}

IdSet join_same_things(Copies& copies) {
  IdSet joined;
  for (int pass = 0; pass < 2; ++pass) {  // a device may stand in a point, and a point behind a device
    std::vector<const void*> bases, others;
    for_each_table(copies.base, [&](const auto& table) { bases.push_back(&table); });
    for_each_table(copies.theirs, [&](const auto& table) { others.push_back(&table); });
    std::size_t at = 0;
    for_each_table(copies.mine, [&]<class Row>(const std::vector<Row>& table) {
      const auto& base = *static_cast<const std::vector<Row>*>(bases[at]);
      const IdMap renamed = same_things(base, table, *static_cast<const std::vector<Row>*>(others[at++]));
      for (const auto& [id, both] : renamed) joined.insert(both);
      if (renamed.empty()) return;
      for (House* house : {&copies.base, &copies.mine, &copies.theirs}) rename_ids(*house, renamed);
    });
  }
  return joined;
}

}  // namespace ohmstead::merge_detail
