#include "window/gl_display.hpp"

#include <wx/defs.h>

#if defined(__WXGTK__)
#include <gdk/gdk.h>
#if defined(GDK_WINDOWING_X11)
#include <GL/glx.h>
#include <gdk/gdkx.h>
#endif
#endif

namespace fitwright {

bool display_has_glx() {
#if defined(__WXGTK__) && defined(GDK_WINDOWING_X11)
  GdkDisplay* display = gdk_display_get_default();
  if (!display || !GDK_IS_X11_DISPLAY(display)) return false;
  int error = 0, event = 0;
  return glXQueryExtension(gdk_x11_display_get_xdisplay(display), &error, &event) != 0;
#else
  return true;
#endif
}

}  // namespace fitwright
