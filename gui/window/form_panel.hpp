#pragma once
// Fields to type into, each with its name before it and what is said of it beside it; kept when the field is left.

#include <wx/panel.h>
#include <wx/scrolwin.h>
#include <wx/sizer.h>
#include <wx/stattext.h>
#include <wx/textctrl.h>

#include <functional>
#include <map>
#include <string>

#include "bench/form.hpp"
#include "window/theme.hpp"

namespace fitwright {

/// Fields by their keys, wherever they stand in a window.
class FieldSet {
 public:
  /// A field was left, or Enter pressed, with another text than before. Gives what is wrong with it, or nothing.
  std::function<std::string(const std::string& key, const std::string& typed)> on_typed;

  /// What stands beside a field takes more or less room now.
  std::function<void()> on_layout;

  /// Makes a field; `said` is its name for the screen reader. `note` shows what is wrong; may be null.
  wxTextCtrl* add(wxWindow* parent, const FormField& field, const std::string& said, int width, wxStaticText* note);
  [[nodiscard]] bool has(const std::string& key) const { return fields_.contains(key); }
  wxTextCtrl& field(const std::string& key) { return *fields_.at(key).control; }
  /// What is said beside a field now.
  [[nodiscard]] std::string beside(const std::string& key) const;
  /// What stands in a field as kept; one that holds something wrong, or is being typed in, keeps its text unless
  /// `force`.
  void show(const FormField& field, bool force = false);
  /// What is wrong with a field; empty: nothing.
  void show_wrong(const std::string& key, const std::string& wrong);
  /// Takes back what is being typed in the field with the focus; false when nothing is.
  bool take_back_typing();

 private:
  struct Held {
    wxTextCtrl* control = nullptr;
    wxStaticText* note = nullptr;
    std::string kept, usual_note, wrong;
  };
  void take(const std::string& key);
  void say(Held& held);

  std::map<std::string, Held> fields_;
};

/// A form in two columns: names, and fields with their notes.
class FormPanel : public wxPanel {
 public:
  explicit FormPanel(wxWindow* parent, const std::string& name = {}, bool notes_below = false);

  /// Shows a form; its fields are made when they are others than before. `force` also where something wrong stands.
  void show(const Form& form, bool force = false);
  FieldSet& fields() { return fields_; }

 private:
  std::string name_, made_for_;
  bool notes_below_;
  FieldSet fields_;
  wxFlexGridSizer* grid_ = nullptr;
};

/// Scrolls so that what gets the focus is seen, however deep it stands in the window.
void follow_focus(wxScrolledWindow& scrolled);

/// Words in a window, in a font and a colour of the theme, broken at `width` pixels (0: not).
wxStaticText* words(wxWindow* parent, const std::string& text, const wxFont& font, const wxColour& colour,
                    int width = 0);
/// Other words in their place, broken the same way.
void reword(wxStaticText& label, const std::string& text, int width);
/// Sentences one below the other.
std::string in_lines(const std::vector<std::string>& sentences);

}  // namespace fitwright
