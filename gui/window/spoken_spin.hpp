#pragma once
// A field for a number with buttons to step it, in the user's numbers.

#include <wx/spinctrl.h>

namespace fitwright {

/// Shows the number with the decimal sign of the chosen language, and takes what is typed with either sign. The toolkit
/// itself goes by the locale of the process, which has '.' (see speak_chosen_language).
void speak_number(wxSpinCtrlDouble& field);

}  // namespace fitwright
