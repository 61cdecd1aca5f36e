#include "window/messages.hpp"

#include <wx/button.h>
#include <wx/dialog.h>
#include <wx/listctrl.h>
#include <wx/sizer.h>
#include <wx/stattext.h>
#include <wx/textctrl.h>

#include <sstream>

#include "base/words.hpp"
#include "window/theme.hpp"

namespace fitwright {
namespace {

void finish(wxDialog& dialog, wxSizer* sizer, int space) {
  sizer->Add(dialog.CreateStdDialogButtonSizer(wxCLOSE), 0, wxEXPAND | wxALL, 3 * space);
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

void tell_table(wxWindow* parent, const std::string& title, const std::string& lines) {
  wxDialog dialog(parent, wxID_ANY, wx(title), wxDefaultPosition, wxDefaultSize,
                  wxDEFAULT_DIALOG_STYLE | wxRESIZE_BORDER, "table");
  const Theme theme = theme_of(dialog);
  auto* sizer = new wxBoxSizer(wxVERTICAL);
  auto* list = new wxListView(&dialog, wxID_ANY, wxDefaultPosition, wxSize(150 * theme.space, 120 * theme.space),
                              wxLC_REPORT | wxLC_NO_HEADER | wxLC_SINGLE_SEL);
  list->AppendColumn("");
  list->AppendColumn("");
  std::istringstream in(lines);
  for (std::string line; std::getline(in, line);) {
    const auto tab = line.find('\t');
    const long row = list->InsertItem(list->GetItemCount(), wx(line.substr(0, tab)));
    if (tab != std::string::npos) list->SetItem(row, 1, wx(line.substr(tab + 1)));
  }
  list->SetColumnWidth(0, wxLIST_AUTOSIZE);
  list->SetColumnWidth(1, wxLIST_AUTOSIZE);
  sizer->Add(list, 1, wxEXPAND | wxALL, 3 * theme.space);
  finish(dialog, sizer, theme.space);
}

std::string in_one_line(const Problems& problems) {
  std::string text = problems.empty() ? std::string() : problems.front().text();
  if (problems.size() > 1) text += said(" (and {} more)", problems.size() - 1);
  return text;
}

}  // namespace fitwright
