#pragma once
// Everything a person can ask for, in one table: the menu and its keys are built from it, and so is the sheet of keys.

#include <wx/filehistory.h>
#include <wx/menu.h>
#include <wx/toolbar.h>

#include <string>
#include <vector>

namespace fitwright {

enum ActionId : int {
  act_open = wxID_HIGHEST + 1,
  act_record,
  act_own_record,
  act_demo,
  act_save,
  act_save_as,
  act_settings,
  act_quit,
  act_undo,
  act_redo,
  act_copy,
  act_paste,
  act_skip,
  act_damaged,
  act_more,
  act_delete,
  act_table,
  act_inches,
  act_take,
  act_next_doubt,
  act_keep_doubtful,
  act_no_priors,
  act_setup,
  act_make,
  act_measure,
  act_understand,
  act_correct,
  act_history,
  act_fits,
  act_findings,
  act_lengths,
  act_rounds,
  act_estimates,
  act_residuals,
  act_corner,
  act_try,
  act_guide,
  act_guide_contents,
  act_keys,
  act_about,
  act_recent,  ///< and one more id for each record, see wxFileHistory
  act_recent_last = act_recent + 8,
  act_language,  ///< and one more id for each language, see language_menu
  act_language_last = act_language + 2,
};

struct Action {
  ActionId id;
  const char* menu;
  const char* label;  ///< with '&' before the letter that picks it
  const char* keys;   ///< as wx writes them, or ""
  const char* help;   ///< for the status line
  bool checkable = false;
  bool rule_above = false;
  const char* picture = "";  ///< the desktop's own picture for it (wxArtID); "" is not on the bar of tools
};

const std::vector<Action>& actions();

/// The menu bar made from the table. The caller owns it until it is set on a frame. `recent` shows the records opened
/// last in the menu of the record, and keeps it up to date.
wxMenuBar* make_menu_bar(wxFileHistory& recent);

/// The bar of tools made from the actions that have a picture; `parent` owns it.
wxToolBar* make_tools(wxWindow* parent);

/// "Ctrl+O   Open readings ..." one line an action that has keys.
std::string sheet_of_keys();

}  // namespace fitwright
