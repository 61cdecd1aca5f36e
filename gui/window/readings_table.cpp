#include "window/readings_table.hpp"

#include <wx/sizer.h>

#include <algorithm>
#include <array>

#include "base/words.hpp"
#include "window/access.hpp"
#include "window/theme.hpp"

namespace fitwright {
namespace {

struct TableColumn {
  const char* title;
  const char* widest;
  wxAlignment align;
  std::string (*text)(const TableRow&);
};

std::string remark_of(const TableRow& row) {
  return row.doubtful ? "\u25c6 " + row.remark : row.remark;  // a mark besides the words
}

const std::array<TableColumn, 6>& columns() {
  static const std::array<TableColumn, 6> all{{
      {noted("place"), noted("X100b outer"), wxALIGN_LEFT, [](const TableRow& r) { return r.place; }},
      {noted("copy"), noted("copy"), wxALIGN_RIGHT, [](const TableRow& r) { return r.copy; }},
      {noted("repeat"), noted("repeat"), wxALIGN_RIGHT, [](const TableRow& r) { return r.ordinal; }},
      {noted("read, mm"), noted("read, mm"), wxALIGN_RIGHT, [](const TableRow& r) { return r.reading; }},
      {noted("drawn, mm"), noted("drawn, mm"), wxALIGN_RIGHT, [](const TableRow& r) { return r.drawn; }},
      {noted("remark"), noted("41.12 is 1.12 from drawn. 40.12?"), wxALIGN_LEFT, remark_of},
  }};
  return all;
}

}  // namespace

ReadingsTable::ReadingsTable(wxWindow* parent) : wxPanel(parent) {
  const Theme theme = theme_of(*this);
  list_ =
      new wxDataViewListCtrl(this, wxID_ANY, wxDefaultPosition, FromDIP(wxSize(300, 160)), wxDV_SINGLE | wxBORDER_NONE);
  for (const TableColumn& column : columns()) {
    int title = 0, widest = 0;  // titles stand in bold
    GetTextExtent(wx(tr(column.title)), &title, nullptr, nullptr, nullptr, &theme.strong);
    GetTextExtent(wx(tr(column.widest)), &widest, nullptr, nullptr, nullptr, &theme.body);
    list_->AppendTextColumn(wx(tr(column.title)), wxDATAVIEW_CELL_INERT, std::max(title, widest) + 4 * theme.space,
                            column.align, wxDATAVIEW_COL_RESIZABLE);
  }
  list_->SetRowHeight(GetCharHeight() + 2 * theme.space);
  set_accessible(*list_, tr("All readings"), tr("Enter goes to a reading, Delete takes it out"));
  auto* sizer = new wxBoxSizer(wxVERTICAL);
  sizer->Add(list_, 1, wxEXPAND);
  SetSizer(sizer);
  list_->Bind(wxEVT_DATAVIEW_ITEM_ACTIVATED, [this](wxDataViewEvent&) {
    if (const auto key = chosen(); key && on_go) CallAfter([this, key] { on_go(*key); });
  });
  Bind(wxEVT_CHAR_HOOK, [this](wxKeyEvent& event) {
    const auto key = chosen();
    if (event.GetKeyCode() == WXK_DELETE && !event.HasAnyModifiers() && key && on_take_out)
      on_take_out(*key);
    else
      event.Skip();
  });
}

void ReadingsTable::show(std::vector<TableRow> rows, bool inches) {
  constexpr unsigned read_column = 3, drawn_column = 4;
  list_->GetColumn(read_column)->SetTitle(wx(inches ? tr("read, in") : tr("read, mm")));
  list_->GetColumn(drawn_column)->SetTitle(wx(inches ? tr("drawn, in") : tr("drawn, mm")));
  bool same = rows.size() == rows_.size();
  for (std::size_t i = 0; same && i < rows.size(); ++i) same = rows[i].key == rows_[i].key;
  if (same) {
    for (std::size_t i = 0; i < rows.size(); ++i)
      for (std::size_t c = 0; c < columns().size(); ++c)
        if (const std::string text = columns()[c].text(rows[i]); text != columns()[c].text(rows_[i]))
          list_->SetTextValue(wx(text), static_cast<unsigned>(i), static_cast<unsigned>(c));
    rows_ = std::move(rows);
    return;
  }
  const auto before = chosen();
  rows_ = std::move(rows);
  list_->Freeze();
  list_->DeleteAllItems();
  for (const TableRow& row : rows_) {
    wxVector<wxVariant> cells;
    for (const TableColumn& column : columns()) cells.push_back(wx(column.text(row)));
    list_->AppendItem(cells);
  }
  list_->Thaw();
  if (before) choose(*before);
}

bool ReadingsTable::choose(const ReadingKey& key) {
  for (std::size_t i = 0; i < rows_.size(); ++i) {
    if (rows_[i].key != key) continue;
    list_->SelectRow(static_cast<unsigned>(i));
    const wxDataViewItem item = list_->RowToItem(static_cast<int>(i));
    list_->SetCurrentItem(item);
    list_->EnsureVisible(item);
    return true;
  }
  return false;
}

std::optional<ReadingKey> ReadingsTable::chosen() const {
  const int row = list_->GetSelectedRow();
  if (row == wxNOT_FOUND || static_cast<std::size_t>(row) >= rows_.size()) return std::nullopt;
  const TableRow& at = rows_[static_cast<std::size_t>(row)];
  return at.placed ? std::optional(at.key) : std::nullopt;
}

std::string ReadingsTable::as_text() const {
  std::string text;
  const int chosen = list_->GetSelectedRow();
  for (std::size_t i = 0; i < rows_.size(); ++i) {
    if (chosen != wxNOT_FOUND && static_cast<std::size_t>(chosen) != i) continue;
    for (const TableColumn& column : columns())
      text += (&column == columns().data() ? "" : "\t") + column.text(rows_[i]);
    text += "\n";
  }
  return text;
}

bool ReadingsTable::in_focus() const {
  for (const wxWindow* w = FindFocus(); w; w = w->GetParent())
    if (w == this) return true;
  return false;
}

}  // namespace fitwright
