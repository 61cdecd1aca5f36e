#pragma once
// A few questions, and a setup is on the bench: the first start, and every further setup. Each answer can be left as it
// stands.

#include <wx/button.h>
#include <wx/combobox.h>
#include <wx/panel.h>
#include <wx/radiobut.h>
#include <wx/stattext.h>
#include <wx/textctrl.h>

#include <functional>
#include <map>
#include <string>

#include "bench/first_start.hpp"
#include "window/theme.hpp"

namespace fitwright {

class StartPage : public wxPanel {
 public:
  explicit StartPage(wxWindow* parent);

  /// Asks anew, with what can be chosen from the record.
  void ask(const SetupChoices& choices, bool inches);
  [[nodiscard]] SetupAnswers answers() const;
  /// What is wrong, beside the fields, by their names.
  void show_wrong(const std::map<std::string, std::string>& wrong);
  void take_focus();
  /// What is said beside a field now; empty when nothing is wrong.
  [[nodiscard]] std::string beside(const std::string& field) const;

  std::function<void()> on_begin, on_demo, on_leave, on_layout;

 private:
  void question(wxSizer* down, const std::string& text);
  wxTextCtrl* typed(wxSizer* row, const std::string& name, const std::string& field);
  wxComboBox* chosen(wxSizer* row, const std::string& name, int chars);

  Theme theme_;
  wxStaticText* title_ = nullptr;
  wxStaticText* lead_ = nullptr;
  wxRadioButton *mm_ = nullptr, *inch_ = nullptr;
  wxComboBox *printer_ = nullptr, *material_ = nullptr, *spool_ = nullptr, *caliper_ = nullptr;
  wxTextCtrl *bed_x_ = nullptr, *bed_y_ = nullptr, *nozzle_ = nullptr, *layer_ = nullptr;
  wxButton *begin_ = nullptr, *demo_ = nullptr, *leave_ = nullptr;
  std::map<std::string, wxStaticText*> notes_;
};

}  // namespace fitwright
