#include <map>
#include <set>

#include "ask/answers.h"
#include "ask/fed_words.h"
#include "ask/label_parts.h"
#include "house/index.h"
#include "rules/circuit_phrases.h"
#include "rules/plain_words.h"

namespace ohmstead {

using namespace label_parts;

namespace {

/// Everything that the plates of one house share; made once.
class PlateMaker {
 public:
  explicit PlateMaker(const LabelRecord& from) : from_(from), house_(from.record.house), facts_(wording_facts(house_, from.record.feeds)), proofs_(position_proofs(from.record)) {}

  LabelItem plate(std::size_t point);
  LabelItem dot(std::size_t point) const;
  /// Is it the second half of a split receptacle whose first half has the same feed?
  [[nodiscard]] bool is_said_by_mate(std::size_t point, const std::set<std::size_t>& done) const;

 private:
  /// Its name; of a split receptacle whose halves share one label, with that added.
  [[nodiscard]] std::string name_of(std::size_t point) const {
    return point_label_name(house_, facts_.words, point) + (mate_with_same_feed(point) ? " (both halves)" : "");
  }
  [[nodiscard]] std::optional<std::size_t> mate_with_same_feed(std::size_t point) const;
  [[nodiscard]] std::vector<std::string> also_off(std::size_t point, const std::vector<Id<Breaker>>& breakers);
  [[nodiscard]] std::string gfci_before(std::size_t point) const;
  const std::vector<FedItem>& items_of(Id<Breaker> breaker);
  [[nodiscard]] std::vector<Id<Breaker>> with_tied(const std::vector<Id<Breaker>>& breakers) const;

  const LabelRecord& from_;
  const House& house_;
  WordingFacts facts_;
  PositionProofs proofs_;
  std::map<Id<Breaker>, std::vector<FedItem>> items_;
};

const std::vector<FedItem>& PlateMaker::items_of(Id<Breaker> breaker) {
  const auto [found, fresh] = items_.try_emplace(breaker);
  if (fresh) found->second = fed_items(facts_, breaker);
  return found->second;
}

/// The breakers, and those whose handles are tied to them: they go off together.
std::vector<Id<Breaker>> PlateMaker::with_tied(const std::vector<Id<Breaker>>& breakers) const {
  std::vector<Id<Breaker>> all = breakers;
  for (const Id<Breaker> id : breakers) {
    const Breaker* breaker = find_row(house_, id);
    for (const Breaker& other : house_.breakers)
      if (breaker != nullptr && breaker->tie && other.tie == breaker->tie && std::ranges::find(all, other.id) == all.end()) all.push_back(other.id);
  }
  return all;
}

/// What else goes off with these breakers, longest first; empty where nothing else is known on them.
std::vector<std::string> PlateMaker::also_off(std::size_t point, const std::vector<Id<Breaker>>& breakers) {
  std::vector<FedItem> others;
  bool feeds_panel = false;
  for (const Id<Breaker> breaker : with_tied(breakers)) {
    for (const FedItem& item : items_of(breaker)) {
      const bool itself = item.point == point || (house_.points[item.point].mate && house_.points[item.point].mate == house_.points[point].id);
      if (!itself && std::ranges::find(others, item.point, &FedItem::point) == others.end()) others.push_back(item);
    }
    feeds_panel = feeds_panel || std::ranges::any_of(house_.panels, [&](const Panel& panel) { return panel.supply == Supply::breaker && panel.feeder == breaker; });
  }
  std::ranges::stable_sort(others, {}, &FedItem::room);
  std::vector<std::string> ways = phrasings(facts_, others, Detail::none);
  if (!feeds_panel) return ways;
  if (ways.empty()) return {"A subpanel"};
  for (std::string& way : ways) way = "A subpanel; " + way;
  return ways;
}

/// Name of the point whose GFCI receptacle must be reset for this one; "" for none, or itself.
std::string PlateMaker::gfci_before(std::size_t point) const {
  std::size_t steps = 0;
  for (Id<Device> at = house_.points[point].behind; at && steps <= house_.devices.size(); ++steps) {
    const Device* device = find_row(house_, at);
    if (device == nullptr) return {};
    const auto in = std::ranges::find(house_.points, device->at_point, &Point::id);
    if (device->kind == DeviceKind::gfci_receptacle && in != house_.points.end() && in->id != house_.points[point].id)
      return name_of(static_cast<std::size_t>(in - house_.points.begin()));
    at = device->behind;
  }
  return {};
}

LabelItem PlateMaker::plate(std::size_t point) {
  const FedWords fed = fed_words(from_.record, proofs_, point);
  const std::string name = name_of(point), gfci = gfci_before(point);
  LabelItem item{"plate:" + house_.points[point].id.text(), "plate of " + name, {}, {}, location_of(house_, house_.points[point].room)};
  const std::string as_of = "As of " + from_.as_of + ".";
  if (fed.numbers.empty()) {
    add_line(item, {"Breaker not found yet", "Not found yet", "Breaker?"}, true);
    add_line(item, {name});
    if (!gfci.empty()) add_line(item, {"Behind GFCI: " + gfci, "Behind a GFCI"});
    offer_code(item, {"Breaker not found yet.", name + ".", as_of});
    offer_code(item, {"Breaker not found yet.", as_of});
    return item;
  }
  const std::string breaker = (fed.breakers.size() > 1 ? "Breakers " : "Breaker ") + fed.numbers + fed.sign;
  const std::vector<std::string> also = also_off(point, fed.breakers);
  std::string backup, in_code;
  if (fed.position == "none") backup = "Not on backup" + fed.sign, in_code = backup + ".";
  else if (!fed.position.empty()) backup = "Backup " + fed.position + fed.sign + (fed.found_wrong ? ", FOUND WRONG" : ""), in_code = backup + ".";
  add_line(item, {breaker, fed.numbers + fed.sign}, true);
  add_line(item, {fed.panels}, house_.panels.size() > 1);
  if (!fed.sign.empty()) add_line(item, {"?: not proved yet, may be wrong", "?: not proved yet", "?: not proved"}, true);
  add_line(item, {backup, backup.empty() || fed.mark == "none" ? "" : "Backup " + fed.mark + fed.sign + (fed.found_wrong ? " WRONG" : "")});
  add_line(item, {name});
  std::vector<std::string> ways;
  for (const std::string& way : also) ways.push_back("Also off: " + way);
  if (also.empty()) ways = {"Nothing else known to go off", "Nothing else known"};
  add_line(item, ways);
  if (!gfci.empty()) add_line(item, {"Behind GFCI: " + gfci, "Behind a GFCI"});
  const std::string answer = breaker + (fed.sign.empty() ? "" : " (not proved)") + ", " + fed.panels + ".";
  for (const std::string& way : also) offer_code(item, {answer, name + ".", in_code, "Also off with it, " + way + ".", as_of});
  offer_code(item, {answer, name + ".", in_code, as_of});
  offer_code(item, {answer, in_code, as_of});
  return item;
}

LabelItem PlateMaker::dot(std::size_t point) const {
  const FedWords fed = fed_words(from_.record, proofs_, point);
  LabelItem item{"point-dot:" + house_.points[point].id.text(), "dot of " + name_of(point), {}, {}};
  add_line(item, {fed.numbers.empty() ? "?" : fed.numbers + fed.sign}, true);
  return item;
}

std::optional<std::size_t> PlateMaker::mate_with_same_feed(std::size_t point) const {
  if (!house_.points[point].mate) return std::nullopt;
  const auto mate = std::ranges::find(house_.points, house_.points[point].mate, &Point::id);
  if (mate == house_.points.end()) return std::nullopt;
  const auto at = static_cast<std::size_t>(mate - house_.points.begin());
  const Feed& one = from_.record.feeds.of_point[point];
  const bool same = !one.taps.empty() && one == from_.record.feeds.of_point[at] && house_.points[point].behind == mate->behind;
  return same ? std::optional(at) : std::nullopt;
}

bool PlateMaker::is_said_by_mate(std::size_t point, const std::set<std::size_t>& done) const {
  const auto mate = mate_with_same_feed(point);
  return mate && done.contains(*mate);
}

template <class Make>
std::vector<LabelItem> for_points(PlateMaker& maker, const std::vector<std::size_t>& points, Make make) {
  std::vector<LabelItem> items;
  std::set<std::size_t> done;
  for (const std::size_t point : points) {
    if (!done.insert(point).second || maker.is_said_by_mate(point, done)) continue;
    items.push_back(make(point));
  }
  return items;
}

}  // namespace

std::vector<LabelItem> plate_labels(const LabelRecord& from, const std::vector<std::size_t>& points) {
  PlateMaker maker(from);
  return for_points(maker, points, [&](std::size_t point) { return maker.plate(point); });
}

std::vector<LabelItem> point_dots(const LabelRecord& from, const std::vector<std::size_t>& points) {
  PlateMaker maker(from);
  return for_points(maker, points, [&](std::size_t point) { return maker.dot(point); });
}

}  // namespace ohmstead
