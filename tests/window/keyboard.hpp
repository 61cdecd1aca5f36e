#pragma once
// A keyboard on the virtual screen: keys go to the X server and come to the window that has the focus, as from a hand.
// Nothing here knows the window under test beyond what a person sees: names, labels and the focus.

#include <wx/window.h>

#include <string>

namespace window_test {

/// What is held down beside a key.
enum Held : unsigned { no_key = 0, shift_key = 1, ctrl_key = 2, alt_key = 4 };

/// Presses and releases a key by its X name ("Return", "Tab", "F2", "space"), `after_ms` after the one before; the
/// server keeps the time. Throws for a key that the keyboard does not have.
void press_key(const std::string& name, unsigned held = no_key, unsigned after_ms = 0);

/// Types letters, digits and marks of ASCII.
void type_text(const std::string& text);

/// What the focused control is called: its accessible name, else its label.
std::string focus_name();

/// Goes on by Tab (or by Shift and Tab) until the focus is on a control of that name. False when it comes round without.
bool tab_to(const std::string& name, bool backwards = false);

/// Where the last tab_to() went, for what is told when it does not arrive.
std::string tab_path();

/// In the focused field: all of it is replaced, and it is checked that the field holds the text.
bool type_over(const std::string& text);

/// Gives the keyboard to the window of another process once it is on the screen. False until then.
bool focus_window_of(int pid);

}  // namespace window_test
