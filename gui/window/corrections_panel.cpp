#include "window/corrections_panel.hpp"

#include <wx/sizer.h>
#include <wx/stattext.h>

#include "base/words.hpp"
#include "window/access.hpp"

namespace fitwright {

CorrectionsPanel::CorrectionsPanel(wxWindow* parent)
    : wxPanel(parent, wxID_ANY, wxDefaultPosition, parent->FromDIP(wxSize(600, 300))) {
  const Theme theme = theme_of(*this);
  SetBackgroundColour(theme.ground);
  choice_ = new wxChoice(this, wxID_ANY);
  set_accessible(*choice_, tr("Policy"), tr("What may be changed to correct a scale error"));
  page_ = new CorrectionsPage(this);
  auto* row = new wxBoxSizer(wxHORIZONTAL);
  auto* label = new wxStaticText(this, wxID_ANY, wx(tr("&Policy")));
  label->SetForegroundColour(theme.quiet);
  row->Add(label, 0, wxALIGN_CENTRE_VERTICAL | wxRIGHT, 2 * theme.space);
  row->Add(choice_, 0, wxALIGN_CENTRE_VERTICAL);
  auto* sizer = new wxBoxSizer(wxVERTICAL);
  sizer->Add(row, 0, wxEXPAND | wxLEFT | wxRIGHT | wxTOP, 4 * theme.space);
  sizer->Add(page_, 1, wxEXPAND);
  SetSizer(sizer);
  choice_->Bind(wxEVT_CHOICE, [this](wxCommandEvent& event) {
    const auto index = static_cast<std::size_t>(event.GetSelection());
    if (on_policy && index < choices_.size()) on_policy(choices_[index].policy);
  });
}

void CorrectionsPanel::show(const CorrectionsView& view) {
  if (choice_->GetCount() != view.choices.size()) {
    choice_->Clear();
    for (const PolicyChoice& choice : view.choices) choice_->Append(wx(choice.title));
    choice_->GetParent()->Layout();
  }
  choices_ = view.choices;
  choice_->SetSelection(static_cast<int>(view.chosen));
  page_->show(view);
}

}  // namespace fitwright
