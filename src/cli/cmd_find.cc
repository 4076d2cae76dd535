#include <nlohmann/json.hpp>
#include <ostream>

#include "ask/printable.h"
#include "ask/search_words.h"
#include "cli/exit_code.h"
#include "cli/open_house.h"
#include "cli/run.h"
#include "db/search.h"
#include "house/error.h"
#include "json/json_text.h"

namespace ohmstead {

namespace {

constexpr double kUsualMost = 20, kMost = 1000;

const char* kind_words(FoundKind kind) {
  switch (kind) {
    case FoundKind::note:
      return "note";
    case FoundKind::room:
      return "room";
    case FoundKind::point:
      return "point";
    case FoundKind::load:
      return "load";
    case FoundKind::breaker:
      return "breaker";
    case FoundKind::panel:
      return "panel";
    case FoundKind::printed:
      return "printed";
    case FoundKind::device:
      break;
  }
  return "device";
}

/// "Kitchen dishwasher, left of the sink"; a note: what it is about, and its words.
std::string text_of_found(const Found& found) {
  const std::string name = terminal::printable(found.name), text = terminal::printable(found.text);
  if (found.kind == FoundKind::note) return (name.empty() ? "" : name + ": ") + text;
  return name + (text.find_first_not_of(' ') == std::string::npos ? "" : ", " + text);
}

Lines words_of(const SearchResult& result) {
  Lines lines;
  if (result.found.empty()) lines.push_back({LineKind::answer, "Nothing that is written down has these words, or begins with them.", {}});
  if (!result.found.empty() && !result.all_words) lines.push_back({LineKind::answer, "Nothing has all of these words. With some of them:", {}});
  for (const Found& found : result.found) lines.push_back({LineKind::answer, std::string(kind_words(found.kind)) + ": " + text_of_found(found), {}});
  if (result.more) lines.push_back({LineKind::detail, "There is more; --most shows it, or another word narrows it.", {}});
  return lines;
}

std::string json_of(const SearchResult& result) {
  nlohmann::ordered_json json = started_json("find", words_of(result));
  json["all_words"] = result.all_words;
  json["more"] = result.more;
  json["found"] = nlohmann::ordered_json::array();
  for (const Found& found : result.found)
    json["found"].push_back({{"kind", text_of(found.kind)}, {"id", found.id}, {"name", found.name}, {"text", found.text}});
  return json_text(json);
}

}  // namespace

int run_find(Session& session, const Arguments& arguments) {
  const std::vector<SearchWord> words = search_words(phrase(arguments.texts("WORDS")));
  if (words.empty())
    throw Error(ErrorKind::invalid_input, "There is no word in that to look for; give letters or digits, such as `ohmstead find gas`.");
  const auto most = static_cast<std::size_t>(arguments.number("--most", kUsualMost, 1, kMost));
  const SearchResult result = search_house_file(house_path(session), words, most);
  if (session.json)
    session.out << json_of(result);
  else
    show(session, words_of(result));
  return result.found.empty() ? kDoneButNo : kDone;
}

}  // namespace ohmstead
