#pragma once
// Whether the display can be asked for OpenGL at all.

namespace fitwright {

/// Whether the display speaks X and its server has GLX. Asking wx itself on one that has not stops the program.
/// Elsewhere than on GTK always true: there it is safe to ask.
bool display_has_glx();

}  // namespace fitwright
