#include "window/history_place.hpp"

#include <wx/filedlg.h>
#include <wx/sizer.h>
#include <wx/statline.h>

#include <algorithm>
#include <array>

#include "base/words.hpp"
#include "bench/timeline.hpp"
#include "window/access.hpp"
#include "window/messages.hpp"
#include "window/theme.hpp"

namespace fitwright {
namespace {

constexpr int lanes_lines = 12;        // height of the drawing along time, in lines of type
constexpr int readable_width_em = 46;  // about 80 letters a line

struct FileOffer {
  HistoryFile what;
  const char *label, *hint, *name, *filter;
};

const std::array<FileOffer, 3>& offers() {
  static const std::array<FileOffer, 3> all{{
      {HistoryFile::record, noted("&Export record\u2026"),
       noted("The whole record as one JSON file, for another bench or to keep"), "record.json",
       noted("Records (*.json)|*.json|All files|*")},
      {HistoryFile::readings, noted("&Readings as CSV\u2026"), noted("All readings of this setup, for a spreadsheet"),
       "readings.csv", noted("Tables (*.csv)|*.csv|All files|*")},
      {HistoryFile::corrections, noted("&Corrections as CSV\u2026"),
       noted("All corrections of this setup, for a spreadsheet"), "corrections.csv",
       noted("Tables (*.csv)|*.csv|All files|*")},
  }};
  return all;
}

struct ListColumn {
  const char *title, *widest;
  std::string HistoryRow::*text;
};

const std::array<ListColumn, 3>& columns() {
  static const std::array<ListColumn, 3> all{{
      {noted("when, UTC"), "2026-11-25 19:04", &HistoryRow::date},
      {noted("what"), noted("Correction proposed for new steps"), &HistoryRow::what},
      {noted("how"), "", &HistoryRow::detail},
  }};
  return all;
}

}  // namespace

void PassagesPage::show(std::vector<Passage> passages) {
  passages_ = std::move(passages);
  changed();
}

void PassagesPage::lay(Sheet& sheet) {
  const Theme& t = sheet.theme();
  const int left = sheet.margin();
  const int right = std::min(sheet.width() - sheet.margin(), left + readable_width_em * sheet.wide("m", t.body));
  sheet.move_to(0);
  sheet.skip(4);
  for (const Passage& passage : passages_) {
    if (!passage.heading.empty()) {
      sheet.paragraph(passage.heading, t.strong, t.text, left, right);
      sheet.skip(1);
    }
    for (const std::string& sentence : passage.sentences) {
      sheet.paragraph(sentence, t.body, t.text, left, right);
      sheet.skip(1);
    }
    sheet.skip(3);
  }
}

std::string PassagesPage::as_text() const {
  std::string text;
  for (const Passage& passage : passages_) {
    if (!passage.heading.empty()) text += passage.heading + "\n";
    for (const std::string& sentence : passage.sentences) text += sentence + "\n";
  }
  return text;
}

HistoryPlace::HistoryPlace(wxWindow* parent, PlaceHost& host) : PlacePanel(parent, host) {
  const Theme theme = theme_of(*this);
  SetBackgroundColour(theme.ground);
  down_ = new Splitter(this);
  list_ = new wxDataViewListCtrl(down_, wxID_ANY, wxDefaultPosition, FromDIP(wxSize(300, 120)),
                                 wxDV_SINGLE | wxBORDER_NONE);
  for (const ListColumn& column : columns())
    list_->AppendTextColumn(
        wx(tr(column.title)), wxDATAVIEW_CELL_INERT,
        *column.widest ? GetTextExtent(wx(tr(column.widest))).x + 5 * theme.space : wxCOL_WIDTH_AUTOSIZE, wxALIGN_LEFT,
        wxDATAVIEW_COL_RESIZABLE);
  list_->SetRowHeight(GetCharHeight() + 2 * theme.space);
  set_accessible(*list_, tr("What happened to this setup"), tr("Newest first; below stands what was in force then"));
  below_ = new PassagesPage(down_, tr("State at that date, cost and spools"));
  down_->SetMinimumPaneSize(30 * theme.space);
  down_->SplitHorizontally(list_, below_);
  down_->keep_at([](int whole) { return whole * 55 / 100; });
  nothing_ = new PassagesPage(this, tr("History is empty"));
  auto* row = new wxBoxSizer(wxHORIZONTAL);
  for (const FileOffer& offer : offers()) {
    auto* button = new wxButton(this, wxID_ANY, wx(tr(offer.label)));
    button->SetToolTip(wx(tr(offer.hint)));
    set_accessible(*button, utf8(wxControl::RemoveMnemonics(wx(tr(offer.label)))), tr(offer.hint));
    button->Bind(wxEVT_BUTTON, [this, what = offer.what](wxCommandEvent&) { ask_where(what); });
    row->Add(button, 0, wxRIGHT, 2 * theme.space);
    buttons_.push_back(button);
  }
  along_ = new PlotPanel(this, tr("What happened when"));
  along_->SetMinSize({-1, lanes_lines * GetCharHeight()});
  along_->on_go = [this](std::size_t event) { choose(event); };
  auto* sizer = new wxBoxSizer(wxVERTICAL);
  sizer->Add(along_, 0, wxEXPAND);
  sizer->Add(down_, 1, wxEXPAND);
  sizer->Add(nothing_, 1, wxEXPAND);
  sizer->Add(new wxStaticLine(this), 0, wxEXPAND);
  sizer->Add(row, 0, wxALL, 3 * theme.space);
  SetSizer(sizer);
  list_->Bind(wxEVT_DATAVIEW_SELECTION_CHANGED, [this](wxDataViewEvent&) { show_below(); });
}

record::Id HistoryPlace::setup() const {
  const auto& on = host_.bench().setup();
  return on ? on->setup.thing : record::Id{};
}

/// Comparing spools takes estimates: looked at only when somebody looks.
void HistoryPlace::look_when_seen() {
  stale_ = true;
  told_.clear();
  if (IsShown()) look();
}

void HistoryPlace::look() {
  if (!stale_) return;
  stale_ = false;
  auto view = history_view(host_.bench().record(), setup());
  view_ = {};
  if (view)
    view_ = *std::move(view);
  else
    view_.empty = in_one_line(view.problems());
  const bool something = view_.empty.empty();
  along_->Show(something);
  down_->Show(something);
  nothing_->Show(!something);
  for (wxButton* button : buttons_) button->Show(something);
  nothing_->show({{"", {view_.empty}}});
  list_->Freeze();
  list_->DeleteAllItems();
  for (const HistoryRow& row : view_.rows) {
    wxVector<wxVariant> cells;
    for (const ListColumn& column : columns()) cells.push_back(wx(row.*column.text));
    list_->AppendItem(cells);
  }
  list_->Thaw();
  along_->show(timeline_plot(view_));
  if (!view_.rows.empty()) list_->SelectRow(0);
  Layout();
  show_below();
}

void HistoryPlace::choose(std::size_t event) {
  if (event >= view_.rows.size()) return;
  list_->SelectRow(static_cast<unsigned>(event));
  list_->EnsureVisible(list_->RowToItem(static_cast<int>(event)));
  show_below();
}

void HistoryPlace::show_below() {
  if (!view_.empty.empty()) return;
  std::vector<Passage> passages;
  if (!told_.empty()) passages.push_back({"", told_});
  const int chosen = list_->GetSelectedRow();
  if (chosen != wxNOT_FOUND && static_cast<std::size_t>(chosen) < view_.rows.size()) {
    const HistoryRow& row = view_.rows[static_cast<std::size_t>(chosen)];
    along_->choose_row(static_cast<std::size_t>(chosen));
    const auto state = state_at(host_.bench().record(), setup(), row.at);
    passages.push_back({row.what + ", " + row.date, {row.detail}});
    passages.push_back({tr("In force then"), state ? *state : std::vector<std::string>{in_one_line(state.problems())}});
  }
  if (!view_.cost.empty()) {
    Passage cost{tr("Cost of this calibration"), {view_.cost}};
    cost.sentences.insert(cost.sentences.end(), view_.cost_notes.begin(), view_.cost_notes.end());
    passages.push_back(std::move(cost));
  }
  if (!view_.spools.empty()) passages.push_back({tr("Spools of this material"), view_.spools});
  below_->show(std::move(passages));
}

bool HistoryPlace::write(HistoryFile what, const std::string& path) {
  const auto written = write_history(host_.bench().record(), setup(), what, path);
  told_ = written ? *written : std::vector<std::string>{said("Not written: {}", in_one_line(written.problems()))};
  host_.say(told_.front());
  show_below();
  return static_cast<bool>(written);
}

void HistoryPlace::ask_where(HistoryFile what) {
  const FileOffer& offer =
      *std::find_if(offers().begin(), offers().end(), [&](const FileOffer& o) { return o.what == what; });
  wxFileDialog dialog(this, wxControl::RemoveMnemonics(wx(tr(offer.label))), {}, offer.name, wx(tr(offer.filter)),
                      wxFD_SAVE | wxFD_OVERWRITE_PROMPT);
  if (dialog.ShowModal() == wxID_OK) write(what, utf8(dialog.GetPath()));
}

void HistoryPlace::take_focus() {
  look();
  if (view_.empty.empty())
    list_->SetFocus();
  else
    nothing_->SetFocus();
}

}  // namespace fitwright
