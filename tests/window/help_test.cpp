// The guide at each place, the sheet of keys, and what the program is made of.

#include <catch2/catch.hpp>
#include <sstream>

#include "base/file.hpp"
#include "bench/guide.hpp"
#include "window/about.hpp"
#include "window/actions.hpp"
#include "window/bench.hpp"
#include "window/guide_window.hpp"

using namespace fitwright;
using namespace window_test;

namespace {

/// A key as the window gets it before anything in it does.
void press(wxWindow& window, int code, wxChar letter = 0) {
  wxKeyEvent key(wxEVT_CHAR_HOOK);
  key.m_keyCode = code;
  key.m_uniChar = letter;
  key.SetEventObject(&window);
  window.GetEventHandler()->ProcessEvent(key);
}

}  // namespace

TEST_CASE("F1 opens the page of the place", "[help]") {
  Frame& frame = fresh_frame();
  REQUIRE_FALSE(guide_folder().empty());
  for (const Stage place : all_places()) {
    INFO(name_of(place));
    frame.go_to(place);
    choose(frame, act_guide);
    GuideWindow& guide = frame.open_guide(guide_page_of(place));
    CHECK(guide.page() == guide_page_of(place));
    CHECK(guide.text().ToText().length() > 500);
    CHECK(guide.GetTitle().Contains(wx(page_title(read_whole(guide_folder() + "/" + guide_page_of(place)).value()))));
  }
  choose(frame, act_guide_contents);
  CHECK(frame.open_guide(guide_contents()).page() == guide_contents());
}

TEST_CASE("the guide goes back, says what it lacks and closes by Esc", "[help]") {
  Frame& frame = fresh_frame();
  GuideWindow& guide = frame.open_guide("measure.md");
  guide.show("correct.md");
  press(guide, WXK_BACK);
  CHECK(guide.page() == "measure.md");
  CHECK_FALSE(guide.show("nowhere.md"));
  CHECK(guide.text().ToText().Contains("docs/guide"));
  const wxWeakRef<GuideWindow> open(&guide);
  press(guide, WXK_ESCAPE);
  CHECK(pump_until([&] { return !open; }));
}

TEST_CASE("? shows the keys, but not where it is a letter", "[help]") {
  Frame& frame = fresh_frame();
  frame.go_to(Stage::understand);
  frame.understanding().tabs().SetFocus();
  pump();
  const Dialogs dialogs(wxID_CLOSE);
  press(frame, '/', '?');
  CHECK(dialogs.count() == 1);
  press(frame, '/', '/');
  CHECK(dialogs.count() == 1);
}

TEST_CASE("the keys are those of the actions and of the places", "[help]") {
  const std::string sheet = sheet_of_keys();
  for (const Action& action : actions())
    if (*action.keys) CHECK(sheet.find(std::string(action.keys) + "\t" + action.help) != std::string::npos);
  CHECK(sheet.find("Backspace\t") != std::string::npos);
}

TEST_CASE("About tells version, licence and every library with its own", "[help]") {
  const TableShown about = about_table();
  CHECK(about.heading == std::string("Fitwright ") + FITWRIGHT_VERSION);
  CHECK(about.intro.find("MIT") != std::string::npos);
  CHECK(about.rows.size() >= 15);
  for (const auto& row : about.rows) {
    INFO(row.front());
    REQUIRE(row.size() == about.columns.size());
    for (const std::string& cell : row) CHECK_FALSE(cell.empty());
    CHECK(row[1].find_first_of("0123456789") == 0);
  }
  Frame& frame = fresh_frame();
  const Dialogs dialogs(wxID_CLOSE);
  choose(frame, act_about);
  CHECK(dialogs.text().find("MIT licence") != std::string::npos);
}
