#pragma once
// Names for screen readers.

#include <string>

class wxWindow;

namespace fitwright {

/// Sets the accessible name and description of a window, for screen readers. wx 3.2 on GTK does not pass SetName on,
/// so it goes to ATK directly; without ATK it does nothing. SetName gets the name too: tests find windows by it.
void set_accessible(wxWindow& window, const std::string& name, const std::string& description = {});

}  // namespace fitwright
