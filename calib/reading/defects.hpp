#pragma once
// What is wrong with a file, all of it, within what a person can read.

#include <cstddef>
#include <string>

#include "base/result.hpp"

namespace fitwright {

/// Collects the defects of one file.
class Defects {
 public:
  /// More than these are only counted.
  static constexpr std::size_t most = 100;

  explicit Defects(std::string source) : source_(std::move(source)) {}

  void add(int line, int column, std::string what, std::string remedy);
  [[nodiscard]] bool empty() const { return problems_.empty(); }
  /// All that was added; the list below does not hold more than `most`.
  [[nodiscard]] std::size_t count() const { return problems_.size() + left_out_; }

  /// The defects by line and column, and a last line that says how many more there are.
  [[nodiscard]] Problems take();

 private:
  std::string source_;
  Problems problems_;
  std::size_t left_out_ = 0;
};

}  // namespace fitwright
