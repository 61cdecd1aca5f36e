// What the menu does.

#include <wx/aboutdlg.h>
#include <wx/clipbrd.h>
#include <wx/filedlg.h>
#include <wx/msgdlg.h>
#include <wx/textentry.h>

#include <algorithm>

#include "base/file.hpp"
#include "base/number.hpp"
#include "bench/keeping.hpp"
#include "correct/state.hpp"
#include "window/actions.hpp"
#include "window/frame.hpp"
#include "window/messages.hpp"

namespace fitwright {
namespace {

constexpr const char* csv_filter = "Readings (*.csv)|*.csv|All files|*";

/// The field that is being typed in, if one is.
wxTextEntry* typing() { return dynamic_cast<wxTextEntry*>(wxWindow::FindFocus()); }

void to_clipboard(const std::string& text) {
  if (!wxTheClipboard->Open()) return;
  wxTheClipboard->SetData(new wxTextDataObject(wx(text)));
  wxTheClipboard->Close();
}

void about(wxWindow* parent) {
  wxAboutDialogInfo info;
  info.SetName("Fitwright");
  info.SetVersion(FITWRIGHT_VERSION);
  info.SetDescription(
      wx("Turns caliper readings of small printed coupons into what to change,\n"
         "and says how sure it is."));
  info.SetLicence(wx("See the file LICENSE. Libraries and their licences: docs/dependencies.md."));
  wxAboutBox(info, parent);
}

}  // namespace

void Frame::on_action(wxCommandEvent& event) { do_action(event.GetId()); }

void Frame::do_action(int id) {
  const auto tab = [this](std::size_t page, wxWindow& part) {
    tabs_->SetSelection(page);
    part.SetFocus();
  };
  switch (id) {
    case act_open:
      return ask_open();
    case act_demo:
      if (may_leave()) put_on_bench(demo_document());
      return;
    case act_save:
      save();
      return;
    case act_save_as:
      ask_save_as();
      return;
    case act_settings:
      return ask_settings();
    case act_quit:
      Close();
      return;
    case act_undo:
      if (grid_->IsCellEditControlEnabled()) {
        grid_->GetCellEditor(grid_->GetGridCursorRow(), grid_->GetGridCursorCol())->Reset();
        grid_->DisableCellEditControl();
        return;
      }
      return undo();
    case act_redo:
      return redo();
    case act_copy:
      return copy();
    case act_paste:
      return paste();
    case act_insert:
      make(insert_row(document_.content(), grid_->row() + 1));
      grid_->go_to(grid_->row() + 1);
      return;
    case act_delete:
      make(delete_rows(document_.content(), grid_->chosen_rows()));
      return;
    case act_take:
      return take_proposal();
    case act_next_doubt:
      return next_doubt();
    case act_keep_doubtful:
    case act_no_priors:
      return wishes_changed();
    case act_all_columns:
      all_columns_ = !all_columns_;
      grid_->show(document_.content().readings, all_columns_);
      grid_->show_marks(view_.marks);
      return;
    case act_readings:
      grid_->SetFocus();
      return;
    case act_findings:
      return tab(0, *findings_);
    case act_lengths:
      plots_->choose(lengths());
      return tab(0, lengths());
    case act_rounds:
      plots_->choose(rounds());
      return tab(0, rounds());
    case act_estimates:
      return tab(1, *estimates_);
    case act_corrections:
      return tab(2, corrections_->choice());
    case act_keys:
      return tell_table(this, "Keys", sheet_of_keys());
    case act_about:
      return about(this);
    default:
      break;
  }
}

void Frame::on_update(wxUpdateUIEvent& event) {
  const auto named = [&](const char* verb, const std::string& label, const char* keys) {
    event.SetText(wx(std::string(verb) + (label.empty() ? "" : " " + label)) + "\t" + keys);
    event.Enable(!label.empty());
  };
  const Wishes& wishes = document_.content().wishes;
  switch (event.GetId()) {
    case act_undo:
      named("&Undo", document_.undo_label(), "Ctrl+Z");
      break;
    case act_redo:
      named("&Redo", document_.redo_label(), "Ctrl+Shift+Z");
      break;
    case act_save:
      event.Enable(document_.dirty() || document_.path().empty());
      break;
    case act_delete:
      event.Enable(!document_.content().readings->rows.empty());
      break;
    case act_next_doubt:
      event.Enable(!view_.marks.empty());
      break;
    case act_take: {
      const auto mark = view_.marks.find(grid_->row());
      event.Enable(mark != view_.marks.end() && mark->second.proposal_mm.has_value());
      break;
    }
    case act_keep_doubtful:
      event.Check(!wishes.set_suspects_aside);
      break;
    case act_no_priors:
      event.Check(!wishes.use_priors);
      break;
    case act_all_columns:
      event.Check(all_columns_);
      break;
    default:
      event.Skip();
  }
}

void Frame::on_close(wxCloseEvent& event) {
  if (event.CanVeto() && !may_leave()) {
    event.Veto();
    return;
  }
  keeping_.wait_until_idle();
  if (!data_folder_.empty() && side_file_kept_) forget(side_file(data_folder_, document_.path()));
  remember_place();
  Destroy();
}

/// Asks what to do with unsaved readings. False: stay.
bool Frame::may_leave() {
  grid_->DisableCellEditControl();
  if (!document_.dirty()) return true;
  wxMessageDialog dialog(this, "Save the readings first?", "Fitwright", wxYES_NO | wxCANCEL | wxICON_QUESTION);
  dialog.SetExtendedMessage("Some readings have changed since they were last saved.");
  dialog.SetYesNoCancelLabels("&Save", "&Leave them", "&Stay here");
  switch (dialog.ShowModal()) {
    case wxID_YES:
      return save();
    case wxID_NO:
      keeping_.wait_until_idle();
      if (!data_folder_.empty()) forget(side_file(data_folder_, document_.path()));
      side_file_kept_ = false;
      return true;
    default:
      return false;
  }
}

void Frame::ask_open() {
  if (!may_leave()) return;
  wxFileDialog dialog(this, "Open readings", {}, {}, csv_filter, wxFD_OPEN | wxFD_FILE_MUST_EXIST);
  if (dialog.ShowModal() == wxID_OK) open(utf8(dialog.GetPath()));
}

bool Frame::save() { return document_.path().empty() ? ask_save_as() : save_to(document_.path()); }

bool Frame::ask_save_as() {
  grid_->DisableCellEditControl();
  wxFileDialog dialog(this, "Save readings", {}, "readings.csv", csv_filter, wxFD_SAVE | wxFD_OVERWRITE_PROMPT);
  return dialog.ShowModal() == wxID_OK && save_to(utf8(dialog.GetPath()));
}

void Frame::ask_settings() {
  wxFileDialog dialog(this, "Settings the coupon was printed with", {}, {}, "Settings (*.json)|*.json|All files|*",
                      wxFD_OPEN | wxFD_FILE_MUST_EXIST);
  if (dialog.ShowModal() != wxID_OK) return;
  const std::string path = utf8(dialog.GetPath());
  const auto bytes = read_whole(path);
  if (!bytes) return tell_problems(this, "These settings cannot be opened", bytes.problems());
  const auto state = parse_state(*bytes, path);
  if (!state) return tell_problems(this, "These settings cannot be opened", state.problems());
  make(with_state(document_.content(), *state));
}

void Frame::copy() {
  if (wxTextEntry* entry = typing()) return entry->Copy();
  if (grid_->HasFocus() || grid_->GetGridWindow()->HasFocus()) return to_clipboard(grid_->selected_text());
  wxKeyEvent key(wxEVT_KEY_DOWN);  // a page copies its own text
  key.m_keyCode = 'C';
  key.SetControlDown(true);
  if (wxWindow* focus = FindFocus()) focus->GetEventHandler()->ProcessEvent(key);
}

void Frame::paste() {
  if (wxTextEntry* entry = typing()) return entry->Paste();
  if (!wxTheClipboard->Open()) return;
  wxTextDataObject data;
  const bool text = wxTheClipboard->GetData(data);
  wxTheClipboard->Close();
  if (!text) return;
  make(paste_block(document_.content(), grid_->row(), grid_->columns(), grid_->column_index(), utf8(data.GetText())));
}

/// Delete on cells: their readings become unread; other cells are left alone, since they cannot be empty.
void Frame::clear_cells() {
  Content next = document_.content();
  std::string label;
  for (const std::size_t row : grid_->chosen_rows()) {
    auto edit = set_cell(next, row, Column::reading, "");
    if (!edit) {
      make(std::move(edit));
      return;
    }
    next = edit->next;
    label = edit->label;
  }
  make(Edit{std::move(next), "clearing " + label, {}});
}

void Frame::take_proposal() {
  const auto mark = view_.marks.find(grid_->row());
  if (mark == view_.marks.end() || !mark->second.proposal_mm) return;
  make(set_cell(document_.content(), grid_->row(), Column::reading, shortest(*mark->second.proposal_mm)));
}

void Frame::next_doubt() {
  if (view_.marks.empty()) return;
  auto next = view_.marks.upper_bound(grid_->row());
  if (next == view_.marks.end()) next = view_.marks.begin();
  grid_->go_to(next->first);
  grid_->SetFocus();
}

void Frame::wishes_changed() {
  Wishes wishes = document_.content().wishes;
  wishes.length_mm = length_->GetValue();
  wishes.tolerance_mm = tolerance_->GetValue();
  wishes.set_suspects_aside = !GetMenuBar()->IsChecked(act_keep_doubtful);
  wishes.use_priors = !GetMenuBar()->IsChecked(act_no_priors);
  make(with_wishes(document_.content(), wishes, "what matters"));
}

}  // namespace fitwright
