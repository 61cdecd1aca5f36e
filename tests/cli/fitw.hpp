#pragma once
// Runs the built fitw as a person or a script would.

#include <string>
#include <vector>

/// What a run left behind.
struct Run {
  int code = -1;  ///< exit code; -1 when it did not end by itself
  std::string out;
  std::string err;
};

/// A folder of its own for one test, removed again with all that is in it.
class Bench {
 public:
  Bench();
  Bench(const Bench&) = delete;
  Bench& operator=(const Bench&) = delete;
  ~Bench();

  /// Runs fitw in this folder.
  [[nodiscard]] Run fitw(const std::vector<std::string>& arguments) const;

  void write(const std::string& name, const std::string& bytes) const;
  [[nodiscard]] std::string read(const std::string& name) const;
  [[nodiscard]] bool has(const std::string& name) const;
  /// Names of all files and folders in it, sorted, other than what fitw() itself puts there.
  [[nodiscard]] std::vector<std::string> names() const;
  [[nodiscard]] std::string path(const std::string& name) const;

 private:
  std::string folder_;
  std::string streams_;  ///< where standard output and error are caught
};
