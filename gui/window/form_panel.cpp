#include "window/form_panel.hpp"

#include <algorithm>
#include <utility>

#include "window/access.hpp"

namespace fitwright {
namespace {

constexpr int note_width_dip = 320;
constexpr int narrow_note_dip = 205;
constexpr int field_chars = 16, wide_field_chars = 36;
constexpr int narrow_label_chars = 16, label_chars = 20;  // all forms of a page stand in line

}  // namespace

wxStaticText* words(wxWindow* parent, const std::string& text, const wxFont& font, const wxColour& colour, int width) {
  auto* label = new wxStaticText(parent, wxID_ANY, wx(text));
  label->SetFont(font);
  label->SetForegroundColour(colour);
  if (width > 0) label->Wrap(width);
  return label;
}

void reword(wxStaticText& label, const std::string& text, int width) {
  label.SetLabelText(wx(text));
  if (width > 0) label.Wrap(width);
}

std::string in_lines(const std::vector<std::string>& sentences) {
  std::string text;
  for (const std::string& s : sentences) text += (text.empty() ? "" : "\n") + s;
  return text;
}

void follow_focus(wxScrolledWindow& scrolled) {
  scrolled.Bind(wxEVT_CHILD_FOCUS, [&scrolled](wxChildFocusEvent& event) {
    event.Skip();
    const wxWindow* focus = wxWindow::FindFocus();
    if (!focus || !scrolled.IsDescendant(const_cast<wxWindow*>(focus))) return;
    int unit = 0, from = 0;
    scrolled.GetScrollPixelsPerUnit(nullptr, &unit);
    scrolled.GetViewStart(nullptr, &from);
    if (unit <= 0) return;
    const int top = focus->GetScreenPosition().y - scrolled.GetScreenPosition().y;
    const int below = top + focus->GetSize().y - scrolled.GetClientSize().y;
    if (top < 0)
      scrolled.Scroll(-1, std::max(0, from + top / unit - 2));
    else if (below > 0)
      scrolled.Scroll(-1, from + below / unit + 2);
  });
}

wxTextCtrl* FieldSet::add(wxWindow* parent, const FormField& field, const std::string& said, int width,
                          wxStaticText* note) {
  auto* control =
      new wxTextCtrl(parent, wxID_ANY, wx(field.value), wxDefaultPosition, wxSize(width, -1), wxTE_PROCESS_ENTER);
  if (!field.hint.empty()) control->SetHint(wx(field.hint));
  set_accessible(*control, said, field.note);
  fields_[field.key] = {control, note, field.value, field.note, {}};
  const std::string key = field.key;
  control->Bind(wxEVT_KILL_FOCUS, [this, key](wxFocusEvent& event) {
    event.Skip();
    take(key);
  });
  control->Bind(wxEVT_TEXT_ENTER, [this, key, control](wxCommandEvent&) {
    take(key);
    if (fields_.at(key).wrong.empty()) control->Navigate();
  });
  control->Bind(wxEVT_CHAR_HOOK, [this, key](wxKeyEvent& event) {
    if (event.GetKeyCode() != WXK_ESCAPE || !take_back_typing()) event.Skip();
  });
  return control;
}

std::string FieldSet::beside(const std::string& key) const {
  const Held& held = fields_.at(key);
  return held.wrong.empty() ? held.usual_note : held.wrong;
}

void FieldSet::show(const FormField& field, bool force) {
  Held& held = fields_.at(field.key);
  const bool busy = !held.wrong.empty() || (held.control->HasFocus() && utf8(held.control->GetValue()) != held.kept);
  if (busy && !force) return;
  held.kept = field.value;
  held.usual_note = field.note;
  held.wrong.clear();
  if (utf8(held.control->GetValue()) != field.value) held.control->ChangeValue(wx(field.value));
  say(held);
}

void FieldSet::show_wrong(const std::string& key, const std::string& wrong) {
  Held& held = fields_.at(key);
  if (held.wrong == wrong) return;
  held.wrong = wrong;
  say(held);
}

void FieldSet::say(Held& held) {
  const Theme theme = theme_of(*held.control);
  const std::string text = held.wrong.empty() ? held.usual_note : held.wrong;
  held.control->SetForegroundColour(held.wrong.empty() ? theme.text : theme.warn);
  set_accessible(*held.control, utf8(held.control->GetName()), text.empty() ? " " : text);
  if (!held.note) return;
  held.note->SetForegroundColour(held.wrong.empty() ? theme.quiet : theme.warn);
  const bool below = held.note->GetParent()->GetName() == "notes below";
  reword(*held.note, text, held.note->FromDIP(below ? narrow_note_dip : note_width_dip));
  held.note->Show(!text.empty() || !below);
  if (on_layout) on_layout();
}

bool FieldSet::take_back_typing() {
  for (auto& [key, held] : fields_) {
    if (!held.control->HasFocus() || utf8(held.control->GetValue()) == held.kept) continue;
    held.control->ChangeValue(wx(held.kept));
    held.control->SelectAll();
    held.wrong.clear();
    say(held);
    return true;
  }
  return false;
}

void FieldSet::take(const std::string& key) {
  Held& held = fields_.at(key);
  const std::string typed = utf8(held.control->GetValue());
  if (!on_typed || (typed == held.kept && held.wrong.empty())) return;
  const std::string before = std::exchange(held.kept, typed);
  const bool was_wrong = !held.wrong.empty();
  held.wrong.clear();  // what is kept is shown at once, in its own spelling
  const std::string wrong = on_typed(key, typed);
  Held& now = fields_.at(key);
  if (!wrong.empty()) {
    now.kept = before;
    show_wrong(key, wrong);
  } else if (was_wrong) {
    say(now);
  }
}

FormPanel::FormPanel(wxWindow* parent, const std::string& name, bool notes_below)
    : wxPanel(parent), name_(name), notes_below_(notes_below) {
  SetBackgroundColour(theme_of(*this).ground);
  if (notes_below_) SetName("notes below");
}

void FormPanel::show(const Form& form, bool force) {
  const Theme theme = theme_of(*this);
  std::string made_for;
  for (const FormField& field : form.fields) made_for += field.key + "\n";
  if (made_for != made_for_) {
    made_for_ = made_for;
    DestroyChildren();
    const auto on_typed = fields_.on_typed;
    const auto on_layout = fields_.on_layout;
    fields_ = {};
    fields_.on_typed = on_typed;
    fields_.on_layout = on_layout;
    grid_ = new wxFlexGridSizer(2, wxSize(3 * theme.space, 2 * theme.space));
    for (const FormField& field : form.fields) {
      auto* label = words(this, field.label, theme.body, theme.text);
      label->SetMinSize({GetCharWidth() * (notes_below_ ? narrow_label_chars : label_chars), -1});
      grid_->Add(label, 0, notes_below_ ? static_cast<int>(wxTOP) : static_cast<int>(wxALIGN_CENTRE_VERTICAL),
                 theme.space);
      auto* note =
          words(this, field.note, theme.body, theme.quiet, FromDIP(notes_below_ ? narrow_note_dip : note_width_dip));
      const std::string said = name_.empty() ? field.label : name_ + ": " + field.label;
      wxTextCtrl* control =
          fields_.add(this, field, said, GetCharWidth() * (field.words ? wide_field_chars : field_chars), note);
      if (notes_below_) {
        auto* column = new wxBoxSizer(wxVERTICAL);
        column->Add(control);
        column->Add(note, 0, wxTOP, theme.space / 2);
        note->Show(!field.note.empty());
        note->MoveAfterInTabOrder(control);
        grid_->Add(column);
      } else {
        auto* across = new wxBoxSizer(wxHORIZONTAL);
        across->Add(control, 0, wxALIGN_CENTRE_VERTICAL | wxRIGHT, 3 * theme.space);
        across->Add(note, 0, wxALIGN_CENTRE_VERTICAL);
        grid_->Add(across);
      }
    }
    SetSizer(grid_);
    force = true;
  }
  for (const FormField& field : form.fields) fields_.show(field, force);
  Layout();
}

}  // namespace fitwright
