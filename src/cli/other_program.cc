#include "cli/other_program.h"

#include <unistd.h>

#include <cerrno>
#include <cstring>
#include <filesystem>
#include <ostream>

#include "house/error.h"

namespace ohmstead {

std::string other_program(const std::string& name) {
  namespace fs = std::filesystem;
  std::error_code fault;
  const fs::path here = fs::read_symlink("/proc/self/exe", fault).parent_path();
  for (const fs::path& at : {here / name, here / "../libexec/ohmstead" / name})
    if (fs::exists(at, fault)) return at.string();
  return {};
}

void start_other_program(Session& session, const std::string& name) {
  const std::string at = other_program(name);
  if (at.empty()) throw Error(ErrorKind::output, "The program '" + name + "', which this command needs, is not beside this one; install or build it.");
  std::vector<std::string> words{at};
  words.insert(words.end(), session.words.begin(), session.words.end());
  std::vector<char*> pointers;
  for (std::string& word : words) pointers.push_back(word.data());
  pointers.push_back(nullptr);
  session.out.flush();
  execv(pointers[0], pointers.data());
  throw Error(ErrorKind::output, "'" + at + "' cannot be started: " + std::strerror(errno) + ".");
}

}  // namespace ohmstead
