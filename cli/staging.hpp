#pragma once
// Several files that come into a folder together or not at all.

#include <string>
#include <system_error>
#include <vector>

#include "base/result.hpp"

namespace fitw {

/// A folder beside the target in which files are prepared. What was not committed is removed again.
class Staging {
 public:
  /// Makes `folder` (with those above it) if it is not there, and a place to prepare files in it. Errors: Code::io.
  static fitwright::Result<Staging> in(const std::string& folder);
  Staging(Staging&& other) noexcept;
  Staging& operator=(Staging&&) = delete;
  ~Staging();

  /// Where to write a file that is to be called `name`.
  std::string path_for(const std::string& name);

  /// Moves every prepared file to its place. Errors: Code::io, and then what stood there before stands there again.
  fitwright::Result<fitwright::Done> commit();

 private:
  Staging() = default;
  std::string folder_;
  std::string made_;  ///< topmost folder that did not exist before, empty if all did
  std::string place_;
  std::vector<std::string> names_;

  /// Puts one file in its place, what stood there aside. False with the system's reason.
  bool put(const std::string& name, std::error_code& error) const;
  /// Undoes put().
  void take_back(const std::string& name) const;
};

}  // namespace fitw
