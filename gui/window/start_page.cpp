#include "window/start_page.hpp"

#include <wx/sizer.h>

#include "base/words.hpp"
#include "window/access.hpp"
#include "window/form_panel.hpp"

namespace fitwright {
namespace {

constexpr int text_width_dip = 560;

}  // namespace

StartPage::StartPage(wxWindow* parent) : wxPanel(parent), theme_(theme_of(*parent)) {
  SetBackgroundColour(theme_.ground);
  const int s = theme_.space;
  auto* down = new wxBoxSizer(wxVERTICAL);
  title_ = words(this, tr("What is on your bench?"), theme_.large, theme_.text);
  lead_ = words(this, " ", theme_.body, theme_.quiet);
  down->Add(title_, 0, wxTOP, 2 * s);
  down->Add(lead_, 0, wxTOP, 2 * s);

  question(down, tr("1   What does your caliper show?"));
  auto* units = new wxBoxSizer(wxHORIZONTAL);
  mm_ = new wxRadioButton(this, wxID_ANY, wx(tr("&millimetres")), wxDefaultPosition, wxDefaultSize, wxRB_GROUP);
  inch_ = new wxRadioButton(this, wxID_ANY, wx(tr("&inches")));
  set_accessible(*mm_, tr("The caliper shows millimetres"));
  set_accessible(*inch_, tr("The caliper shows inches"));
  units->Add(mm_, 0, wxALIGN_CENTRE_VERTICAL | wxRIGHT, 4 * s);
  units->Add(inch_, 0, wxALIGN_CENTRE_VERTICAL | wxRIGHT, 6 * s);
  units->Add(words(this, tr("called"), theme_.body, theme_.quiet), 0, wxALIGN_CENTRE_VERTICAL | wxRIGHT, 2 * s);
  caliper_ = chosen(units, tr("Name of the caliper"), 24);
  down->Add(units, 0, wxTOP | wxLEFT, 2 * s);

  question(down, tr("2   Which printer?"));
  auto* printer = new wxBoxSizer(wxHORIZONTAL);
  printer_ = chosen(printer, tr("Name of the printer"), 24);
  printer->Add(words(this, tr("bed"), theme_.body, theme_.quiet), 0, wxALIGN_CENTRE_VERTICAL | wxRIGHT, 2 * s);
  bed_x_ = typed(printer, tr("Bed along X"), "bed_x");
  printer->Add(words(this, "\u00d7", theme_.body, theme_.quiet), 0, wxALIGN_CENTRE_VERTICAL | wxRIGHT, 2 * s);
  bed_y_ = typed(printer, tr("Bed along Y"), "bed_y");
  down->Add(printer, 0, wxTOP | wxLEFT, 2 * s);
  for (const char* field : {"bed_x", "bed_y"}) down->Add(notes_.at(field), 0, wxLEFT | wxTOP, 2 * s);

  question(down, tr("3   Which material?"));
  auto* material = new wxBoxSizer(wxHORIZONTAL);
  material_ = chosen(material, tr("Kind of material"), 18);
  material->Add(words(this, tr("spool"), theme_.body, theme_.quiet), 0, wxALIGN_CENTRE_VERTICAL | wxRIGHT, 2 * s);
  spool_ = chosen(material, tr("Name of the spool"), 24);
  down->Add(material, 0, wxTOP | wxLEFT, 2 * s);
  auto* layers = new wxBoxSizer(wxHORIZONTAL);
  layers->Add(words(this, tr("nozzle"), theme_.body, theme_.quiet), 0, wxALIGN_CENTRE_VERTICAL | wxRIGHT, 2 * s);
  nozzle_ = typed(layers, tr("Nozzle"), tr("nozzle"));
  layers->Add(words(this, tr("layers of"), theme_.body, theme_.quiet), 0, wxALIGN_CENTRE_VERTICAL | wxRIGHT, 2 * s);
  layer_ = typed(layers, tr("Layer height"), "layer");
  down->Add(layers, 0, wxTOP | wxLEFT, 2 * s);
  for (const char* field : {tr("nozzle"), "layer"}) down->Add(notes_.at(field), 0, wxLEFT | wxTOP, 2 * s);

  auto* buttons = new wxBoxSizer(wxHORIZONTAL);
  begin_ = new wxButton(this, wxID_ANY, wx(tr("&Put it on the bench")));
  demo_ = new wxButton(this, wxID_ANY, wx(tr("&Look around in the demo")));
  leave_ = new wxButton(this, wxID_ANY, wx(tr("&Back")));
  set_accessible(*begin_, tr("Put it on the bench"));
  set_accessible(*demo_, tr("Look around in the demo"));
  set_accessible(*leave_, tr("Back without a new setup"));
  for (wxButton* button : {begin_, demo_, leave_}) buttons->Add(button, 0, wxRIGHT, 3 * s);
  down->Add(buttons, 0, wxTOP | wxBOTTOM, 6 * s);
  SetSizer(down);

  const auto call = [](wxButton* button, std::function<void()>& what) {
    button->Bind(wxEVT_BUTTON, [&what](wxCommandEvent&) {
      if (what) what();
    });
  };
  call(begin_, on_begin);
  call(demo_, on_demo);
  call(leave_, on_leave);
  // Enter takes the answers as they stand, wherever the focus is, except on another button.
  Bind(wxEVT_CHAR_HOOK, [this](wxKeyEvent& event) {
    const bool enter = event.GetKeyCode() == WXK_RETURN || event.GetKeyCode() == WXK_NUMPAD_ENTER;
    if (!enter || demo_->HasFocus() || leave_->HasFocus() || !on_begin) return event.Skip();
    on_begin();
  });
}

void StartPage::question(wxSizer* down, const std::string& text) {
  down->Add(words(this, text, theme_.title, theme_.text), 0, wxTOP, 6 * theme_.space);
}

wxTextCtrl* StartPage::typed(wxSizer* row, const std::string& name, const std::string& field) {
  auto* control = new wxTextCtrl(this, wxID_ANY, {}, wxDefaultPosition, wxSize(GetCharWidth() * 11, -1));
  set_accessible(*control, name);
  row->Add(control, 0, wxALIGN_CENTRE_VERTICAL | wxRIGHT, 2 * theme_.space);
  notes_[field] = words(this, " ", theme_.body, theme_.warn);
  notes_[field]->Hide();
  control->Bind(wxEVT_KILL_FOCUS, [this](wxFocusEvent& event) {
    event.Skip();
    show_wrong(wrong_answers(answers()));
  });
  return control;
}

wxComboBox* StartPage::chosen(wxSizer* row, const std::string& name, int chars) {
  auto* control = new wxComboBox(this, wxID_ANY, {}, wxDefaultPosition, wxSize(GetCharWidth() * chars, -1));
  set_accessible(*control, name);
  row->Add(control, 0, wxALIGN_CENTRE_VERTICAL | wxRIGHT, 4 * theme_.space);
  return control;
}

void StartPage::ask(const SetupChoices& choices, bool inches) {
  const SetupAnswers usual;
  const int width = FromDIP(text_width_dip);
  reword(*title_, choices.first ? tr("What is on your bench?") : tr("A further setup"), width);
  reword(*lead_,
         choices.first
             ? tr("Three questions, so that every print is remembered with its printer and material. Leave what you "
                  "do not know as it stands; all of it can be changed later.")
             : tr("A setup is what a calibration is valid for: printer, spool, nozzle and layers. Choose what you "
                  "have, or type the name of what is new."),
         width);
  (inches ? inch_ : mm_)->SetValue(true);
  const auto fill = [](wxComboBox& box, const std::vector<std::string>& names, const std::string& value) {
    box.Clear();
    for (const std::string& name : names) box.Append(wx(name));
    box.SetValue(wx(value));
  };
  const auto newest = [](const std::vector<std::string>& names, const std::string& otherwise) {
    return names.empty() ? otherwise : names.back();
  };
  fill(*printer_, choices.printers, newest(choices.printers, usual.printer));
  fill(*material_, choices.materials, usual.material);
  fill(*spool_, choices.spools, {});
  spool_->SetHint(wx(tr("such as PLA slate, batch 14")));
  fill(*caliper_, choices.calipers, newest(choices.calipers, usual.caliper));
  bed_x_->ChangeValue(wx(usual.bed_x));
  bed_y_->ChangeValue(wx(usual.bed_y));
  nozzle_->ChangeValue(wx(usual.nozzle));
  layer_->ChangeValue(wx(usual.layer));
  demo_->Show(choices.first);
  leave_->Show(!choices.first);
  show_wrong({});
  Layout();
}

SetupAnswers StartPage::answers() const {
  SetupAnswers a;
  a.inches = inch_->GetValue();
  a.printer = utf8(printer_->GetValue());
  a.bed_x = utf8(bed_x_->GetValue());
  a.bed_y = utf8(bed_y_->GetValue());
  a.material = utf8(material_->GetValue());
  a.spool = utf8(spool_->GetValue());
  a.caliper = utf8(caliper_->GetValue());
  a.nozzle = utf8(nozzle_->GetValue());
  a.layer = utf8(layer_->GetValue());
  return a;
}

void StartPage::show_wrong(const std::map<std::string, std::string>& wrong) {
  for (auto& [field, note] : notes_) {
    const auto found = wrong.find(field);
    note->Show(found != wrong.end());
    if (found != wrong.end()) reword(*note, found->second, FromDIP(text_width_dip));
  }
  if (on_layout) on_layout();
}

std::string StartPage::beside(const std::string& field) const {
  const wxStaticText& note = *notes_.at(field);
  return note.IsShown() ? utf8(note.GetLabelText()) : std::string();
}

void StartPage::take_focus() { (inch_->GetValue() ? inch_ : mm_)->SetFocus(); }

}  // namespace fitwright
