#include "window/life_panel.hpp"

#include <wx/sizer.h>

#include <utility>

#include "base/words.hpp"
#include "window/access.hpp"
#include "window/theme.hpp"

namespace fitwright {

LifePanel::LifePanel(wxWindow* parent) : wxPanel(parent) {
  const Theme theme = theme_of(*this);
  SetBackgroundColour(theme.ground);
  auto* sizer = new wxBoxSizer(wxVERTICAL);
  auto* first = new wxBoxSizer(wxHORIZONTAL);
  propose_ = button(first, tr("&Mark applied\u2026"),
                    tr("Mark these changes as applied: shows old and new values first"), [this] {
                      if (on_propose) on_propose();
                    });
  yes_ = button(first, tr("&Yes, they are set"), tr("The new values are set on the printer"), [this] {
    if (on_apply) on_apply();
  });
  no_ = button(first, tr("&Not yet"), tr("Nothing is marked as applied"), [this] { done_asking(); });
  sizer->Add(first, 0, wxLEFT | wxTOP | wxRIGHT, 4 * theme.space);
  words_ = new wxStaticText(this, wxID_ANY, {});
  sizer->Add(words_, 0, wxEXPAND | wxLEFT | wxTOP | wxRIGHT, 4 * theme.space);
  list_ = new wxDataViewListCtrl(this, wxID_ANY, wxDefaultPosition, wxDefaultSize, wxDV_SINGLE | wxBORDER_NONE);
  const int letter = GetTextExtent("0").x;
  list_->AppendTextColumn(wx(tr("Date")), wxDATAVIEW_CELL_INERT, 13 * letter);
  list_->AppendTextColumn(wx(tr("Standing")), wxDATAVIEW_CELL_INERT, 13 * letter);
  list_->AppendTextColumn(wx(tr("Correction")), wxDATAVIEW_CELL_INERT, 60 * letter);
  list_->AppendTextColumn(wx(tr("Reason")), wxDATAVIEW_CELL_INERT, 30 * letter);
  list_->SetMinSize({-1, 6 * (GetCharHeight() + 3 * theme.space)});
  set_accessible(*list_, tr("Corrections of this setup and where they stand"));
  sizer->Add(list_, 1, wxEXPAND | wxLEFT | wxTOP | wxRIGHT, 4 * theme.space);
  auto* second = new wxBoxSizer(wxHORIZONTAL);
  const auto with_chosen = [this](const std::function<void(const LifeRow&)>& act) {
    if (const LifeRow* row = chosen(); row && act) act(*row);
  };
  apply_ = button(second, tr("&Apply it\u2026"), tr("Apply the chosen proposed correction"),
                  [this, with_chosen] { with_chosen(on_apply_chosen); });
  prove_ = button(second, tr("&Prove it"), tr("Hold the copies printed since against what was foretold"),
                  [this, with_chosen] { with_chosen(on_prove); });
  withdraw_ = button(second, tr("&Withdraw it"), tr("Take the chosen correction back, for the reason beside"),
                     [this, with_chosen] { with_chosen(on_withdraw); });
  auto* label = new wxStaticText(this, wxID_ANY, wx(tr("because")));
  label->SetForegroundColour(theme.quiet);
  second->Add(label, 0, wxALIGN_CENTRE_VERTICAL | wxRIGHT, 2 * theme.space);
  reason_ = new wxTextCtrl(this, wxID_ANY);
  reason_->SetHint(wx(tr("in a few words")));
  reason_->SetMinSize({30 * letter, -1});
  set_accessible(*reason_, tr("Reason of the withdrawal"));
  second->Add(reason_, 0, wxALIGN_CENTRE_VERTICAL);
  sizer->Add(second, 0, wxALL, 4 * theme.space);
  SetSizer(sizer);
  list_->Bind(wxEVT_DATAVIEW_SELECTION_CHANGED, [this](wxDataViewEvent&) { enable(); });
  done_asking();
}

wxButton* LifePanel::button(wxSizer* row, const char* label, const char* said, std::function<void()> press) {
  auto* b = new wxButton(this, wxID_ANY, wxString::FromUTF8(label));
  set_accessible(*b, utf8(b->GetLabelText()), said);
  b->SetToolTip(wx(said));
  b->Bind(wxEVT_BUTTON, [press = std::move(press)](wxCommandEvent&) { press(); });
  row->Add(b, 0, wxALIGN_CENTRE_VERTICAL | wxRIGHT, 2 * theme_of(*this).space);
  return b;
}

void LifePanel::show(const std::vector<LifeRow>& rows) {
  const record::Id before = chosen() ? chosen()->correction : record::Id{};
  rows_ = rows;
  list_->DeleteAllItems();
  for (std::size_t i = 0; i < rows_.size(); ++i) {
    wxVector<wxVariant> cells;
    for (const std::string* text : {&rows_[i].when, &rows_[i].standing, &rows_[i].what, &rows_[i].why})
      cells.push_back(wx(*text));
    list_->AppendItem(cells);
    if (rows_[i].correction == before) list_->SelectRow(static_cast<unsigned>(i));
  }
  enable();
}

void LifePanel::ask(const Applying& applying) {
  std::vector<std::string> lines;
  for (const std::string& caution : applying.cautions) lines.push_back("\u25b2 " + caution);
  for (const auto* all : {&applying.knobs, &applying.commands, &applying.others})
    lines.insert(lines.end(), all->begin(), all->end());
  tell(lines);
  asked_ = applying;
  yes_->Show();
  no_->Show();
  propose_->Hide();
  Layout();
  GetParent()->Layout();
  no_->SetFocus();  // the careful answer is the one at hand
}

void LifePanel::tell(const std::vector<std::string>& lines) {
  done_asking();
  std::string text;
  for (const std::string& line : lines) text += (text.empty() ? "" : "\n") + line;
  words_->SetLabelText(wx(text));
  words_->Show(!text.empty());
  words_->Wrap(GetClientSize().x - 8 * theme_of(*this).space);
  set_accessible(*words_, tr("What is to be known before"), text);
  Layout();
  GetParent()->Layout();
}

void LifePanel::done_asking() {
  asked_.reset();
  yes_->Hide();
  no_->Hide();
  propose_->Show();
  words_->SetLabelText({});
  words_->Hide();
  enable();
  Layout();
  if (GetParent()) GetParent()->Layout();
}

const LifeRow* LifePanel::chosen() const {
  const int row = list_->GetSelectedRow();
  return row == wxNOT_FOUND || static_cast<std::size_t>(row) >= rows_.size() ? nullptr
                                                                             : &rows_[static_cast<std::size_t>(row)];
}

std::string LifePanel::reason() const { return utf8(reason_->GetValue()); }

void LifePanel::enable() {
  const LifeRow* row = chosen();
  apply_->Enable(row && row->can_apply);
  prove_->Enable(row && row->can_prove);
  withdraw_->Enable(row && row->can_withdraw);
}

}  // namespace fitwright
