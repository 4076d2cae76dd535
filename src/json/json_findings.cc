#include "json/json_findings.h"

#include <nlohmann/json.hpp>

#include "json/json_text.h"

namespace ohmstead {

std::string json_of_findings(const Names& names, const Findings& findings) {
  nlohmann::ordered_json json = started_json("findings", words_of_findings(findings)), list = nlohmann::ordered_json::array();
  for (const Finding& finding : findings.found) {
    nlohmann::ordered_json things = nlohmann::ordered_json::array();
    for (const ThingRef& thing : finding.things) things.push_back({{"ref", text_of_ref(thing)}, {"name", names.name_of(thing)}});
    list.push_back({{"rule", finding.rule}, {"severity", text_of(finding.severity)}, {"things", std::move(things)}, {"found", finding.found}, {"why", finding.why}, {"sure", finding.sure}, {"citation", finding.citation}});
  }
  json["findings"] = std::move(list);
  json["not_checked"] = findings.not_checked;
  return json_text(json);
}

}  // namespace ohmstead
