// Goes through every place as a screen reader does: names, roles, sentences for what is drawn, cells of tables.

#include <algorithm>
#include <catch2/catch.hpp>
#include <string>
#include <vector>

#include "window/access/reader.hpp"

using namespace access_test;

namespace {

/// One program for all cases.
Node window() {
  static Program program("--demo");
  return program.window();
}

bool one_of(AtspiRole role, const std::vector<AtspiRole>& roles) {
  return std::find(roles.begin(), roles.end(), role) != roles.end();
}

/// What somebody works with: each needs a name.
bool is_control(const Node& node) {
  static const std::vector<AtspiRole> controls{
      ATSPI_ROLE_PUSH_BUTTON,     ATSPI_ROLE_TOGGLE_BUTTON, ATSPI_ROLE_CHECK_BOX,  ATSPI_ROLE_RADIO_BUTTON,
      ATSPI_ROLE_COMBO_BOX,       ATSPI_ROLE_TEXT,          ATSPI_ROLE_ENTRY,      ATSPI_ROLE_PASSWORD_TEXT,
      ATSPI_ROLE_SPIN_BUTTON,     ATSPI_ROLE_SLIDER,        ATSPI_ROLE_LIST,       ATSPI_ROLE_LIST_BOX,
      ATSPI_ROLE_TABLE,           ATSPI_ROLE_TREE,          ATSPI_ROLE_TREE_TABLE, ATSPI_ROLE_PAGE_TAB,
      ATSPI_ROLE_PAGE_TAB_LIST,   ATSPI_ROLE_LINK,          ATSPI_ROLE_MENU_ITEM,  ATSPI_ROLE_CHECK_MENU_ITEM,
      ATSPI_ROLE_RADIO_MENU_ITEM, ATSPI_ROLE_DOCUMENT_TEXT, ATSPI_ROLE_CHART,      ATSPI_ROLE_CANVAS,
      ATSPI_ROLE_TOOL_BAR};
  return one_of(node.role(), controls);
}

/// Roles that tell nobody what a thing that takes the focus is. Scrolled panes hold something that says more.
bool is_vague(AtspiRole role) {
  static const std::vector<AtspiRole> vague{ATSPI_ROLE_INVALID, ATSPI_ROLE_UNKNOWN, ATSPI_ROLE_PANEL,
                                            ATSPI_ROLE_FILLER,  ATSPI_ROLE_FRAME,   ATSPI_ROLE_VIEWPORT};
  return one_of(role, vague);
}

bool is_drawn(AtspiRole role) { return one_of(role, {ATSPI_ROLE_CHART, ATSPI_ROLE_CANVAS}); }

/// A sentence says something in at least three words and ends.
bool is_sentence(const std::string& text) {
  return std::count(text.begin(), text.end(), ' ') >= 2 && (text.ends_with('.') || text.ends_with('!'));
}

/// What is on the screen below the window, tables not entered. Menus have cases of their own.
std::vector<Node> on_screen(const Node& top = window()) {
  std::vector<Node> shown = all_below(
      top, [](const Node& n) { return n.is(ATSPI_STATE_SHOWING) && !n.is_table() && n.role() != ATSPI_ROLE_MENU_BAR; });
  shown.erase(std::remove_if(shown.begin(), shown.end(), [](const Node& n) { return !n.is(ATSPI_STATE_SHOWING); }),
              shown.end());
  return shown;
}

/// Everything a screen reader would stumble over in what is on the screen.
std::vector<std::string> stumbles(const std::vector<Node>& shown) {
  std::vector<std::string> all;
  for (const Node& node : shown) {
    const AtspiRole role = node.role();
    const std::string who = node.role_name() + " \"" + node.name() + "\"";
    const bool focusable = node.is(ATSPI_STATE_FOCUSABLE);
    if (node.name().empty() && (focusable || is_control(node)))
      all.push_back("a " + node.role_name() + " without a name, described as \"" + node.description() + "\"");
    if (focusable && is_vague(role)) all.push_back(who + " takes the focus and does not say what it is");
    if (is_drawn(role) && !focusable) all.push_back(who + " is not reached by keyboard");
    if (is_drawn(role) && !is_sentence(node.description()))
      all.push_back(who + " is drawn, and no sentence tells it: \"" + node.description() + "\"");
  }
  return all;
}

std::vector<std::string> places() {
  const auto list = find(window(), ATSPI_ROLE_TABLE, "Places");
  std::vector<std::string> names;
  if (list)
    for (const auto& row : list->cells()) names.push_back(row.front());
  return names;
}

/// Shows a place by its menu item, and waits until the list at the side says so.
void go_to(const std::string& place) {
  const auto item = find(window(), ATSPI_ROLE_MENU_ITEM, place);
  REQUIRE(item);
  REQUIRE(item->act());
  const auto names = places();
  const int row = static_cast<int>(std::find(names.begin(), names.end(), place) - names.begin());
  REQUIRE(until([&] {
    const auto list = find(window(), ATSPI_ROLE_TABLE, "Places");
    return list && list->row_chosen(row);
  }));
}

/// The stumbling blocks left once what is shown has been computed.
std::vector<std::string> stumbles_here(const Node& top = window()) {
  std::vector<std::string> left;
  until(
      [&] {
        left = stumbles(on_screen(top));
        return left.empty();
      },
      10);
  return left;
}

int count(AtspiRole role) {
  const auto shown = on_screen();
  return static_cast<int>(std::count_if(shown.begin(), shown.end(), [&](const Node& n) { return n.role() == role; }));
}

}  // namespace

TEST_CASE("every control of every place has a name and a role, every drawing a sentence") {
  const auto names = places();
  REQUIRE(names.size() >= 6);
  for (const std::string& place : names) {
    INFO(place);
    go_to(place);
    CHECK(stumbles_here() == std::vector<std::string>{});
    CHECK(on_screen().size() > 12);  // the place was there to be looked at
  }
}

TEST_CASE("the places show what they are for") {
  go_to("Make");
  CHECK(until([] { return count(ATSPI_ROLE_CANVAS) == 1; }));
  CHECK(count(ATSPI_ROLE_RADIO_BUTTON) >= 5);  // the questions
  go_to("Understand");
  CHECK(until([] { return count(ATSPI_ROLE_CHART) >= 1; }));
  go_to("History");
  CHECK(until([] { return count(ATSPI_ROLE_CHART) == 1; }));
  go_to("Measure");
  CHECK(until([] { return count(ATSPI_ROLE_CANVAS) == 1; }));
  CHECK(count(ATSPI_ROLE_TEXT) >= 1);  // the reading in hand
}

TEST_CASE("findings are read as text, numbers too") {
  go_to("Understand");
  const auto page = [](const char* name) { return find(window(), ATSPI_ROLE_DOCUMENT_TEXT, name); };
  CHECK(until([&] { return page("Findings") && page("Findings")->description().size() > 100; }));
  const auto numbers = find(window(), ATSPI_ROLE_MENU_ITEM, "Numbers");
  REQUIRE(numbers);
  REQUIRE(numbers->act());
  CHECK(until([&] { return page("Estimates") && page("Estimates")->is(ATSPI_STATE_SHOWING); }));
  CHECK(page("Estimates")->description().find("Scale along X") != std::string::npos);
  CHECK(stumbles_here() == std::vector<std::string>{});
}

TEST_CASE("the readings are read cell by cell") {
  go_to("Measure");
  const auto item = find(window(), ATSPI_ROLE_CHECK_MENU_ITEM, "All readings");
  REQUIRE(item);
  REQUIRE(item->act());
  const auto table = [] { return find(window(), ATSPI_ROLE_TABLE, "All readings"); };
  REQUIRE(until([&] { return table() && table()->is(ATSPI_STATE_SHOWING) && table()->cells().size() > 30; }));
  const auto cells = table()->cells();
  std::vector<std::string> titles;
  for (const Node& child : table()->children())
    if (child.role() == ATSPI_ROLE_TABLE_COLUMN_HEADER) titles.push_back(child.name());
  CHECK(titles == std::vector<std::string>{"place", "copy", "repeat", "read, mm", "drawn, mm", "remark"});
  // The frame coupon of the demo: a length of 100 mm along X, read within a millimetre of it.
  const auto x = std::find_if(cells.begin(), cells.end(), [](const auto& row) {
    return row.front().starts_with("X100") && row[4].starts_with("100");
  });
  REQUIRE(x != cells.end());
  REQUIRE(x->size() == 6);
  CHECK(std::stod((*x)[3]) == Approx(100).margin(1));
  CHECK(stumbles_here() == std::vector<std::string>{});
  REQUIRE(item->act());  // hidden again
}

TEST_CASE("every item of the menus has a name") {
  int items = 0;
  for (const Node& node : all_below(window(), [](const Node& n) {
         return one_of(n.role(), {ATSPI_ROLE_FRAME, ATSPI_ROLE_FILLER, ATSPI_ROLE_MENU_BAR, ATSPI_ROLE_MENU});
       })) {
    if (!one_of(node.role(),
                {ATSPI_ROLE_MENU, ATSPI_ROLE_MENU_ITEM, ATSPI_ROLE_CHECK_MENU_ITEM, ATSPI_ROLE_RADIO_MENU_ITEM}))
      continue;
    ++items;
    CHECK_FALSE(node.name().empty());
  }
  CHECK(items > 30);
}

TEST_CASE("the first start is three questions that can be read") {
  const Program program(nullptr);
  const Node top = program.window();
  CHECK(until([&] { return find(top, ATSPI_ROLE_PUSH_BUTTON, "Put it on the bench").has_value(); }));
  CHECK(stumbles_here(top) == std::vector<std::string>{});
}
