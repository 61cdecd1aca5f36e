// What must not stand in any file of the project, wherever it is.

#include <catch2/catch.hpp>
#include <fstream>
#include <iterator>
#include <set>
#include <sstream>

#include "layers/tree.hpp"

namespace {

using layers::Breach;
using layers::SourceFile;

/// Beginnings of paths that exist on one machine only, put together here so that this file does not hold them.
std::vector<std::string> machine_paths() {
  std::vector<std::string> paths;
  for (const char* folder : {"work", "tmp", "root", "home", "Users", "mnt", "opt", "var/tmp"})
    paths.push_back(std::string("/") + folder + '/');
  paths.push_back(std::string("C:") + '\\');
  return paths;
}

/// A path is absolute when nothing that could be its parent's name stands before the slash.
bool holds_path(const std::string& line, const std::string& path) {
  for (std::size_t at = line.find(path); at != std::string::npos; at = line.find(path, at + 1)) {
    const char before = at == 0 ? ' ' : line[at - 1];
    const bool name = (before >= 'a' && before <= 'z') || (before >= 'A' && before <= 'Z') ||
                      (before >= '0' && before <= '9') || before == '_' || before == '.' || before == '}' ||
                      before == ')' || before == '-' || before == '/';
    if (!name) return true;
  }
  return false;
}

std::vector<Breach> breaches(const std::vector<SourceFile>& files) {
  const auto paths = machine_paths();
  std::vector<Breach> found;
  for (const SourceFile& file : files)
    for (std::size_t i = 0; i < file.lines.size(); ++i)
      for (const std::string& path : paths)
        if (holds_path(file.lines[i], path))
          found.push_back({file.path, i + 1, "a path of one machine: " + file.lines[i]});
  return found;
}

std::string text_of(const std::string& path) {
  std::ifstream in(std::string(FW_SOURCE) + '/' + path);
  return {std::istreambuf_iterator<char>(in), std::istreambuf_iterator<char>()};
}

}  // namespace

TEST_CASE("no path of one machine stands in the tree") {
  const auto found = breaches(layers::project_files());
  INFO(layers::listing(found));
  CHECK(found.empty());
}

TEST_CASE("the guard knows an absolute path from part of a relative one") {
  const auto told = [](const std::string& line) { return !breaches({SourceFile{"a.md", {line}}}).empty(); };
  const std::string scratch = std::string("/") + "tmp/";
  CHECK(told("cp a " + scratch + "b"));
  CHECK(told('"' + scratch + '"'));
  CHECK_FALSE(told("build" + scratch + "b"));
  CHECK_FALSE(told("${folder}" + scratch + "b"));
}

TEST_CASE("every package that is installed is explained, and every one explained is installed") {
  const std::string script = text_of(".ci/packages.sh");
  const std::string page = text_of("docs/dependencies.md");
  REQUIRE_FALSE(script.empty());
  REQUIRE_FALSE(page.empty());
  std::set<std::string> installed;
  for (const char* list : {"\nbuild=(", "\ntests=("}) {
    const std::size_t start = script.find(list);
    REQUIRE(start != std::string::npos);
    const std::size_t open = script.find('(', start) + 1;
    std::istringstream words(script.substr(open, script.find(')', open) - open));
    for (std::string word; words >> word;) installed.insert(word);
  }
  for (const std::string& package : installed) {
    INFO(package);
    CHECK(page.find("`" + package + "`") != std::string::npos);
  }
  std::istringstream lines(page);
  for (std::string line; std::getline(lines, line);) {
    if (!line.starts_with("| `")) continue;  // a row of the table of packages
    for (std::size_t at = 2; line[at] == '`';) {
      const std::size_t end = line.find('`', at + 1);
      const std::string package = line.substr(at + 1, end - at - 1);
      INFO(package);
      CHECK(installed.contains(package));
      at = line.compare(end + 1, 2, ", ") == 0 ? end + 3 : end + 1;
    }
  }
}

TEST_CASE("scripts that are run can be run") {
  for (const char* script : {"tests/run.sh", ".ci/run", ".ci/packages.sh"}) {
    INFO(script);
    CHECK(text_of(script).starts_with("#!/usr/bin/env bash\n"));
  }
}
