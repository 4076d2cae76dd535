// In `ohmstead`, printing is done by starting `ohmstead-print` with the same words: the drawing
// libraries cost every start of the program more than a whole answer does.

#include <cerrno>
#include <cstring>
#include <filesystem>
#include <ostream>
#include <unistd.h>

#include "cli/exit_code.h"
#include "cli/run.h"

namespace ohmstead {

namespace {

int hand_over(Session& session) {
  namespace fs = std::filesystem;
  std::error_code fault;
  const fs::path here = fs::read_symlink("/proc/self/exe", fault).parent_path();
  for (const fs::path& at : {here / "ohmstead-print", here / "../libexec/ohmstead/ohmstead-print"}) {
    if (!fs::exists(at, fault)) continue;
    std::vector<std::string> words{at.string()};
    words.insert(words.end(), session.words.begin(), session.words.end());
    std::vector<char*> pointers;
    for (std::string& word : words) pointers.push_back(word.data());
    pointers.push_back(nullptr);
    session.out.flush();
    execv(pointers[0], pointers.data());
    throw Error(ErrorKind::output, "'" + at.string() + "' cannot be started: " + std::strerror(errno) + ".");
  }
  throw Error(ErrorKind::output, "The printing program 'ohmstead-print' is not beside this one; install or build it.");
}

}  // namespace

int run_directory(Session& session, const Arguments&) { return hand_over(session); }
int run_paper(Session& session, const Arguments&) { return hand_over(session); }
int run_labels(Session& session, const Arguments&) { return hand_over(session); }
int run_from_paper(Session& session, const Arguments&) { return hand_over(session); }
int run_print(Session& session, const Arguments&) { return hand_over(session); }
int run_is_it_current(Session& session, const Arguments&) { return hand_over(session); }

}  // namespace ohmstead
