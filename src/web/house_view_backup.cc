// The plan as a picture, and what to do in an outage.

#include "ask/outage_sheet.h"
#include "ask/plan_answer.h"
#include "ask/watts.h"
#include "house/error.h"
#include "json/json_text.h"
#include "web/house_view_parts.h"

namespace ohmstead::web::view_parts {

namespace {

Json blocks_json(const House& house, const std::vector<PictureBlock>& blocks) {
  Json list = Json::array();
  for (const PictureBlock& block : blocks) list.push_back({{"name", load_text(house, house.loads[block.load])}, {"watts", block.watts}, {"half", block.half}});
  return list;
}

Json plan_json(const ViewInput& in, const PlanAnswer& answer) {
  const House& house = in.record.house;
  Json columns = Json::array();
  for (const PictureColumn& column : plan_picture(answer.backup, answer.plan).columns)
    columns.push_back({{"leg", column.leg}, {"limit", column.limit}, {"running", column.running}, {"start_extra", column.start_extra},
                       {"starting_limit", column.starting_limit}, {"together", blocks_json(house, column.together)}, {"on_demand", blocks_json(house, column.on_demand)}});
  return {{"source", house.sources[answer.backup.source].name}, {"lines", lines_json(words_of_plan(in.record, in.names, answer))}, {"columns", columns}};
}

/// Null where the kept plan no longer fits the record, so that nothing can be said of it.
Json plan_or_null(const ViewInput& in, const std::optional<PlanAnswer>& plan) {
  try {
    return plan ? plan_json(in, *plan) : Json();
  } catch (const Error&) {
    return nullptr;
  }
}

}  // namespace

void add_backup(const ViewInput& in, Json& view) {
  const std::optional<PlanAnswer> plan = plan_to_live_by(in.record);
  view["plan"] = plan_or_null(in, plan);
  view["outage"] = nullptr;
  if (in.options.for_file && !in.record.house.sources.empty()) view["outage"] = {{"lines", lines_json(words_of_outage_sheet(in.record, plan))}};
  view["cautions"] = work_cautions(in.record.house);
}

}  // namespace ohmstead::web::view_parts
