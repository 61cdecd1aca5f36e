#include "window/access/reader.hpp"

#include <signal.h>
#include <sys/prctl.h>
#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <chrono>
#include <cstdlib>
#include <filesystem>
#include <random>
#include <stdexcept>
#include <thread>

namespace access_test {
namespace {

/// What went wrong with one question: the thing asked may be gone by then, which is told as "nothing there".
class Ignored {
 public:
  Ignored() = default;
  ~Ignored() { g_clear_error(&error_); }
  Ignored(const Ignored&) = delete;
  Ignored& operator=(const Ignored&) = delete;
  operator GError**() { return &error_; }  // NOLINT: that is what it is for

 private:
  GError* error_ = nullptr;
};

std::string taken(char* text) {
  std::string copy = text ? text : "";
  g_free(text);
  return copy;
}

template <class T>
std::shared_ptr<T> owned(T* object) {
  return {object, [](T* o) {
            if (o) g_object_unref(o);
          }};
}

constexpr int start_seconds = 60;  // a busy machine builds while it tests
constexpr auto between_questions = std::chrono::milliseconds(20);

}  // namespace

Node::Node(AtspiAccessible* mine) : at_(owned(mine)) {}

std::string Node::name() const { return taken(atspi_accessible_get_name(at_.get(), Ignored())); }
std::string Node::description() const { return taken(atspi_accessible_get_description(at_.get(), Ignored())); }
AtspiRole Node::role() const { return atspi_accessible_get_role(at_.get(), Ignored()); }
std::string Node::role_name() const { return taken(atspi_accessible_get_role_name(at_.get(), Ignored())); }

bool Node::is(AtspiStateType state) const {
  const auto set = owned(atspi_accessible_get_state_set(at_.get()));
  return set && atspi_state_set_contains(set.get(), state);
}

std::vector<Node> Node::children() const {
  std::vector<Node> all;
  const int count = atspi_accessible_get_child_count(at_.get(), Ignored());
  for (int i = 0; i < count; ++i)
    if (AtspiAccessible* child = atspi_accessible_get_child_at_index(at_.get(), i, Ignored())) all.emplace_back(child);
  return all;
}

pid_t Node::process() const { return static_cast<pid_t>(atspi_accessible_get_process_id(at_.get(), Ignored())); }

bool Node::act() const {
  const auto actions = owned(atspi_accessible_get_action_iface(at_.get()));
  return actions && atspi_action_do_action(actions.get(), 0, Ignored());
}

bool Node::is_table() const { return owned(atspi_accessible_get_table_iface(at_.get())) != nullptr; }

std::vector<std::vector<std::string>> Node::cells() const {
  const auto table = owned(atspi_accessible_get_table_iface(at_.get()));
  if (!table) return {};
  const int rows = std::max(0, atspi_table_get_n_rows(table.get(), Ignored()));
  const int columns = std::max(0, atspi_table_get_n_columns(table.get(), Ignored()));
  std::vector<std::vector<std::string>> all(static_cast<std::size_t>(rows));
  for (int r = 0; r < rows; ++r)
    for (int c = 0; c < columns; ++c) {
      AtspiAccessible* cell = atspi_table_get_accessible_at(table.get(), r, c, Ignored());
      all[static_cast<std::size_t>(r)].push_back(cell ? Node(cell).name() : "");
    }
  return all;
}

bool Node::row_chosen(int row) const {
  const auto table = owned(atspi_accessible_get_table_iface(at_.get()));
  return table && atspi_table_is_row_selected(table.get(), row, Ignored());
}

std::string Node::text() const {
  const auto text = owned(atspi_accessible_get_text_iface(at_.get()));
  if (!text) return {};
  return taken(atspi_text_get_text(text.get(), 0, atspi_text_get_character_count(text.get(), Ignored()), Ignored()));
}

Program::Program(const char* argument) {
  const auto folder =
      std::filesystem::temp_directory_path() / ("fitwright-access-" + std::to_string(std::random_device{}()));
  std::filesystem::create_directories(folder);
  folder_ = folder.string();
  id_ = fork();
  if (id_ == 0) {
    prctl(PR_SET_PDEATHSIG, SIGTERM);  // a test that is ended leaves no window behind
    for (const char* variable : {"XDG_CONFIG_HOME", "XDG_DATA_HOME"}) setenv(variable, folder_.c_str(), 1);
    setenv("LC_ALL", "C.UTF-8", 1);
    unsetenv("LANGUAGE");
    unsetenv("NO_AT_BRIDGE");
    execl(FW_FITWRIGHT, "fitwright", argument, static_cast<char*>(nullptr));
    _exit(127);
  }
  atspi_init();
  const bool there = until(
      [this] {
        const Node desktop(atspi_get_desktop(0));
        for (const Node& program : desktop.children()) {
          if (program.process() != id_) continue;
          for (const Node& window : program.children())
            if (window.role() == ATSPI_ROLE_FRAME && window.is(ATSPI_STATE_SHOWING)) window_ = window;
        }
        return static_cast<bool>(window_) || waitpid(id_, nullptr, WNOHANG) == id_;
      },
      start_seconds);
  if (!there || !window_) throw std::runtime_error("the program's window does not come onto the accessibility bus");
}

Program::~Program() {
  window_ = Node();
  if (id_ > 0) {
    kill(id_, SIGTERM);
    waitpid(id_, nullptr, 0);
  }
  std::error_code ignored;
  std::filesystem::remove_all(folder_, ignored);
}

bool until(const std::function<bool()>& holds, int seconds) {
  const auto end = std::chrono::steady_clock::now() + std::chrono::seconds(seconds);
  while (!holds()) {
    if (std::chrono::steady_clock::now() > end) return false;
    while (g_main_context_iteration(nullptr, FALSE)) {
    }  // news of what changed, so that nothing old is answered
    std::this_thread::sleep_for(between_questions);
  }
  return true;
}

std::vector<Node> all_below(const Node& top, const std::function<bool(const Node&)>& into) {
  std::vector<Node> all{top};
  for (std::size_t i = 0; i < all.size(); ++i) {
    if (!into(all[i])) continue;
    for (Node& child : all[i].children()) all.push_back(std::move(child));
  }
  return all;
}

std::optional<Node> find(const Node& top, AtspiRole role, const std::string& name) {
  for (const Node& node : all_below(top, [](const Node& n) { return !n.is_table(); }))
    if (node.role() == role && node.name() == name) return node;
  return std::nullopt;
}

}  // namespace access_test
