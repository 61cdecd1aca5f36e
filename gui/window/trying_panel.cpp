#include "window/trying_panel.hpp"

#include <wx/sizer.h>

#include <algorithm>

#include "base/words.hpp"
#include "bench/shown.hpp"
#include "design/advice.hpp"
#include "window/access.hpp"
#include "window/form_panel.hpp"

namespace fitwright {
namespace {

constexpr int width_dip = 340, text_dip = 296, list_dip = 150;
constexpr int clearance_decimals = 3;

}  // namespace

TryingPanel::TryingPanel(wxWindow* parent) : wxPanel(parent), theme_(theme_of(*this)) {
  SetBackgroundColour(theme_.ground);
  SetMinSize(FromDIP(wxSize(width_dip, -1)));
  const int s = theme_.space;
  auto* down = new wxBoxSizer(wxVERTICAL);
  down->Add(words(this, tr("Try the places"), theme_.title.Bold(), theme_.text));
  choice_ = new wxChoice(this, wxID_ANY);
  set_accessible(*choice_, tr("Print whose places are tried"));
  down->Add(choice_, 0, wxEXPAND | wxTOP, 2 * s);
  place_ = words(this, " ", theme_.large.Bold(), theme_.text);
  down->Add(place_, 0, wxTOP, 3 * s);
  hint_ = words(this, " ", theme_.body, theme_.quiet);
  down->Add(hint_, 0, wxTOP, s);
  for (const GradeWords& grade : grade_words()) {
    const std::string label = said("{}   {}", grade.grade, tr(grade.felt));
    auto* button = new wxButton(this, wxID_ANY, wx(label), wxDefaultPosition, wxDefaultSize, wxBU_LEFT);
    button->SetFont(theme_.title);
    button->SetToolTip(wx(tr(grade.how)));
    set_accessible(*button, label, tr(grade.how));
    button->Bind(wxEVT_BUTTON, [this, g = grade.grade](wxCommandEvent&) { this->grade(static_cast<Grade>(g)); });
    grades_.push_back(button);
    down->Add(button, 0, wxEXPAND | wxTOP, s);
  }
  list_ = new wxDataViewListCtrl(this, wxID_ANY, wxDefaultPosition, FromDIP(wxSize(-1, list_dip)), wxDV_SINGLE);
  const auto column = [&](const char* title, const char* widest) {
    list_->AppendTextColumn(wx(tr(title)), wxDATAVIEW_CELL_INERT, GetTextExtent(wx(tr(widest))).x + 5 * s, wxALIGN_LEFT,
                            wxDATAVIEW_COL_RESIZABLE);
  };
  column(noted("place"), "S-0.200");
  column(noted("with"), "T12.5a");
  column(noted("mm"), "+0.500");
  column(noted("grade"), noted("1 goes in with a tool"));
  set_accessible(*list_, tr("Places of this print"), tr("Choose one to grade it anew"));
  list_->Bind(wxEVT_DATAVIEW_SELECTION_CHANGED, [this](wxDataViewEvent&) {
    const int row = list_->GetSelectedRow();
    if (row == wxNOT_FOUND) return;
    in_hand_ = static_cast<std::size_t>(row);
    show_place();
  });
  down->Add(list_, 1, wxEXPAND | wxTOP, 3 * s);
  auto* margin = new wxBoxSizer(wxVERTICAL);
  margin->Add(down, 1, wxALL | wxEXPAND, 4 * s);
  SetSizer(margin);
  choice_->Bind(wxEVT_CHOICE, [this](wxCommandEvent& event) {
    shown_ = ladders_[static_cast<std::size_t>(event.GetSelection())].copy;
    show_ladder();
  });
}

const Ladder* TryingPanel::ladder() const {
  const auto found = std::find_if(ladders_.begin(), ladders_.end(), [&](const Ladder& l) { return l.copy == shown_; });
  return found != ladders_.end() ? &*found : ladders_.empty() ? nullptr : &ladders_.front();
}

void TryingPanel::show(const std::vector<Ladder>& ladders, const std::string& no_ladder) {
  ladders_ = ladders;
  no_ladder_ = no_ladder;
  choice_->Clear();
  for (const Ladder& l : ladders_) choice_->Append(wx(l.name));
  if (const Ladder* now = ladder()) {
    shown_ = now->copy;
    choice_->SetSelection(static_cast<int>(now - ladders_.data()));
  }
  const bool any = !ladders_.empty();
  choice_->Show(any);
  list_->Show(any);
  place_->Show(any);
  for (wxButton* button : grades_) button->Show(any);
  show_ladder();
}

void TryingPanel::show_ladder() {
  list_->DeleteAllItems();
  const Ladder* now = ladder();
  if (!now) {
    reword(*hint_, no_ladder_, FromDIP(text_dip));
    Layout();
    return;
  }
  for (const LadderPlace& p : now->places) {
    wxVector<wxVariant> cells;
    cells.push_back(wx(p.id));
    cells.push_back(wx(p.mate));
    cells.push_back(wx(shown_signed(p.clearance_mm, clearance_decimals)));
    cells.push_back(wx(p.trial ? said("{} {}", p.trial->value.grade, tr(felt(static_cast<Grade>(p.trial->value.grade))))
                               : std::string()));
    list_->AppendItem(cells);
  }
  in_hand_ = std::min(now->next(), now->places.size());
  if (in_hand_ < now->places.size()) {
    list_->SelectRow(static_cast<unsigned>(in_hand_));
    list_->EnsureVisible(list_->RowToItem(static_cast<int>(in_hand_)));
  }
  show_place();
}

void TryingPanel::show_place() {
  const Ladder* now = ladder();
  if (!now) return;
  const bool open = in_hand_ < now->places.size();
  for (wxButton* button : grades_) button->Enable(open);
  if (open) {
    const LadderPlace& p = now->places[in_hand_];
    reword(*place_, p.mate.empty() ? p.id : said("{} with {}", p.id, p.mate), 0);
    std::string hint =
        said("Place {} of {}. Press 0 to 4; Ctrl+Z takes the last one back.", in_hand_ + 1, now->places.size());
    if (p.measured_mm)
      hint += " " + said("Measured clearance {} mm.", shown_signed(*p.measured_mm, clearance_decimals));
    reword(*hint_, hint, FromDIP(text_dip));
  } else {
    reword(*place_, tr("All are graded"), 0);
    reword(*hint_, tr("Choose a place below to grade it anew."), FromDIP(text_dip));
  }
  Layout();
}

void TryingPanel::grade(Grade grade) {
  const Ladder* now = ladder();
  if (!now || in_hand_ >= now->places.size() || !on_grade) return;
  on_grade(Ladder(*now), in_hand_, grade);
}

}  // namespace fitwright
