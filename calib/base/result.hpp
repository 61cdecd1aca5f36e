#pragma once
// Expected failures are values: a Result is either a value or the list of everything that is wrong.

#include <string>
#include <utility>
#include <variant>
#include <vector>

namespace fitwright {

/// What kind of failure a Problem is. The numbers are the exit codes of the command line.
enum class Code {
  usage = 2,         ///< the command, option or parameter is not one we know
  bad_input = 3,     ///< a file or a value is not what it should be
  unanswerable = 4,  ///< the data are right but cannot answer the question
  io = 5,            ///< a file could not be read or written
};

/// Where a problem is. `line` and `column` are 1-based as an editor counts them; 0 = not applicable.
struct Place {
  std::string file;
  int line = 0;
  int column = 0;
};

/// One thing that is wrong: where, what (quoting the offending value), and what to do about it.
struct Problem {
  Code code = Code::bad_input;
  Place where;
  std::string what;
  std::string remedy;

  /// "FILE:LINE:COLUMN: what; remedy", leaving out the parts that do not apply.
  [[nodiscard]] std::string text() const;
};

using Problems = std::vector<Problem>;

/// A value of type T, or one or more Problems (all defects at once, in the order they were met).
template <class T>
class [[nodiscard]] Result {
 public:
  Result(T value) : held_(std::move(value)) {}                                   // NOLINT implicit by intent
  Result(Problem problem) : held_(Problems{std::move(problem)}) {}               // NOLINT
  Result(Problems problems) : held_(std::move(problems)) {}                      // NOLINT

  [[nodiscard]] bool ok() const { return std::holds_alternative<T>(held_); }
  explicit operator bool() const { return ok(); }

  /// The value. Precondition: ok(); throws std::bad_variant_access otherwise (a defect in the caller).
  [[nodiscard]] const T& value() const& { return std::get<T>(held_); }
  [[nodiscard]] T& value() & { return std::get<T>(held_); }
  [[nodiscard]] T&& value() && { return std::get<T>(std::move(held_)); }
  const T& operator*() const& { return value(); }
  T& operator*() & { return value(); }
  const T* operator->() const { return &value(); }
  T* operator->() { return &value(); }

  /// The problems. Precondition: !ok().
  [[nodiscard]] const Problems& problems() const { return std::get<Problems>(held_); }

 private:
  std::variant<T, Problems> held_;
};

/// Result of an action that yields nothing.
struct Done {};

}  // namespace fitwright
