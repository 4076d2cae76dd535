// What is answered in sentences, for a page without a server.

#include "ask/answer_words.h"
#include "json/json_text.h"
#include "web/house_view_parts.h"

namespace ohmstead::web::view_parts {

void add_answers(const ViewInput& in, Json& view) {
  view["answers"] = Json::object();
  if (!in.options.for_file) return;
  Json where = Json::object(), isolate = Json::object(), off = Json::object(), carries = Json::object();
  for (std::size_t p = 0; p < in.record.house.points.size(); ++p) {
    const std::string id = in.record.house.points[p].id.text();
    where[id] = lines_json(words_of_answer(in.record, in.names, where_is(in.record, p)));
    isolate[id] = lines_json(words_of_answer(in.record, in.names, isolate_point(in.record, p)));
  }
  for (std::size_t h = 1; h < in.record.graph.handles.size(); ++h) {
    const GraphHandle& handle = in.record.graph.handles[h];
    const std::string ref = text_of_ref(handle.ref);
    off[ref] = lines_json(words_of_answer(in.record, in.names, what_goes_off(in.record, {{handle.ref, away_from_usual(handle)}}, {})));
    carries[ref] = lines_json(words_of_answer(in.record, in.names, what_does_it_carry(in.record, handle.ref)));
  }
  view["answers"] = {{"where", where}, {"isolate", isolate}, {"off", off}, {"carries", carries}};
}

}  // namespace ohmstead::web::view_parts
