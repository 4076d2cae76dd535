#include "cli/print_look.h"

#include <algorithm>
#include <cmath>
#include <filesystem>
#include <nlohmann/json.hpp>
#include <ostream>
#include <sstream>

#include "ask/printable.h"
#include "cli/exit_code.h"
#include "cli/open_house.h"
#include "cli/print_files.h"
#include "cli/print_set.h"
#include "house/error.h"
#include "json/json_text.h"

namespace ohmstead {

namespace {

using Json = nlohmann::ordered_json;
using Words = std::vector<std::string>;

/// One of all_prints, and what its last prints are worth.
struct Listed {
  std::string name;     ///< of print_names
  std::string title;    ///< "Directory of Panel Main"
  std::string refused;  ///< why it cannot be printed; empty: it can
  std::size_t items = 0, printed = 0, stale = 0;
  std::string printed_at;  ///< the latest; empty: never
};

/// What the words of a kind of labels are called.
std::string title_of(const Words& words, const ItemsNow& now) {
  static const std::vector<std::pair<std::string, std::string>> kKinds{
      {"strip", "Strips beside the breakers"}, {"dots", "Number dots for the breakers"}, {"panels", "Labels for the panels"}, {"plates", "Plates for receptacles, lights and appliances"},
      {"transfer", "Strip for the transfer device"}};
  if (words[0] == "labels")
    for (const auto& [kind, title] : kKinds)
      if (words[1] == kind) return title;
  std::string title = now.items.size() == 1 ? now.items[0].name : words.back();
  if (!title.empty() && title[0] >= 'a' && title[0] <= 'z') title[0] = static_cast<char>(title[0] - 'a' + 'A');
  return title;
}

Listed listed(const Session& session, const House& house, const Words& words, StatesNow& states) {
  const ItemsNow now = items_now(session, words);
  Listed one;
  one.title = title_of(words, now), one.refused = now.refused, one.items = now.items.size();
  for (const PrintedItem& item : now.items) {
    const Printed* last = last_of(house, item.key);
    if (last == nullptr) continue;
    ++one.printed;
    one.stale += states.of(*last).current ? 0 : 1;
    one.printed_at = std::max(one.printed_at, last->at);
  }
  return one;
}

/// "refused", "empty", "never", "stale", "part" or "current".
std::string state_word(const Listed& one) {
  if (!one.refused.empty()) return "refused";
  if (one.items == 0) return "empty";
  if (one.printed == 0) return "never";
  if (one.stale > 0) return "stale";
  return one.printed < one.items ? "part" : "current";
}

/// How its last print stands, as a sentence.
std::string words_of(const Listed& one) {
  const std::string state = state_word(one), of = " of " + std::to_string(one.items) + " labels ", when = "Printed " + one.printed_at.substr(0, 10);
  if (state == "refused") return "Cannot be printed now: " + one.refused;
  if (state == "empty") return "Nothing in the record for it yet.";
  if (state == "never") return "Not printed yet.";
  if (state == "part") return std::to_string(one.items - one.printed) + of + "not printed yet; the others are still true.";
  if (state == "current") return when + ", still true.";
  const std::size_t never = one.items - one.printed;
  if (one.items == 1) return when + ", no longer true: print it again.";
  return std::to_string(one.stale) + of + "no longer true" + (never > 0 ? ", " + std::to_string(never) + " not printed yet" : "") + ": print them again.";
}

std::vector<Listed> everything(const Session& session, const House& house, const std::vector<Words>& prints, StatesNow& states) {
  const std::vector<std::string> names = print_names(prints);
  std::vector<Listed> all;
  for (std::size_t i = 0; i < prints.size(); ++i) {
    all.push_back(listed(session, house, prints[i], states));
    all.back().name = names[i];
  }
  return all;
}

/// What was printed and cannot be printed any more, each as a sentence.
std::vector<std::string> to_take_down(const House& house, StatesNow& states) {
  std::vector<std::string> sentences;
  for (const Printed* printed : last_printed(house))
    if (const PrintState state = states.of(*printed); !state.gone.empty())
      sentences.push_back("The " + printed->name + " of " + printed->at.substr(0, 10) + " (check " + printed_check_code(printed->code) + ") is to be taken down: " + state.gone);
  return sentences;
}

Json json_of(const Listed& one) {
  return {{"item", one.name},       {"title", one.title},     {"state", state_word(one)}, {"words", words_of(one)}, {"labels", one.items},
          {"printed", one.printed}, {"stale", one.stale},     {"printed_at", one.printed_at}};
}

/// Runs the printing command so that it is only looked at. Returns its exit code; what it warns of goes to `notes`.
int draw(const Session& session, Words words, const std::string& date, std::vector<std::string>& notes) {
  if (!date.empty()) words.insert(words.end(), {"--date", date});
  std::istringstream in;
  std::ostringstream out, err;
  Session inner{in, out, err};
  inner.house_path = session.house_path, inner.now = session.now, inner.clock_ahead = session.clock_ahead;
  inner.for_looking = true;
  const int code = run_command_line(words, inner);
  std::istringstream lines(err.str());
  for (std::string line; std::getline(lines, line);) notes.push_back(line);
  return code;
}

/// What the name in `option` stands for in the list of this house.
Words words_named(const House& house, const Arguments& arguments, const std::string& option) {
  const std::vector<Words> prints = all_prints(house, arguments.text("--sheet"));
  const std::vector<std::string> names = print_names(prints);
  const auto found = std::ranges::find(names, arguments.text(option));
  if (found == names.end())
    throw Error(ErrorKind::not_found, "There is no '" + terminal::printable(arguments.text(option).substr(0, 40)) + "' to print; `ohmstead print --list` names what there is.");
  return prints[static_cast<std::size_t>(found - names.begin())];
}

}  // namespace

int list_prints(Session& session, const Arguments& arguments) {
  HouseFile file = open_house(session, Access::read);
  const House house = file.load();
  StatesNow states(session);
  const std::vector<Listed> all = everything(session, house, all_prints(house, arguments.text("--sheet")), states);
  const std::vector<std::string> gone = to_take_down(house, states);
  Lines lines;
  for (const Listed& one : all) lines.push_back({LineKind::detail, one.title + " (" + one.name + "): " + words_of(one)});
  if (all.empty()) lines.push_back({LineKind::answer, "There is nothing to print yet: write down a panel first."});
  for (const std::string& sentence : gone) lines.push_back({LineKind::caution, sentence});
  if (!session.json) {
    show(session, lines);
    return kDone;
  }
  Json json = started_json("print_list", lines);
  json["revision"] = file.revision();
  json["sheets"] = Json::array();
  for (const Listed& one : all) json["sheets"].push_back(json_of(one));
  json["gone"] = gone;
  session.out << json_text(json);
  return kDone;
}

int print_for_looking(Session& session, const Arguments& arguments) {
  if (!arguments.has("--to")) throw Error(ErrorKind::invalid_input, "Say into which folder with --to FOLDER.");
  const std::filesystem::path folder = arguments.text("--to");
  HouseFile file = open_house(session, Access::read);
  const Words words = words_named(file.load(), arguments, "--look");
  std::filesystem::create_directories(folder);
  const std::string picture = (folder / "page.png").string(), pdf = (folder / "sheet.pdf").string();
  std::vector<std::string> notes, repeated;
  Words to_pdf = words, to_pictures = words;
  to_pdf.insert(to_pdf.end(), {"--output", pdf});
  if (words[0] == "labels") to_pictures.insert(to_pictures.end(), {"--output", picture});
  else to_pdf.insert(to_pdf.end(), {"--png", picture});
  int code = draw(session, to_pdf, arguments.text("--date"), notes);
  if (code == kDone && words[0] == "labels") code = draw(session, to_pictures, arguments.text("--date"), repeated);
  if (code != kDone) {
    for (const std::string& note : notes) session.err << terminal::printable(note) << '\n';
    return code;
  }
  int pages = 0;
  while (std::filesystem::exists(page_path(picture, pages))) ++pages;
  if (session.json) session.out << json_text({{"question", "print_look"}, {"version", 1}, {"item", arguments.text("--look")}, {"revision", file.revision()}, {"pages", pages}, {"notes", notes}});
  else session.out << "Drawn to be looked at, into " << terminal::printable(folder.string()) << ": sheet.pdf and " << pages << (pages == 1 ? " picture" : " pictures") << ". It is not written down as printed.\n";
  return kDone;
}

int keep_as_printed(Session& session, const Arguments& arguments) {
  if (arguments.has("--revision")) {
    const double revision = arguments.number("--revision", 1, 1, 999'999'999);
    if (revision != std::floor(revision)) throw Error(ErrorKind::invalid_input, "--revision needs a whole number.");
    session.as_of = std::to_string(std::lround(revision));
  }
  const HouseFile file = open_house(session, Access::read);
  const Words words = words_named(house_to_print(session, file), arguments, "--printed");
  const ItemsNow then = items_now(session, words);
  if (!then.refused.empty()) throw Error(ErrorKind::invalid_input, then.refused);
  if (then.items.empty()) throw Error(ErrorKind::invalid_input, "There is nothing in the record for it yet, so it cannot have been printed; write down what it is about first.");
  keep_printed(session, file, words, then.items);
  const std::int64_t revision = revision_to_print(session, file);
  if (session.json) session.out << json_text({{"question", "print_kept"}, {"version", 1}, {"item", arguments.text("--printed")}, {"revision", revision}, {"labels", then.items.size()}});
  else session.out << "Written down as printed: " << terminal::printable(title_of(words, then)) << ", of revision " << revision << ".\n";
  return kDone;
}

}  // namespace ohmstead
