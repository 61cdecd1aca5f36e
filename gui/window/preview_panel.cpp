#include "window/preview_panel.hpp"

#include <wx/sizer.h>

#include "base/words.hpp"
#include "window/access.hpp"

namespace fitwright {

PreviewPanel::PreviewPanel(wxWindow* parent) : wxPanel(parent) {
  const Theme theme = theme_of(*this);
  SetBackgroundColour(theme.ground);
  heading_ = new wxStaticText(this, wxID_ANY, {});
  heading_->SetFont(theme.strong);
  notes_ = new wxStaticText(this, wxID_ANY, {});
  notes_->SetForegroundColour(theme.quiet);
  list_ =
      new wxDataViewListCtrl(this, wxID_ANY, wxDefaultPosition, FromDIP(wxSize(300, 120)), wxDV_SINGLE | wxBORDER_NONE);
  const auto column = [&](const char* title, const char* widest, wxAlignment align) {
    list_->AppendTextColumn(wx(title), wxDATAVIEW_CELL_INERT, GetTextExtent(wx(widest)).x + 5 * theme.space, align,
                            wxDATAVIEW_COL_RESIZABLE);
  };
  column(tr("from"), tr("row 100, column 2"), wxALIGN_LEFT);
  column(tr("value"), "1000.000", wxALIGN_RIGHT);
  column(tr("goes to"), tr("X100b of copy 2, 2nd reading"), wxALIGN_LEFT);
  column(tr("remark"), tr("\"x\" is not a reading; type what the caliper shows"), wxALIGN_LEFT);
  set_accessible(*list_, tr("What would be taken"));
  replace_ = new wxCheckBox(this, wxID_ANY, wx(tr("Replace readings that differ")));
  take_ = new wxButton(this, wxID_ANY, wx(tr("Take")));
  leave_ = new wxButton(this, wxID_ANY, wx(tr("&Leave it")));
  set_accessible(*leave_, tr("Leave it"));
  auto* buttons = new wxBoxSizer(wxHORIZONTAL);
  buttons->Add(take_, 0, wxRIGHT, 2 * theme.space);
  buttons->Add(leave_, 0, wxRIGHT, 4 * theme.space);
  buttons->Add(replace_, 0, wxALIGN_CENTRE_VERTICAL);
  auto* sizer = new wxBoxSizer(wxVERTICAL);
  sizer->Add(heading_, 0, wxEXPAND | wxALL, 3 * theme.space);
  sizer->Add(notes_, 0, wxEXPAND | wxLEFT | wxRIGHT | wxBOTTOM, 3 * theme.space);
  sizer->Add(list_, 1, wxEXPAND);
  sizer->Add(buttons, 0, wxALL, 3 * theme.space);
  SetSizer(sizer);
  take_->Bind(wxEVT_BUTTON, [this](wxCommandEvent&) {
    if (on_take) on_take(replace_->IsShown() && replace_->GetValue());
  });
  leave_->Bind(wxEVT_BUTTON, [this](wxCommandEvent&) {
    if (on_leave) on_leave();
  });
  Bind(wxEVT_CHAR_HOOK, [this](wxKeyEvent& event) {
    if (event.GetKeyCode() == WXK_ESCAPE && on_leave)
      on_leave();
    else
      event.Skip();
  });
  Bind(wxEVT_SIZE, [this, theme](wxSizeEvent& event) {
    event.Skip();
    heading_->SetLabel(wx(heading_text_));
    heading_->Wrap(GetClientSize().x - 6 * theme.space);
    notes_->SetLabel(wx(notes_text_));
    notes_->Wrap(GetClientSize().x - 6 * theme.space);
  });
}

void PreviewPanel::show(const PreviewRows& preview) {
  heading_text_ = preview.heading;
  notes_text_.clear();
  for (const std::string& note : preview.notes) notes_text_ += (notes_text_.empty() ? "" : "; ") + note;
  if (!notes_text_.empty()) notes_text_ = said("Left out on purpose: {}.", notes_text_);
  heading_->SetLabel(wx(heading_text_));
  notes_->SetLabel(wx(notes_text_));
  notes_->Show(!notes_text_.empty());
  list_->DeleteAllItems();
  for (const PreviewRow& row : preview.rows) {
    wxVector<wxVariant> cells;
    cells.push_back(wx(row.from));
    cells.push_back(wx(row.text));
    cells.push_back(wx(row.place));
    cells.push_back(wx(row.wrong ? "\u25c6 " + row.told : row.told));
    list_->AppendItem(cells);
  }
  take_->SetLabel(wx(preview.take.empty() ? tr("Take") : preview.take));
  take_->Enable(!preview.take.empty());
  set_accessible(*take_, preview.take.empty() ? tr("Take") : preview.take, preview.heading);
  replace_->Show(!preview.replace.empty());
  replace_->SetValue(false);
  replace_->SetLabel(wx(preview.replace));
  set_accessible(*replace_, preview.replace.empty() ? tr("Replace") : preview.replace);
  set_accessible(*this, tr("Preview"), preview.heading);
  Layout();
}

}  // namespace fitwright
