#include "window/access.hpp"

#include <wx/window.h>

#if defined(__WXGTK__)
#include <atk/atk.h>
#include <gtk/gtk.h>
#endif

#include "window/theme.hpp"

namespace fitwright {
namespace {

#if defined(__WXGTK__)
AtkRole atk_role(Role role) {
  switch (role) {
    case Role::text:
      return ATK_ROLE_DOCUMENT_TEXT;
    case Role::plot:
      return ATK_ROLE_CHART;
    case Role::picture:
      return ATK_ROLE_CANVAS;
    case Role::heading:
      return ATK_ROLE_HEADER;
    case Role::own:
      break;
  }
  return ATK_ROLE_INVALID;
}

void tell(GtkWidget* widget, const std::string& name, const std::string& description, Role role) {
  AtkObject* object = gtk_widget_get_accessible(widget);
  if (!object) return;
  atk_object_set_name(object, name.c_str());
  if (!description.empty()) atk_object_set_description(object, description.c_str());
  if (role != Role::own) atk_object_set_role(object, atk_role(role));
}
#endif

}  // namespace

void set_accessible(wxWindow& window, const std::string& name, const std::string& description, Role role) {
  window.SetName(wx(name));
#if defined(__WXGTK__)
  auto* outer = static_cast<GtkWidget*>(window.GetHandle());
  // An event box holds a bar of tools.
  const bool in_two_parts = GTK_IS_SCROLLED_WINDOW(outer) || GTK_IS_EVENT_BOX(outer) ||
                            (GTK_IS_COMBO_BOX(outer) && gtk_combo_box_get_has_entry(GTK_COMBO_BOX(outer)));
  GtkWidget* inner = in_two_parts ? gtk_bin_get_child(GTK_BIN(outer)) : nullptr;
  tell(outer, name, description, inner ? Role::own : role);
  if (inner) tell(inner, name, description, role);
#else
  (void)description;
  (void)role;
#endif
}

}  // namespace fitwright
