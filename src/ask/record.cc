#include "ask/record.h"

#include "trace/conclude.h"

namespace ohmstead {

Record make_record(House house) {
  HouseAsFound as_found = house_as_found(std::move(house));
  Record record{std::move(as_found.house), {}, {}, std::move(as_found.found)};
  record.feeds = conclude(record.house);
  record.graph = build_graph(record.house, record.feeds);
  return record;
}

State state_when(const Record& record, Supplied supplied) {
  if (supplied.source == 0) return usual_state(record.graph);
  return backup_state(record.house, record.graph, static_cast<std::size_t>(supplied.source - 1));
}

}  // namespace ohmstead
