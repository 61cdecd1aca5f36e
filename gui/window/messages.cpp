#include "window/messages.hpp"

#include <wx/button.h>
#include <wx/dataview.h>
#include <wx/dialog.h>
#include <wx/sizer.h>
#include <wx/stattext.h>
#include <wx/textctrl.h>

#include <algorithm>

#include "base/words.hpp"
#include "window/access.hpp"
#include "window/theme.hpp"

namespace fitwright {
namespace {

constexpr int table_width_spaces = 190, table_height_spaces = 120;

void finish(wxDialog& dialog, wxSizer* sizer, int space) {
  sizer->Add(dialog.CreateStdDialogButtonSizer(wxCLOSE), 0, wxEXPAND | wxALL, 3 * space);
  if (wxWindow* close = dialog.FindWindow(wxID_CLOSE)) close->SetLabel(wx(tr("C&lose")));
  dialog.SetEscapeId(wxID_CLOSE);
  dialog.SetAffirmativeId(wxID_CLOSE);
  dialog.SetSizerAndFit(sizer);
  dialog.CentreOnParent();
  dialog.ShowModal();
}

}  // namespace

void tell_problems(wxWindow* parent, const std::string& heading, const Problems& problems) {
  wxDialog dialog(parent, wxID_ANY, "Fitwright", wxDefaultPosition, wxDefaultSize,
                  wxDEFAULT_DIALOG_STYLE | wxRESIZE_BORDER, "problems");
  const Theme theme = theme_of(dialog);
  auto* sizer = new wxBoxSizer(wxVERTICAL);
  auto* head = new wxStaticText(&dialog, wxID_ANY, wx(heading));
  head->SetFont(theme.title);
  sizer->Add(head, 0, wxALL, 4 * theme.space);
  std::string text;
  for (const Problem& problem : problems) text += (text.empty() ? "" : "\n") + problem.text();
  auto* lines = new wxTextCtrl(&dialog, wxID_ANY, wx(text), wxDefaultPosition,
                               wxSize(150 * theme.space, 40 * theme.space), wxTE_MULTILINE | wxTE_READONLY);
  sizer->Add(lines, 1, wxEXPAND | wxLEFT | wxRIGHT, 4 * theme.space);
  finish(dialog, sizer, theme.space);
}

void tell_table(wxWindow* parent, const TableShown& table) {
  wxDialog dialog(parent, wxID_ANY, wx(table.title), wxDefaultPosition, wxDefaultSize,
                  wxDEFAULT_DIALOG_STYLE | wxRESIZE_BORDER, "table");
  const Theme theme = theme_of(dialog);
  auto* sizer = new wxBoxSizer(wxVERTICAL);
  if (!table.heading.empty()) {
    auto* heading = new wxStaticText(&dialog, wxID_ANY, wx(table.heading));
    heading->SetFont(theme.title);
    sizer->Add(heading, 0, wxLEFT | wxTOP | wxRIGHT, 4 * theme.space);
  }
  if (!table.intro.empty()) sizer->Add(new wxStaticText(&dialog, wxID_ANY, wx(table.intro)), 0, wxALL, 4 * theme.space);
  // Not wxListView: a screen reader finds nothing in it.
  auto* list = new wxDataViewListCtrl(&dialog, wxID_ANY, wxDefaultPosition,
                                      wxSize(table_width_spaces * theme.space, table_height_spaces * theme.space),
                                      wxDV_SINGLE | wxDV_ROW_LINES);
  for (const std::string& column : table.columns) {
    int widest = 0;
    const auto at = static_cast<std::size_t>(&column - table.columns.data());
    for (const auto& row : table.rows) widest = std::max(widest, dialog.GetTextExtent(wx(row[at])).x);
    widest = std::max(widest, dialog.GetTextExtent(wx(column)).x);
    list->AppendTextColumn(wx(column), wxDATAVIEW_CELL_INERT, widest + 6 * theme.space);
  }
  for (const auto& row : table.rows) {
    wxVector<wxVariant> cells;
    for (const std::string& cell : row) cells.push_back(wx(cell));
    list->AppendItem(cells);
  }
  set_accessible(*list, table.title, table.intro);
  sizer->Add(list, 1, wxEXPAND | wxALL, 3 * theme.space);
  finish(dialog, sizer, theme.space);
}

std::string in_one_line(const Problems& problems) {
  std::string text = problems.empty() ? std::string() : problems.front().text();
  if (problems.size() > 1) text += said(" (and {} more)", problems.size() - 1);
  return text;
}

}  // namespace fitwright
