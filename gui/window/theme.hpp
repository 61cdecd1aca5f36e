#pragma once
// Type, spacing and colours, all from what the desktop says: nothing here is in pixels of a certain screen.

#include <wx/colour.h>
#include <wx/font.h>
#include <wx/window.h>

#include <string>

#include "bench/palette.hpp"

namespace fitwright {

struct Theme {
  wxFont body, strong, title, large, huge;  ///< 1 : 1 : 1.25 : 1.6 : 2.5 of the system's size
  int space = 4;                            ///< four pixels times scale: distances are multiples of it
  wxColour ground, text, quiet, faint, accent, warn, good;
  wxColour raised;               ///< ground of every other feature in the table
  wxColour chosen, chosen_text;  ///< selection
  bool dark = false;

  [[nodiscard]] wxColour of(Ink ink) const;
};

/// The theme as `window` sees it now: its font, its display's scale, the desktop's colours.
Theme theme_of(const wxWindow& window);

wxString wx(const std::string& utf8);
std::string utf8(const wxString& text);

}  // namespace fitwright
