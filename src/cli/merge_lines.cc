#include <nlohmann/json.hpp>

#include "cli/merge_talk.h"
#include "db/cell_json.h"
#include "db/merge_words.h"
#include "json/json_line.h"

namespace ohmstead {

namespace {

using Json = nlohmann::ordered_json;

Json json_of_conflict(const Merged& merged, const Conflict& conflict) {
  const SideBySide sides = side_by_side(merged, conflict);
  Json json{{"type", "conflict"}, {"key", conflict.key}, {"kind", text_of(conflict.kind)}, {"table", conflict.table},
            {"id", conflict.id == 0 ? "" : id_text(conflict.id)}, {"about", sides.about}, {"before", sides.before},
            {"mine", sides.mine}, {"theirs", sides.theirs}};
  Json& fields = json["fields"] = Json::array();
  for (const ThreeCells& field : conflict.fields)
    fields.push_back({{"field", field.name}, {"before", json_of_cell<Json>(field.before)}, {"mine", json_of_cell<Json>(field.mine)}, {"theirs", json_of_cell<Json>(field.theirs)}});
  json["open"] = merged.open.size();
  return json;
}

}  // namespace

std::optional<Merged> decide_by_lines(Session& session, const MergeFn& merge) {
  JsonLines lines(session.in, session.out);
  Decisions decisions;
  Merged merged = merge(decisions);
  if (!merged.open.empty()) lines.write(json_of_conflict(merged, merged.open.front()));
  while (!merged.open.empty()) {
    const auto request = lines.next();
    if (!request) return std::nullopt;
    try {
      const std::string action = text_field(*request, "do");
      if (action == "stop") return std::nullopt;
      if (action != "take") throw refused_line("The field 'do' must be one of: take, stop.");
      const auto side = word_field<Side>(*request, "side");
      if (!side) throw refused_line("The field 'side' must be one of: mine, theirs.");
      if (text_field(*request, "key") != merged.open.front().key) throw refused_line("The field 'key' must be that of the conflict that was asked last.");
      decisions[merged.open.front().key] = *side;
    } catch (const Error& error) {
      lines.write_error(error);
      continue;
    }
    merged = merge(decisions);
    ++lines.number;
    if (!merged.open.empty()) lines.write(json_of_conflict(merged, merged.open.front()));
  }
  return merged;
}

}  // namespace ohmstead
