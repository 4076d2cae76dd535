#include "program.h"

#include <fcntl.h>
#include <signal.h>
#include <sys/wait.h>
#include <unistd.h>

#include <cstdlib>
#include <fstream>
#include <iterator>
#include <stdexcept>

namespace ohmstead::whole {

void become_program(const Folder& folder, const std::vector<std::string>& words) {
  if (chdir(folder.path().c_str()) != 0) _exit(126);
  unsetenv("OHMSTEAD_HOUSE");
  std::vector<std::string> all{OHMSTEAD_PROGRAM};
  all.insert(all.end(), words.begin(), words.end());
  std::vector<char*> pointers;
  for (std::string& word : all) pointers.push_back(word.data());
  pointers.push_back(nullptr);
  execv(pointers[0], pointers.data());
  _exit(127);
}

Folder::Folder() {
  std::string name = (std::filesystem::temp_directory_path() / "ohmstead-XXXXXX").string();
  if (mkdtemp(name.data()) == nullptr) throw std::runtime_error("no temporary folder");
  path_ = name;
}

Folder::~Folder() {
  std::error_code ignored;
  std::filesystem::remove_all(path_, ignored);
}

Ran Folder::run(const std::vector<std::string>& words, const std::string& input) const {
  write("stdin", input);
  const pid_t child = fork();
  if (child == 0) {
    const int in = open(at("stdin").c_str(), O_RDONLY);
    const int out = open(at("stdout").c_str(), O_WRONLY | O_CREAT | O_TRUNC, 0600);
    const int err = open(at("stderr").c_str(), O_WRONLY | O_CREAT | O_TRUNC, 0600);
    dup2(in, STDIN_FILENO), dup2(out, STDOUT_FILENO), dup2(err, STDERR_FILENO);
    become_program(*this, words);
  }
  int status = 0;
  waitpid(child, &status, 0);
  return {WIFEXITED(status) ? WEXITSTATUS(status) : 1000 + WTERMSIG(status), read("stdout"), read("stderr")};
}

Ran Folder::start_house(const std::string& lines) const {
  const Ran made = run({"new", "a.house", "--name", "Hillside"});
  return made.code == 0 ? run({"enter", "-"}, lines) : made;
}

void Folder::write(const std::string& name, const std::string& bytes) const {
  std::ofstream(at(name), std::ios::binary) << bytes;
}

std::string Folder::read(const std::string& name) const {
  std::ifstream file(at(name), std::ios::binary);
  return {std::istreambuf_iterator<char>(file), {}};
}

Talk::Talk(const Folder& folder, const std::vector<std::string>& words) {
  int to[2], from[2];
  if (pipe2(to, O_CLOEXEC) != 0 || pipe2(from, O_CLOEXEC) != 0) throw std::runtime_error("no pipe");
  child_ = fork();
  if (child_ == 0) {
    dup2(to[0], STDIN_FILENO), dup2(from[1], STDOUT_FILENO);
    become_program(folder, words);
  }
  close(to[0]), close(from[1]);
  to_ = fdopen(to[1], "w"), from_ = fdopen(from[0], "r");
  signal(SIGPIPE, SIG_IGN);
}

Talk::~Talk() {
  std::fclose(to_), std::fclose(from_);
  waitpid(child_, nullptr, 0);
}

void Talk::send(const std::string& line) {
  std::fputs((line + "\n").c_str(), to_);
  std::fflush(to_);
}

std::string Talk::receive() {
  std::string line;
  for (int c = std::getc(from_); c != EOF; c = std::getc(from_)) {
    if (c == '\n') return line;
    line += static_cast<char>(c);
  }
  return "";  // a line that was cut off was not acknowledged
}

void Talk::kill() { ::kill(child_, SIGKILL); }

}  // namespace ohmstead::whole
