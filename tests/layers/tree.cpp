#include "layers/tree.hpp"

#include <algorithm>
#include <cstdio>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <memory>

namespace layers {
namespace {

namespace fs = std::filesystem;

/// Output of a program, empty when it fails.
std::string output_of(const std::string& command) {
  std::string out;
  FILE* pipe = popen(command.c_str(), "r");
  if (pipe == nullptr) return {};
  char block[4096];
  while (const std::size_t n = fread(block, 1, sizeof block, pipe)) out.append(block, n);
  return pclose(pipe) == 0 ? out : std::string();
}

std::vector<std::string> split(const std::string& text, char at) {
  std::vector<std::string> parts;
  std::size_t start = 0;
  for (std::size_t end; (end = text.find(at, start)) != std::string::npos; start = end + 1)
    parts.push_back(text.substr(start, end - start));
  if (start < text.size()) parts.push_back(text.substr(start));
  return parts;
}

std::vector<std::string> paths() {
  // Files not yet added count too, so that a breach is told before it is committed.
  std::vector<std::string> found =
      split(output_of("git -C \"" FW_SOURCE "\" ls-files -z --cached --others --exclude-standard 2>/dev/null"), '\0');
  if (!found.empty()) return found;
  for (auto entry = fs::recursive_directory_iterator(FW_SOURCE); entry != fs::recursive_directory_iterator(); ++entry) {
    const std::string name = entry->path().filename().string();
    if (entry->is_directory() && (name.starts_with("build") || name == ".git"))
      entry.disable_recursion_pending();
    else if (entry->is_regular_file())
      found.push_back(fs::relative(entry->path(), FW_SOURCE).generic_string());
  }
  return found;
}

}  // namespace

std::vector<SourceFile> project_files() {
  std::vector<SourceFile> files;
  for (const std::string& path : paths()) {
    if (path.starts_with("tests/reference/")) continue;  // published values, as published
    std::ifstream in(fs::path(FW_SOURCE) / path, std::ios::binary);
    if (!in) continue;  // deleted, not yet committed
    const std::string bytes((std::istreambuf_iterator<char>(in)), std::istreambuf_iterator<char>());
    if (bytes.find('\0') != std::string::npos) continue;
    files.push_back({path, split(bytes, '\n')});
  }
  std::sort(files.begin(), files.end(), [](const auto& a, const auto& b) { return a.path < b.path; });
  return files;
}

std::string included(const std::string& line) {
  std::size_t at = line.find_first_not_of(" \t");
  if (at == std::string::npos || line[at] != '#') return {};
  at = line.find_first_not_of(" \t", at + 1);
  if (at == std::string::npos || line.compare(at, 7, "include") != 0) return {};
  at = line.find_first_of("<\"", at);
  if (at == std::string::npos) return {};
  const std::size_t end = line.find_first_of(">\"", at + 1);
  return end == std::string::npos ? std::string() : line.substr(at + 1, end - at - 1);
}

std::string listing(const std::vector<Breach>& breaches) {
  std::string out;
  for (const Breach& b : breaches) out += '\n' + b.path + ':' + std::to_string(b.line) + ": " + b.what;
  return out;
}

}  // namespace layers
