#pragma once
// The window as a screen reader has it: the program runs by itself, and all that is known of it comes over the
// accessibility bus.

#include <atspi/atspi.h>
#include <sys/types.h>

#include <functional>
#include <memory>
#include <optional>
#include <string>
#include <vector>

namespace access_test {

/// One thing of the tree, as the bus tells it.
class Node {
 public:
  Node() = default;
  /// Takes over a reference.
  explicit Node(AtspiAccessible* owned);

  explicit operator bool() const { return at_ != nullptr; }
  [[nodiscard]] std::string name() const;
  [[nodiscard]] std::string description() const;
  [[nodiscard]] AtspiRole role() const;
  [[nodiscard]] std::string role_name() const;
  [[nodiscard]] bool is(AtspiStateType state) const;
  [[nodiscard]] std::vector<Node> children() const;
  /// Id of the process it belongs to.
  [[nodiscard]] pid_t process() const;
  /// Does its first action, as a press of Enter would; false when it has none.
  [[nodiscard]] bool act() const;
  /// Texts of a table's cells, row by row. Empty when it is no table.
  [[nodiscard]] std::vector<std::vector<std::string>> cells() const;
  [[nodiscard]] bool row_chosen(int row) const;
  [[nodiscard]] bool is_table() const;
  /// What stands in a text field.
  [[nodiscard]] std::string text() const;

 private:
  std::shared_ptr<AtspiAccessible> at_;
};

/// The program, started with settings of its own that nobody has used before, ended with this.
class Program {
 public:
  /// `argument`: "--demo", or null for the first start.
  explicit Program(const char* argument);
  ~Program();
  Program(const Program&) = delete;
  Program& operator=(const Program&) = delete;

  /// Its main window; throws when none comes within the time given to it.
  [[nodiscard]] Node window() const { return window_; }

 private:
  pid_t id_ = -1;
  std::string folder_;
  Node window_;
};

/// Asks again and again until `holds`; false when it does not within `seconds`.
bool until(const std::function<bool()>& holds, int seconds = 20);

/// Everything below `top`, itself included, as far as `into` lets it go down.
std::vector<Node> all_below(const Node& top, const std::function<bool(const Node&)>& into);

/// The first node below `top` with a role and a name.
std::optional<Node> find(const Node& top, AtspiRole role, const std::string& name);

}  // namespace access_test
