#include "window/side_list.hpp"

#include <wx/sizer.h>

#include <algorithm>
#include <string>

#include "base/words.hpp"
#include "window/access.hpp"
#include "window/theme.hpp"

namespace fitwright {

SideList::SideList(wxWindow* parent) : wxPanel(parent) {
  const Theme theme = theme_of(*this);
  list_ = new wxDataViewListCtrl(this, wxID_ANY, wxDefaultPosition, wxDefaultSize,
                                 wxDV_SINGLE | wxDV_NO_HEADER | wxBORDER_NONE);
  int name = 0;
  for (const Stage place : all_places()) name = std::max(name, GetTextExtent(wx(name_of(place))).x);
  name += 6 * theme.space;
  const int mark = GetTextExtent("000").x + 4 * theme.space;
  list_->AppendTextColumn(wx(tr("Place")), wxDATAVIEW_CELL_INERT, name);
  list_->AppendTextColumn(wx(tr("Done or missing")), wxDATAVIEW_CELL_INERT, mark, wxALIGN_RIGHT);
  list_->SetRowHeight(GetCharHeight() + 4 * theme.space);
  list_->SetMinSize({name + mark + 4 * theme.space, -1});
  set_accessible(*list_, tr("Places"));
  auto* sizer = new wxBoxSizer(wxVERTICAL);
  sizer->Add(list_, 1, wxEXPAND);
  SetSizer(sizer);
  list_->Bind(wxEVT_DATAVIEW_SELECTION_CHANGED, [this](wxDataViewEvent&) {
    const int row = list_->GetSelectedRow();
    if (!telling_ || row == wxNOT_FOUND || !on_choice) return;
    on_choice(lines_[static_cast<std::size_t>(row)].place);
  });
}

void SideList::show(const std::vector<PlaceLine>& lines) {
  telling_ = false;
  const int chosen = list_->GetSelectedRow();
  if (lines.size() != lines_.size()) {
    list_->DeleteAllItems();
    for (const PlaceLine& line : lines) {
      wxVector<wxVariant> cells;
      cells.push_back(wx(line.name));
      cells.push_back(wx(line.mark));
      list_->AppendItem(cells);
    }
  } else {
    for (unsigned row = 0; row < lines.size(); ++row) {
      if (lines[row].name != lines_[row].name) list_->SetTextValue(wx(lines[row].name), row, 0);
      if (lines[row].mark != lines_[row].mark) list_->SetTextValue(wx(lines[row].mark), row, 1);
    }
  }
  lines_ = lines;
  if (chosen != wxNOT_FOUND) list_->SelectRow(static_cast<unsigned>(chosen));
  std::string said;
  for (const PlaceLine& line : lines_)
    if (!line.said.empty()) said += (said.empty() ? "" : " ") + line.name + ": " + line.said + ".";
  set_accessible(*list_, tr("Places"), said);
  telling_ = true;
}

void SideList::choose(Stage place) {
  telling_ = false;
  for (unsigned row = 0; row < lines_.size(); ++row)
    if (lines_[row].place == place) list_->SelectRow(row);
  telling_ = true;
}

}  // namespace fitwright
