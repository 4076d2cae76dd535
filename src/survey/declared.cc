// Declared feeds: "Kitchen dishwasher <- Main 9 by J.".

#include <algorithm>

#include "house/index.h"
#include "survey/draft.h"
#include "survey/item.h"

namespace ohmstead::entry_detail {

namespace {

/// Outermost device from `nearest` towards the breaker. Precondition: nothing stands behind itself.
Id<Device> outermost(const House& house, Id<Device> nearest) {
  for (std::size_t steps = 0; steps <= house.devices.size(); ++steps) {
    const Device* device = find_row(house, nearest);
    if (device == nullptr || !device->behind) break;
    nearest = device->behind;
  }
  return nearest;
}

bool is_date(const std::string& text) {
  if (text.size() != 10 || text[4] != '-' || text[7] != '-') return false;
  const auto month = whole_number(text.substr(5, 2)), day = whole_number(text.substr(8, 2));
  return whole_number(text.substr(0, 4)) && month && day && *month >= 1 && *month <= 12 && *day >= 1 && *day <= 31;
}

}  // namespace

DeclaredSpec parse_declared(const Draft& draft, const std::vector<Word>& words, std::size_t at) {
  DeclaredSpec said{.who = draft.who, .at = draft.at};
  const auto ends = [&](std::size_t i) { return i >= words.size() || words[i].is("by") || words[i].is("on"); };
  std::size_t end = at;
  while (!ends(end)) ++end;
  said.breaker = joined(words, at, end);
  if (said.breaker.empty()) draft.fail("behind '<-' a breaker is expected, as in '<- Main 9 by J.'.");
  if (end < words.size() && words[end].is("by")) {
    const std::size_t first = ++end;
    while (end < words.size() && !(words[end].is("on") && end + 1 < words.size() && is_date(words[end + 1].text))) ++end;
    said.who = joined(words, first, end);
    said.at.clear();
  }
  if (end < words.size()) {
    if (end + 2 != words.size() || !is_date(words[end + 1].text))
      draft.fail("behind 'on' a date is expected at the end, as in 'on 2026-11-25'.");
    said.at = words[end + 1].text + "T00:00:00Z";
  }
  if (said.who.empty())
    draft.fail("who says that " + shown(said.breaker) + " feeds it? Add 'by NAME', or put a line 'By NAME' above.");
  return said;
}

void declare_feed(Draft& draft, Id<Point> point, Id<Device> device, const DeclaredSpec& said) {
  if (const Point* behind = find_row(draft.house, point); behind != nullptr && behind->behind) {
    device = behind->behind;
    point = {};
  }
  device = outermost(draft.house, device);
  const int hots = point ? row(draft.house, point).hots : row(draft.house, device).poles;
  const BreakerAt from = draft.breaker(said.breaker);
  const int poles = row(draft.house, from.breaker).poles;
  if (hots > poles)
    draft.fail("it needs " + std::to_string(hots) + " hot conductors, but breaker " + shown(said.breaker) + " has " + std::to_string(poles) + ".");
  if (hots == 1 && poles > 1 && from.pole == 0)
    draft.fail("breaker " + shown(said.breaker) + " has " + std::to_string(poles) + " poles; say which one, as in '" + said.breaker + " pole 1'.");
  for (int hot = 1; hot <= hots; ++hot) {
    const DeclaredFeed feed{.id = Id<DeclaredFeed>::fresh(), .point = point, .device = device, .hot = hot,
                            .breaker = from.breaker, .pole = hots == 1 ? std::max(from.pole, 1) : hot,
                            .who = said.who, .at = said.at};
    const auto same = [&](DeclaredFeed known) {  // two lights on one switch say the same of it
      known.id = feed.id;
      return known == feed;
    };
    if (std::ranges::none_of(draft.house.declared_feeds, same)) draft.house.declared_feeds.push_back(feed);
  }
}

}  // namespace ohmstead::entry_detail
