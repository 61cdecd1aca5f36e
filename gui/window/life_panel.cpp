#include "window/life_panel.hpp"

#include <wx/sizer.h>

#include <initializer_list>
#include <utility>

#include "base/words.hpp"
#include "window/access.hpp"
#include "window/theme.hpp"

namespace fitwright {

namespace {

constexpr int plot_from_width_dip = 1000;  // narrower, the proof's figures stand in the words alone

}  // namespace

LifePage::LifePage(wxWindow* parent) : Page(parent, tr("The chosen correction")) {}

void LifePage::show(std::vector<std::string> strong, std::vector<std::string> lines) {
  strong_ = std::move(strong);
  lines_ = std::move(lines);
  changed();
}

void LifePage::lay(Sheet& s) {
  const Theme& t = s.theme();
  s.move_to(0);
  for (const std::string& line : strong_) {
    s.paragraph(line, t.body, t.text, s.margin(), s.width() - s.margin());
    s.skip(1);
  }
  for (const std::string& line : lines_) {
    s.skip(1);
    s.paragraph(line, t.body, t.quiet, s.margin(), s.width() - s.margin());
  }
}

std::string LifePage::as_text() const {
  std::string text;
  for (const auto* all : {&strong_, &lines_})
    for (const std::string& line : *all) text += line + "\n";
  return text;
}

LifePanel::LifePanel(wxWindow* parent) : wxPanel(parent) {
  const Theme theme = theme_of(*this);
  SetBackgroundColour(theme.ground);
  auto* sizer = new wxBoxSizer(wxVERTICAL);
  words_ = new wxStaticText(this, wxID_ANY, {});
  sizer->Add(words_, 0, wxEXPAND | wxLEFT | wxTOP | wxRIGHT, 4 * theme.space);
  auto* first = new wxBoxSizer(wxHORIZONTAL);
  yes_ = button(first, tr("&Yes, they are set"), tr("The new values are set on the printer"), [this] {
    if (on_apply) on_apply();
  });
  no_ = button(first, tr("&Not yet"), tr("Nothing is marked as applied"), [this] { done_asking(); });
  sizer->Add(first, 0, wxLEFT | wxTOP | wxRIGHT, 3 * theme.space);
  auto* all = new wxBoxSizer(wxHORIZONTAL);
  list_ = new wxDataViewListCtrl(this, wxID_ANY, wxDefaultPosition, wxDefaultSize, wxDV_SINGLE | wxBORDER_NONE);
  const int letter = GetTextExtent("0").x;
  list_->AppendTextColumn(wx(tr("Date")), wxDATAVIEW_CELL_INERT, 12 * letter);
  list_->AppendTextColumn(wx(tr("Standing")), wxDATAVIEW_CELL_INERT, 11 * letter);
  list_->AppendTextColumn(wx(tr("Correction")), wxDATAVIEW_CELL_INERT, 36 * letter);
  list_->SetMinSize({59 * letter, 4 * (GetCharHeight() + 3 * theme.space)});
  set_accessible(*list_, tr("Corrections of this setup and where they stand"));
  page_ = new LifePage(this);
  page_->SetMinSize({30 * letter, -1});
  proof_ = new PlotPanel(this, tr("Foretold and measured"));
  proof_->SetMinSize({30 * letter, 8 * GetCharHeight()});
  all->Add(list_, 4, wxEXPAND);
  all->Add(page_, 3, wxEXPAND);
  all->Add(proof_, 3, wxEXPAND);
  sizer->Add(all, 1, wxEXPAND | wxLEFT | wxTOP, 3 * theme.space);
  auto* second = new wxBoxSizer(wxHORIZONTAL);
  const auto with_chosen = [this](const std::function<void(const LifeRow&)>& act) {
    if (const LifeRow* row = chosen(); row && act) act(*row);
  };
  propose_ = button(second, tr("&Mark applied\u2026"),
                    tr("Mark these changes as applied: shows old and new values first"), [this] {
                      if (on_propose) on_propose();
                    });
  apply_ = button(second, tr("&Apply it\u2026"), tr("Apply the chosen proposed correction"),
                  [this, with_chosen] { with_chosen(on_apply_chosen); });
  prove_ = button(second, tr("Pro&ve it"), tr("Hold the copies printed since against what was foretold"),
                  [this, with_chosen] { with_chosen(on_prove); });
  withdraw_ = button(second, tr("&Withdraw it"), tr("Take the chosen correction back, for the reason beside"),
                     [this, with_chosen] { with_chosen(on_withdraw); });
  because_ = new wxStaticText(this, wxID_ANY, wx(tr("because")));
  because_->SetForegroundColour(theme.quiet);
  second->Add(because_, 0, wxALIGN_CENTRE_VERTICAL | wxRIGHT, 2 * theme.space);
  reason_ = new wxTextCtrl(this, wxID_ANY);
  reason_->SetHint(wx(tr("in a few words")));
  reason_->SetMinSize({24 * letter, -1});
  set_accessible(*reason_, tr("Reason of the withdrawal"));
  second->Add(reason_, 1, wxALIGN_CENTRE_VERTICAL);
  sizer->Add(second, 0, wxEXPAND | wxALL, 3 * theme.space);
  SetSizer(sizer);
  list_->Bind(wxEVT_DATAVIEW_SELECTION_CHANGED, [this](wxDataViewEvent&) {
    enable();
    show_chosen();
  });
  Bind(wxEVT_SIZE, [this](wxSizeEvent& event) {
    event.Skip();
    arrange();
  });
  done_asking();
}

/// The question has the place to itself; the plot needs room to be read.
void LifePanel::arrange() {
  const bool list = !asked_;
  for (wxWindow* window : std::initializer_list<wxWindow*>{propose_, apply_, prove_, withdraw_, because_, reason_})
    window->Show(list);
  list_->Show(list);
  page_->Show(list);
  proof_->Show(list && chosen() && GetClientSize().x >= FromDIP(plot_from_width_dip));
  Layout();
}

void LifePanel::show_chosen() {
  const LifeRow* row = chosen();
  if (!row) {
    page_->show({}, {rows_.empty() ? tr("Corrections of this setup will stand here once one is marked as applied.")
                                   : tr("Choose a correction to see all of it.")});
    proof_->show({});
  } else {
    std::vector<std::string> lines = row->steps;
    if (!row->proof.said.empty()) lines.push_back(row->proof.said);
    page_->show(row->knobs, std::move(lines));
    proof_->show(row->proof);
  }
  arrange();
}

void LifePanel::show_proof(const ProofTold& told) {
  done_asking();
  const LifeRow* row = chosen();
  page_->show(row ? row->knobs : std::vector<std::string>{}, told.lines);
  proof_->show(told.plot);
  arrange();
}

void LifePanel::can_propose(bool can) {
  can_propose_ = can;
  enable();
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
    for (const std::string* text : {&rows_[i].when, &rows_[i].standing, &rows_[i].what}) cells.push_back(wx(*text));
    list_->AppendItem(cells);
    if (rows_[i].correction == before) list_->SelectRow(static_cast<unsigned>(i));
  }
  if (!chosen() && !rows_.empty()) list_->SelectRow(0);
  enable();
  show_chosen();
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
  propose_->Disable();
  arrange();
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
  words_->SetLabelText({});
  words_->Hide();
  enable();
  arrange();
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
  propose_->Enable(can_propose_ && !asked_);
  apply_->Enable(row && row->can_apply);
  prove_->Enable(row && row->can_prove);
  withdraw_->Enable(row && row->can_withdraw);
}

}  // namespace fitwright
