#include "window/caliper_log_panel.hpp"

#include <wx/button.h>
#include <wx/sizer.h>

#include <algorithm>

#include "base/words.hpp"
#include "window/access.hpp"
#include "window/form_panel.hpp"
#include "window/unit.hpp"

namespace fitwright {
namespace {

constexpr int text_width_dip = 680;

}  // namespace

CaliperLogPanel::CaliperLogPanel(wxWindow* parent) : wxPanel(parent), theme_(theme_of(*parent)) {
  SetBackgroundColour(theme_.ground);
  const int s = theme_.space;
  auto* down = new wxBoxSizer(wxVERTICAL);
  log_ = words(this, " ", theme_.body, theme_.text);
  down->Add(log_);
  row_ = new wxPanel(this);
  row_->SetBackgroundColour(theme_.ground);
  auto* row = new wxBoxSizer(wxHORIZONTAL);
  const auto label = [&](const char* text) {
    row->Add(words(row_, text, theme_.body, theme_.text), 0, wxALIGN_CENTRE_VERTICAL | wxRIGHT, 2 * s);
  };
  label(tr("Add to its log"));
  steel_ = new wxChoice(row_, wxID_ANY);
  for (const char* what : {noted("closed jaws"), noted("gauge, outside"), noted("ring, inside")})
    steel_->Append(wx(tr(what)));
  steel_->SetSelection(0);
  set_accessible(*steel_, tr("What is read for the log"));
  row->Add(steel_, 0, wxALIGN_CENTRE_VERTICAL | wxRIGHT, 3 * s);
  label(tr("true size"));
  size_ = field(row, tr("True size of the gauge"));
  label(tr("reads"));
  reading_ = field(row, tr("Reading for the log"));
  auto* add = new wxButton(row_, wxID_ANY, wx(tr("&Add")));
  set_accessible(*add, tr("Add to the caliper's log"));
  row->Add(add, 0, wxALIGN_CENTRE_VERTICAL);
  row_->SetSizer(row);
  down->Add(row_, 0, wxTOP, 3 * s);
  wrong_ = words(this, " ", theme_.body, theme_.warn);
  down->Add(wrong_, 0, wxTOP, s);
  SetSizer(down);
  size_->Enable(false);
  steel_->Bind(wxEVT_CHOICE, [this](wxCommandEvent& event) { size_->Enable(event.GetSelection() > 0); });
  add->Bind(wxEVT_BUTTON, [this](wxCommandEvent&) { this->add(); });
}

wxTextCtrl* CaliperLogPanel::field(wxSizer* row, const std::string& name) {
  auto* control =
      new wxTextCtrl(row_, wxID_ANY, {}, wxDefaultPosition, wxSize(GetCharWidth() * 12, -1), wxTE_PROCESS_ENTER);
  set_accessible(*control, name);
  control->Bind(wxEVT_TEXT_ENTER, [this](wxCommandEvent&) { add(); });
  row->Add(control, 0, wxALIGN_CENTRE_VERTICAL | wxRIGHT, 3 * theme_.space);
  return control;
}

void CaliperLogPanel::show(const std::vector<std::string>& log, int width) { reword(*log_, in_lines(log), width); }

void CaliperLogPanel::add() {
  constexpr Kind kinds[] = {Kind::zero, Kind::gauge, Kind::ring};
  const SteelEntry entry{kinds[std::max(0, steel_->GetSelection())], utf8(size_->GetValue()),
                         utf8(reading_->GetValue()), in_inches()};
  const std::string wrong = on_add ? on_add(entry) : std::string();
  reword(*wrong_, wrong, FromDIP(text_width_dip));
  if (on_layout) on_layout();
  if (!wrong.empty()) return;
  reading_->Clear();
  reading_->SetFocus();
}

}  // namespace fitwright
