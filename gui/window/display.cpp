#include "window/display.hpp"

#include <wx/defs.h>

#if defined(__WXGTK__)
#include <gdk/gdk.h>

#include <cstdlib>
#endif

namespace fitwright {

bool display_found() {
#if defined(__WXGTK__)
  // The coupon in space is drawn through GLX, which Debian's window library knows on X11 only; a desktop of the other
  // kind has X11 beside it nearly always. Who chose a backend keeps it.
  const char* x11 = std::getenv("DISPLAY");
  if (x11 && *x11) setenv("GDK_BACKEND", "x11", 0);
  // Not gtk_init_check: it sets the locale, which the window library has to forbid first. This one stays open and is
  // used.
  return gdk_display_open(nullptr) != nullptr;
#else
  return true;
#endif
}

}  // namespace fitwright
