#include "window/access.hpp"

#include <wx/window.h>

#if defined(__WXGTK__)
#include <atk/atk.h>
#include <gtk/gtk.h>
#endif

#include "window/theme.hpp"

namespace fitwright {

void set_accessible(wxWindow& window, const std::string& name, const std::string& description) {
  window.SetName(wx(name));
#if defined(__WXGTK__)
  AtkObject* object = gtk_widget_get_accessible(static_cast<GtkWidget*>(window.GetHandle()));
  if (!object) return;
  atk_object_set_name(object, name.c_str());
  if (!description.empty()) atk_object_set_description(object, description.c_str());
#else
  (void)description;
#endif
}

}  // namespace fitwright
