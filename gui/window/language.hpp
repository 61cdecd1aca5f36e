#pragma once
// The language of the window's texts: the one chosen in the menu, else the desktop's, where there is a catalogue of it.

#include <wx/menu.h>

#include <string>

namespace fitwright {

/// What the user chose, as the configuration keeps it: empty (as the desktop), "en", "de".
std::string chosen_language();

/// The language to speak for a choice and an environment (LANGUAGE, LC_ALL, LC_MESSAGES, LANG): "en" or "de".
std::string language_for(const std::string& choice);

/// Takes the language and the decimal sign for all texts from now on. Called once, when the configuration can be read
/// and before a second thread starts. Without a catalogue the texts are English. Numbers that the libraries read and
/// write have '.' from then on.
void speak_chosen_language();

/// Menu of the languages, each named in itself. `first_id` is the id of "as the desktop"; the others follow.
wxMenu* language_menu(int first_id);
/// Keeps the choice made in that menu; it counts from the next start. The sentence that says so.
std::string choose_language(int index);

}  // namespace fitwright
