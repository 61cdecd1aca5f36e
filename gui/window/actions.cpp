#include "window/actions.hpp"

#include "base/words.hpp"
#include "window/language.hpp"
#include "window/theme.hpp"

namespace fitwright {

const std::vector<Action>& actions() {
  static const std::vector<Action> all{
      {act_open, "&File", "&Open readings\u2026", "Ctrl+O", "Open a CSV file of readings"},
      {act_demo, "&File", "Open the &demo", "", "Readings of an invented printer, to look around"},
      {act_settings, "&File", "Settings of the &print\u2026", "Ctrl+P", "Open the settings the coupon was printed with",
       false, true},
      {act_save, "&File", "&Save", "Ctrl+S", "Save the readings to their file", false, true},
      {act_save_as, "&File", "Save &as\u2026", "Ctrl+Shift+S", "Save the readings to another file"},
      {act_quit, "&File", "&Quit", "Ctrl+Q", "Leave the program", false, true},
      {act_undo, "&Edit", "&Undo", "Ctrl+Z", "Take back the last change"},
      {act_redo, "&Edit", "&Redo", "Ctrl+Shift+Z", "Do again what was taken back"},
      {act_copy, "&Edit", "&Copy", "Ctrl+C", "Copy the table or the text in focus", false, true},
      {act_paste, "&Edit", "&Paste", "Ctrl+V",
       "Paste a column or block of readings: first you see what would be taken"},
      {act_skip, "&Readings", "&Skip this reading", "F2", "Leave the reading in hand out; you can come back to it"},
      {act_damaged, "&Readings", "Part &damaged here", "F3", "Leave out what is still to be read of this feature"},
      {act_more, "&Readings", "&One more reading here", "F4", "Read this place once more than planned"},
      {act_delete, "&Readings", "Take a reading ou&t", "Ctrl+Delete", "Take out the reading chosen in the table"},
      {act_next_doubt, "&Readings", "&Next doubtful reading", "F8", "Go to the next reading that looks like a slip",
       false, true},
      {act_take, "&Readings", "T&ake what was probably meant", "Ctrl+T", "Put the proposed value in place of the slip"},
      {act_table, "&Readings", "All &readings", "F6", "Show the table of all readings, or hide it", true, true},
      {act_keep_doubtful, "&Readings", "&Count doubtful readings too", "",
       "Estimate with the readings that look like slips", true, true},
      {act_no_priors, "&Readings", "&Without typical values", "", "Estimate from the readings alone, assuming nothing",
       true},
      {act_setup, "&Places", "&Setup", "Ctrl+1", "Printer, material and caliper on the bench"},
      {act_make, "&Places", "Ma&ke", "Ctrl+2", "A coupon to print"},
      {act_measure, "&Places", "&Measure", "Ctrl+3", "Put the jaws on and type what the caliper shows"},
      {act_understand, "&Places", "&Understand", "Ctrl+4", "What the readings say"},
      {act_correct, "&Places", "&Correct", "Ctrl+5", "What to change, and what to leave alone"},
      {act_history, "&Places", "&History", "Ctrl+6", "What happened to this setup, by date"},
      {act_findings, "&Places", "&Findings", "Alt+1", "What the readings say, in sentences", false, true},
      {act_lengths, "&Places", "&Lengths", "Alt+2", "Plot of lengths along X, Y and Z"},
      {act_rounds, "&Places", "&Holes and pegs", "Alt+3", "Plot of round features against diameter"},
      {act_estimates, "&Places", "&Numbers", "Alt+4", "Table of estimates"},
      {act_keys, "&Help", "&Keys", "F1", "Which key does what"},
      {act_about, "&Help", "&About Fitwright", "", "Version and licences"},
  };
  return all;
}

wxMenuBar* make_menu_bar() {
  auto* bar = new wxMenuBar;
  wxMenu* menu = nullptr;
  const char* title = "";
  for (const Action& action : actions()) {
    if (!menu || std::string(title) != action.menu) {
      menu = new wxMenu;
      title = action.menu;
      bar->Append(menu, title);
    }
    if (action.rule_above) menu->AppendSeparator();
    wxString label = wx(action.label);
    if (*action.keys) label += "\t" + wxString(action.keys);
    menu->Append(action.id, label, wx(action.help), action.checkable ? wxITEM_CHECK : wxITEM_NORMAL);
  }
  if (menu) {
    menu->AppendSeparator();
    menu->AppendSubMenu(language_menu(act_language), wx(tr("&Language")));
  }
  return bar;
}

std::string sheet_of_keys() {
  std::string text;
  for (const Action& action : actions()) {
    if (!*action.keys) continue;
    text += std::string(action.keys) + "\t" + action.help + "\n";
  }
  return text +
         "Enter\tTake the reading typed and go to the next; on an empty line: keep the doubtful reading\n"
         "Space\tOn an empty line: take the value proposed\n"
         "Esc\tRead the doubtful reading again, or leave the line\n"
         "Backspace\tOn an empty line: take back the last step\n"
         "Page up, Page down\tThe reading before or after\n"
         "Enter, Delete\tIn the table: go to the reading; take it out\n"
         "Tab\tNext part of the window\n"
         "Up, Down\tIn the findings: the next one and why it is said\n"
         "Left, Right, Enter\tIn a plot: the next mark; go to its reading\n";
}

}  // namespace fitwright
