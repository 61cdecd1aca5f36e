#include "window/actions.hpp"

#include <wx/artprov.h>
#include <wx/control.h>

#include <sstream>

#include "base/words.hpp"
#include "window/access.hpp"
#include "window/language.hpp"
#include "window/theme.hpp"

namespace fitwright {

namespace {

/// "Ctrl+Delete" as the keyboard of that language says it.
std::string keys_as_named(const std::string& keys) {
  std::string out;
  std::istringstream parts(keys);
  for (std::string part; std::getline(parts, part, '+');)
    out += (out.empty() ? "" : "+") + std::string(tr(part.c_str()));
  return out;
}

/// Names of keys that other keyboards name otherwise.
[[maybe_unused]] constexpr const char* key_names[] = {noted("Ctrl"), noted("Shift"), noted("Alt"), noted("Delete")};

}  // namespace

const std::vector<Action>& actions() {
  static const std::vector<Action> all{
      {act_open, noted("&File"), noted("&Open readings\u2026"), "Ctrl+O", noted("Open a CSV file of readings"), false,
       false, "wxART_FILE_OPEN"},
      {act_demo, noted("&File"), noted("Open the &demo"), "", noted("Readings of an invented printer, to look around")},
      {act_settings, noted("&File"), noted("Settings of the &print\u2026"), "Ctrl+P",
       noted("Open the settings the coupon was printed with"), false, true},
      {act_save, noted("&File"), noted("&Save"), "Ctrl+S", noted("Save the readings to their file"), false, true},
      {act_save_as, noted("&File"), noted("Save &as\u2026"), "Ctrl+Shift+S",
       noted("Save the readings to another file")},
      {act_quit, noted("&File"), noted("&Quit"), "Ctrl+Q", noted("Leave the program"), false, true},
      {act_record, noted("Rec&ord"), noted("&Open a record\u2026"), "Ctrl+Shift+O",
       noted("Open another record: a file with printers, prints and readings")},
      {act_own_record, noted("Rec&ord"), noted("Your o&wn record"), "", noted("Back to the record in your own folder")},
      {act_undo, noted("&Edit"), noted("&Undo"), "Ctrl+Z", noted("Take back the last change"), false, false,
       "wxART_UNDO"},
      {act_redo, noted("&Edit"), noted("&Redo"), "Ctrl+Shift+Z", noted("Do again what was taken back"), false, false,
       "wxART_REDO"},
      {act_copy, noted("&Edit"), noted("&Copy"), "Ctrl+C", noted("Copy the table or the text in focus"), false, true},
      {act_paste, noted("&Edit"), noted("&Paste"), "Ctrl+V",
       noted("Paste a column or block of readings: first you see what would be taken")},
      {act_skip, noted("&Readings"), noted("&Skip this reading"), "F2",
       noted("Leave the reading in hand out; you can come back to it")},
      {act_damaged, noted("&Readings"), noted("Part &damaged here"), "F3",
       noted("Leave out what is still to be read of this feature")},
      {act_more, noted("&Readings"), noted("&One more reading here"), "F4",
       noted("Read this place once more than planned")},
      {act_delete, noted("&Readings"), noted("Take a reading ou&t"), "Ctrl+Delete",
       noted("Take out the reading chosen in the table")},
      {act_next_doubt, noted("&Readings"), noted("&Next doubtful reading"), "F8",
       noted("Go to the next reading that looks like a slip"), false, true},
      {act_take, noted("&Readings"), noted("T&ake what was probably meant"), "Ctrl+T",
       noted("Put the proposed value in place of the slip")},
      {act_table, noted("&Readings"), noted("All &readings"), "F6", noted("Show the table of all readings, or hide it"),
       true, true, "wxART_REPORT_VIEW"},
      {act_inches, noted("&Readings"), noted("The caliper shows &inches"), "",
       noted("Type and see readings in inches; a number with mm or in behind it says its own unit"), true},
      {act_try, noted("&Readings"), noted("&With and without it"), "F7",
       noted("The estimate without a doubtful reading or the mark chosen in a plot, side by side; again: back")},
      {act_keep_doubtful, noted("&Readings"), noted("&Count doubtful readings too"), "",
       noted("Estimate with the readings that look like slips"), true, true},
      {act_no_priors, noted("&Readings"), noted("&Without typical values"), "",
       noted("Estimate from the readings alone, assuming nothing"), true},
      {act_setup, noted("&Places"), noted("&Setup"), "Ctrl+1", noted("Printer, material and caliper on the bench")},
      {act_make, noted("&Places"), noted("Ma&ke"), "Ctrl+2", noted("A coupon to print")},
      {act_measure, noted("&Places"), noted("&Measure"), "Ctrl+3",
       noted("Put the jaws on and type what the caliper shows")},
      {act_understand, noted("&Places"), noted("&Understand"), "Ctrl+4", noted("What the readings say")},
      {act_correct, noted("&Places"), noted("&Correct"), "Ctrl+5", noted("What to change, and what to leave alone")},
      {act_history, noted("&Places"), noted("&History"), "Ctrl+6", noted("What happened to this setup, by date")},
      {act_fits, noted("&Places"), noted("F&its"), "Ctrl+7", noted("What to draw so that parts go together")},
      {act_findings, noted("&Places"), noted("&Findings"), "Alt+1", noted("What the readings say, in sentences"), false,
       true},
      {act_lengths, noted("&Places"), noted("&Lengths"), "Alt+2", noted("Plot of lengths along X, Y and Z")},
      {act_rounds, noted("&Places"), noted("&Holes and pegs"), "Alt+3",
       noted("Plot of round features against diameter")},
      {act_estimates, noted("&Places"), noted("&Numbers"), "Alt+4", noted("Table of estimates")},
      {act_residuals, noted("&Places"), noted("&Residuals"), "Alt+5",
       noted("Plots of what no parameter explains, as typed and by feature")},
      {act_corner, noted("&Places"), noted("C&orner"), "Alt+6", noted("The corner between X and Y, drawn exaggerated")},
      {act_guide, noted("&Help"), noted("&Guide to this place"), "F1",
       noted("Open the guide at the page of this place"), false, false, "wxART_HELP"},
      {act_guide_contents, noted("&Help"), noted("Guide, &contents"), "", noted("Open the guide at its contents")},
      {act_keys, noted("&Help"), noted("&Keys (?)"), "", noted("Which key does what")},
      {act_about, noted("&Help"), noted("&About Fitwright"), "", noted("Version and licences")},
  };
  return all;
}

wxMenuBar* make_menu_bar(wxFileHistory& recent) {
  auto* bar = new wxMenuBar;
  wxMenu* menu = nullptr;
  const char* title = "";
  for (const Action& action : actions()) {
    if (!menu || std::string(title) != action.menu) {
      menu = new wxMenu;
      title = action.menu;
      bar->Append(menu, wx(tr(title)));
    }
    if (action.rule_above) menu->AppendSeparator();
    wxString label = wx(tr(action.label));
    if (*action.keys) label += "\t" + wxString(action.keys);
    menu->Append(action.id, label, wx(tr(action.help)), action.checkable ? wxITEM_CHECK : wxITEM_NORMAL);
    if (action.id == act_own_record) {
      recent.UseMenu(menu);
      recent.AddFilesToMenu(menu);
    }
  }
  if (menu) {
    menu->AppendSeparator();
    menu->AppendSubMenu(language_menu(act_language), wx(tr("&Language")));
  }
  return bar;
}

wxToolBar* make_tools(wxWindow* parent) {
  auto* bar = new wxToolBar(parent, wxID_ANY, wxDefaultPosition, wxDefaultSize, wxTB_HORIZONTAL | wxTB_FLAT);
  for (const Action& action : actions()) {
    if (!*action.picture) continue;
    const wxString label = wxControl::RemoveMnemonics(wx(tr(action.label)));
    const wxString hint = *action.keys ? label + " (" + wxString(action.keys) + ")" : label;
    bar->AddTool(action.id, label, wxArtProvider::GetBitmapBundle(action.picture, wxART_TOOLBAR), hint,
                 action.checkable ? wxITEM_CHECK : wxITEM_NORMAL);
  }
  bar->Realize();
  set_accessible(*bar, tr("Tools"));
  return bar;
}

std::string sheet_of_keys() {
  std::string text;
  for (const Action& action : actions()) {
    if (!*action.keys) continue;
    text += keys_as_named(action.keys) + "\t" + tr(action.help) + "\n";
  }
  struct InPlace {
    const char *keys, *what;
  };
  for (const InPlace& line : {
           InPlace{noted("Enter"),
                   noted("Take the reading typed and go to the next; on an empty line: keep the doubtful reading")},
           InPlace{noted("Space"), noted("On an empty line: take the value proposed")},
           InPlace{noted("Esc"), noted("Read the doubtful reading again, or leave the line")},
           InPlace{noted("Backspace"), noted("On an empty line: take back the last step")},
           InPlace{noted("Page up, Page down"), noted("The reading before or after")},
           InPlace{noted("Enter, Delete"), noted("In the table: go to the reading; take it out")},
           InPlace{noted("Tab"), noted("Next part of the window")},
           InPlace{noted("Up, Down"), noted("In the findings: the next one and why it is said")},
           InPlace{noted("Left, Right, Enter"), noted("In a plot: the next mark; go to its reading")},
       })
    text += std::string(tr(line.keys)) + "\t" + tr(line.what) + "\n";
  return text;
}

}  // namespace fitwright
