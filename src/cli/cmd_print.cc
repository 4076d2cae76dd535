#include <algorithm>
#include <filesystem>
#include <ostream>
#include <set>

#include "ask/printable.h"
#include "cli/exit_code.h"
#include "cli/open_house.h"
#include "cli/print_look.h"
#include "cli/print_set.h"
#include "cli/run.h"
#include "house/error.h"

namespace ohmstead {

namespace {

using Words = std::vector<std::string>;

/// Prints what these words print into a file of the folder; what the command says goes to the session.
int print_into(Session& session, Words words, const std::filesystem::path& path, const std::string& date, const std::set<std::string>& only) {
  words.insert(words.end(), {"--output", path.string()});
  if (!date.empty()) words.insert(words.end(), {"--date", date});
  Session inner{session.in, session.out, session.err};
  inner.house_path = house_path(session);
  inner.now = session.now, inner.clock_ahead = session.clock_ahead;
  inner.only = only;
  return run_command_line(words, inner);
}

/// What to print, and which labels of it; none: all.
struct Job {
  Words words;
  std::set<std::string> only;
};

/// Stops at the first file that cannot be written: the others would not be either.
int print_all(Session& session, const std::vector<Job>& jobs, const Arguments& arguments) {
  const std::filesystem::path folder = arguments.text("--to");
  std::error_code fault;
  const bool made = std::filesystem::create_directories(folder, fault);
  if (!std::filesystem::is_directory(folder, fault)) throw Error(ErrorKind::output, "'" + folder.string() + "' is no folder and none could be made there; give another with --to.");
  std::vector<Words> prints;
  for (const Job& job : jobs) prints.push_back(job.words);
  const std::vector<std::string> names = print_names(prints);
  int worst = kDone;
  for (std::size_t i = 0; i < jobs.size(); ++i) {
    worst = std::max(worst, print_into(session, jobs[i].words, folder / (names[i] + ".pdf"), arguments.text("--date"), jobs[i].only));
    if (worst == kHouseFile) break;
  }
  if (made && std::filesystem::is_empty(folder, fault)) std::filesystem::remove(folder, fault);
  return worst;
}

/// Says what is no longer true; what prints it again.
std::vector<Job> tell_stale(Session& session, const House& house) {
  std::vector<Job> again;
  StatesNow states(session);
  int true_ones = 0;
  for (const Printed* printed : last_printed(house)) {
    const Words words = words_kept(printed->words);
    const PrintState state = states.of(*printed);
    if (state.current) {
      ++true_ones;
      continue;
    }
    const std::string what = "The " + printed->name + " of " + printed->at.substr(0, 10) + " (check " + printed_check_code(printed->code) + ")";
    session.out << terminal::printable(what + (state.gone.empty() ? " is no longer true." : " is to be taken down: " + state.gone)) << '\n';
    if (!state.gone.empty()) continue;
    auto job = std::ranges::find(again, words, &Job::words);
    if (job == again.end()) job = again.insert(job, {words, {}});
    job->only.insert(printed->item);
  }
  session.out << (again.empty() ? "Nothing has to be printed again; " : "") << true_ones << (true_ones == 1 ? " sheet or label is" : " sheets and labels are") << " still true.\n";
  return again;
}

}  // namespace

int run_print(Session& session, const Arguments& arguments) {
  if (arguments.has("--list")) return list_prints(session, arguments);
  if (arguments.has("--look")) return print_for_looking(session, arguments);
  if (arguments.has("--printed")) return keep_as_printed(session, arguments);
  const House house = open_house(session, Access::read).load();
  if (!arguments.has("--stale")) {
    if (!arguments.has("--to")) throw Error(ErrorKind::invalid_input, "Say into which folder with --to FOLDER, or ask with --stale what is no longer true.");
    std::vector<Job> prints;
    for (Words& words : all_prints(house, arguments.text("--sheet"))) prints.push_back({std::move(words), {}});
    if (prints.empty()) throw Error(ErrorKind::not_found, "There is nothing to print yet: write down a panel first, such as `Panel Main 12 spaces: 1 15 hall; 3 20`.");
    return print_all(session, prints, arguments);
  }
  const std::vector<Job> again = tell_stale(session, house);
  if (again.empty()) return kDone;
  if (arguments.has("--to")) return print_all(session, again, arguments);
  session.out << "Print them again with: ohmstead print --stale --to FOLDER, or one by one:\n";
  for (const Job& job : again) session.out << "  ohmstead " << terminal::printable(command_text(job.words)) << '\n';
  return kDoneButNo;
}

}  // namespace ohmstead
