#pragma once
// The project's files as the guards see them.

#include <string>
#include <vector>

namespace layers {

/// A text file of the project: its path from the root ("calib/base/file.hpp") and its lines.
struct SourceFile {
  std::string path;
  std::vector<std::string> lines;
};

/// Every tracked text file; outside a working copy (a source archive), every text file but those in build folders.
/// Files with a NUL byte and published data sets are left out.
std::vector<SourceFile> project_files();

/// A rule broken: "calib/model/a.cpp:12: what is wrong".
struct Breach {
  std::string path;
  std::size_t line = 0;
  std::string what;
};

/// The header that a line includes ("wx/frame.h"), or empty.
std::string included(const std::string& line);

/// All breaches, one a line, for a failing test's message.
std::string listing(const std::vector<Breach>& breaches);

}  // namespace layers
