// Which language the window speaks.

#include "window/language.hpp"

#include <wx/config.h>
#include <wx/menu.h>

#include <catch2/catch.hpp>
#include <clocale>
#include <cstdlib>
#include <memory>
#include <string>

#include "window/bench.hpp"
#include "window/theme.hpp"

using namespace fitwright;

namespace {

/// The environment of a desktop while it lives; the tests' own afterwards.
struct Desktop {
  Desktop(const char* locale, const char* languages) {
    setenv("LC_ALL", locale, 1);
    setenv("LANGUAGE", languages, 1);
  }
  ~Desktop() {
    setenv("LC_ALL", "C.UTF-8", 1);
    unsetenv("LANGUAGE");
  }
};

}  // namespace

TEST_CASE("the language is the chosen one, else the first of the desktop's that there is", "[language]") {
  {
    const Desktop german("de_DE.UTF-8", "");
    CHECK(language_for("") == "de");
    CHECK(language_for("en") == "en");
  }
  {
    const Desktop several("fr_FR.UTF-8", "fr:de_AT:en");
    CHECK(language_for("") == "de");
  }
  {
    const Desktop unknown("fr_FR.UTF-8", "");
    CHECK(language_for("") == "en");
  }
  {
    const Desktop none("C", "de");  // as gettext does: without a locale there are no languages
    CHECK(language_for("") == "en");
    CHECK(language_for("de") == "de");
  }
}

TEST_CASE("the language chosen in the menu is kept, and told to count from the next start", "[language]") {
  window_test::fresh_frame();
  REQUIRE(chosen_language().empty());
  CHECK_FALSE(choose_language(2).empty());
  CHECK(chosen_language() == "de");
  const std::unique_ptr<wxMenu> menu(language_menu(wxID_HIGHEST + 500));
  REQUIRE(menu->GetMenuItemCount() == 3);
  CHECK(menu->IsChecked(wxID_HIGHEST + 502));
  CHECK(utf8(menu->GetLabelText(wxID_HIGHEST + 502)) == "Deutsch");
  choose_language(0);
  CHECK(chosen_language().empty());
}

TEST_CASE("libraries read and write numbers with a point, whatever the desktop's locale", "[language]") {
  window_test::fresh_frame();
  CHECK(std::string(std::setlocale(LC_NUMERIC, nullptr)) == "C");
}
