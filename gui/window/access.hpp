#pragma once
// Names and roles for screen readers.

#include <string>

class wxWindow;

namespace fitwright {

/// What a window that we paint ourselves is to a screen reader. A native control knows its own role.
enum class Role { own, text, plot, picture, heading };

/// Sets the accessible name and description of a window, for screen readers. wx 3.2 on GTK does not pass SetName on,
/// so it goes to ATK directly; without ATK it does nothing. SetName gets the name too: tests find windows by it.
/// What scrolls, and a list that can be typed into, has an outer part and an inner one that takes the focus: both get
/// the name.
void set_accessible(wxWindow& window, const std::string& name, const std::string& description = {},
                    Role role = Role::own);

}  // namespace fitwright
