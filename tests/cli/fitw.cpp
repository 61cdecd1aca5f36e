#include "fitw.hpp"

#include <fcntl.h>
#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <stdexcept>

namespace fs = std::filesystem;

namespace {

std::string new_folder() {
  std::string pattern = (fs::temp_directory_path() / "fitw-test-XXXXXX").string();
  if (mkdtemp(pattern.data()) == nullptr) throw std::runtime_error("no folder for the test");
  return pattern;
}

std::string contents(const fs::path& path) {
  std::ifstream in(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(in), std::istreambuf_iterator<char>()};
}

void redirect(int stream, const std::string& path) {
  const int to = open(path.c_str(), O_WRONLY | O_CREAT | O_TRUNC, 0600);
  if (to < 0 || dup2(to, stream) < 0) _exit(126);
}

}  // namespace

Bench::Bench() : folder_(new_folder()), streams_(new_folder()) {}

Bench::~Bench() {
  std::error_code ignored;
  fs::remove_all(folder_, ignored);
  fs::remove_all(streams_, ignored);
}

Run Bench::fitw(const std::vector<std::string>& arguments) const {
  std::vector<std::string> words{FW_FITW};
  words.insert(words.end(), arguments.begin(), arguments.end());
  std::vector<char*> argv;
  for (std::string& word : words) argv.push_back(word.data());
  argv.push_back(nullptr);

  const pid_t child = fork();
  if (child < 0) throw std::runtime_error("fitw could not be started");
  if (child == 0) {
    redirect(STDOUT_FILENO, streams_ + "/out");
    redirect(STDERR_FILENO, streams_ + "/err");
    if (chdir(folder_.c_str()) == 0) execv(argv[0], argv.data());
    _exit(126);
  }
  int status = 0;
  waitpid(child, &status, 0);
  return {WIFEXITED(status) ? WEXITSTATUS(status) : -1, contents(streams_ + "/out"), contents(streams_ + "/err")};
}

std::string Bench::path(const std::string& name) const { return (fs::path(folder_) / name).string(); }

void Bench::write(const std::string& name, const std::string& bytes) const {
  std::ofstream(path(name), std::ios::binary) << bytes;
}

std::string Bench::read(const std::string& name) const { return contents(path(name)); }

bool Bench::has(const std::string& name) const { return fs::exists(path(name)); }

std::vector<std::string> Bench::names() const {
  std::vector<std::string> found;
  for (const auto& entry : fs::recursive_directory_iterator(folder_))
    found.push_back(fs::relative(entry.path(), folder_).generic_string());
  std::sort(found.begin(), found.end());
  return found;
}
