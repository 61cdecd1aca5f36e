#include "window/display.hpp"

#include <wx/defs.h>

#if defined(__WXGTK__)
#include <gdk/gdk.h>
#endif

namespace fitwright {

bool display_found() {
#if defined(__WXGTK__)
  // Not gtk_init_check: it sets the locale, which the window library has to forbid first. This one stays open and is
  // used.
  return gdk_display_open(nullptr) != nullptr;
#else
  return true;
#endif
}

}  // namespace fitwright
