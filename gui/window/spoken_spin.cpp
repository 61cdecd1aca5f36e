#include "window/spoken_spin.hpp"

#ifdef __WXGTK__
#include <gtk/gtk.h>
#endif

#include "base/number.hpp"
#include "base/words.hpp"

namespace fitwright {

#ifdef __WXGTK__
namespace {

gboolean show(GtkSpinButton* field, gpointer) {
  const std::string text =
      said_fixed(gtk_spin_button_get_value(field), static_cast<int>(gtk_spin_button_get_digits(field)));
  if (text != gtk_entry_get_text(GTK_ENTRY(field))) gtk_entry_set_text(GTK_ENTRY(field), text.c_str());
  return TRUE;
}

gint read(GtkSpinButton* field, gdouble* value, gpointer) {
  const std::string text = gtk_entry_get_text(GTK_ENTRY(field));
  const auto number = parse_number(text, text.find('.') == std::string::npos);
  if (!number) return GTK_INPUT_ERROR;
  *value = *number;
  return TRUE;
}

}  // namespace
#endif

void speak_number([[maybe_unused]] wxSpinCtrlDouble& field) {
#ifdef __WXGTK__
  auto* spin = GTK_SPIN_BUTTON(field.GetHandle());
  gtk_spin_button_set_numeric(spin, FALSE);  // it would keep out what is no digit of its own locale
  g_signal_connect(spin, "output", G_CALLBACK(show), nullptr);
  g_signal_connect(spin, "input", G_CALLBACK(read), nullptr);
  gtk_spin_button_update(spin);
#endif
}

}  // namespace fitwright
