// What the menu does.

#include <wx/filedlg.h>
#include <wx/msgdlg.h>
#include <wx/textentry.h>

#include <sstream>

#include "base/file.hpp"
#include "base/words.hpp"
#include "bench/guide.hpp"
#include "bench/keeping.hpp"
#include "correct/state.hpp"
#include "window/about.hpp"
#include "window/actions.hpp"
#include "window/frame.hpp"
#include "window/guide_window.hpp"
#include "window/language.hpp"
#include "window/messages.hpp"
#include "window/unit.hpp"

namespace fitwright {
namespace {

constexpr const char* csv_filter = noted("Readings (*.csv)|*.csv|All files|*");

TableShown keys_table() {
  TableShown table;
  table.title = tr("Keys");
  table.columns = {tr("keys"), tr("what they do")};
  std::istringstream lines(sheet_of_keys());
  for (std::string line; std::getline(lines, line);) {
    const auto tab = line.find('\t');
    if (tab != std::string::npos) table.rows.push_back({line.substr(0, tab), line.substr(tab + 1)});
  }
  table.rows.push_back({"?", tr("This table")});
  return table;
}

}  // namespace

void Frame::on_action(wxCommandEvent& event) { do_action(event.GetId()); }

void Frame::do_action(int id) {
  const auto then = [this, id](Stage place) {
    go_to(place);
    panel().do_action(id);
  };
  switch (id) {
    case act_open:
      return ask_open();
    case act_record:
      return ask_record();
    case act_own_record:
      if (const auto own = record::default_record_path(); own && may_leave()) open_record(*own);
      return;
    case act_demo:
      if (may_leave()) put_demo();
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
      if (!panel().do_action(id)) undo();
      return;
    case act_redo:
      if (!panel().do_action(id)) redo();
      return;
    case act_inches:
      remember_inches(!bench_.inches());
      bench_.use_inches(!bench_.inches());
      return bench_changed();
    case act_setup:
      return go_to(Stage::setup);
    case act_make:
      return go_to(Stage::make);
    case act_measure:
      return go_to(Stage::measure);
    case act_understand:
      return go_to(Stage::understand);
    case act_correct:
      return go_to(Stage::correct);
    case act_history:
      return go_to(Stage::history);
    case act_fits:
      return go_to(Stage::fits);
    case act_next_doubt:
      return then(Stage::measure);
    case act_findings:
    case act_lengths:
    case act_rounds:
    case act_estimates:
    case act_residuals:
    case act_corner:
    case act_try:
      return then(Stage::understand);
    case act_keep_doubtful:
    case act_no_priors:
      understand_->do_action(id);
      return;
    case act_guide:
      open_guide(guide_page_of(place_));
      return;
    case act_guide_contents:
      open_guide(guide_contents());
      return;
    case act_keys:
      return tell_table(this, keys_table());
    case act_about:
      return tell_table(this, about_table());
    default:
      if (id >= act_recent && id <= act_recent_last) {
        const auto at = static_cast<std::size_t>(id - act_recent);
        if (at < recent_.GetCount() && may_leave()) open_record(utf8(recent_.GetHistoryFile(at)));
        return;
      }
      if (id >= act_language && id <= act_language_last) return say(choose_language(id - act_language));
      panel().do_action(id);
  }
}

GuideWindow& Frame::open_guide(const std::string& page) {
  if (!guide_) guide_ = new GuideWindow(this);
  guide_->show(page);
  return *guide_;
}

/// '?' asks for the keys wherever it is not a letter of a text being typed.
void Frame::on_char_hook(wxKeyEvent& event) {
  const wxWindow* focus = FindFocus();
  const bool typing = dynamic_cast<const wxTextEntry*>(focus) && focus != &measure_->field();
  if (event.GetUnicodeKey() == '?' && !typing)
    do_action(act_keys);
  else
    event.Skip();
}

void Frame::on_update(wxUpdateUIEvent& event) {
  const auto named = [&](const char* verb, const char* sentence, const std::string& label, const char* keys) {
    event.SetText(wx(label.empty() ? tr(verb) : fmt::format(fmt::runtime(tr(sentence)), label)) + "\t" + keys);
    event.Enable(!label.empty());
  };
  switch (event.GetId()) {
    case act_undo:
      named(noted("&Undo"), noted("&Undo {}"), bench_.undo_label(), "Ctrl+Z");
      break;
    case act_redo:
      named(noted("&Redo"), noted("&Redo {}"), bench_.redo_label(), "Ctrl+Shift+Z");
      break;
    case act_inches:
      event.Check(bench_.inches());
      break;
    case act_save:
      event.Enable(document().dirty() || document().path().empty());
      break;
    default:
      for (const Shown& shown : shown_)
        if (shown.panel->update_action(event)) return;
      event.Skip();
  }
}

void Frame::on_close(wxCloseEvent& event) {
  if (event.CanVeto() && !may_leave()) {
    event.Veto();
    return;
  }
  keeping_.wait_until_idle();
  if (!data_folder_.empty() && side_file_kept_) forget(side_file(data_folder_, document().path()));
  remember_place();
  Destroy();
}

/// Asks what to do with unsaved readings. False: stay.
bool Frame::may_leave() {
  if (!document().dirty()) return true;
  wxMessageDialog dialog(this, wx(tr("Save the readings first?")), "Fitwright", wxYES_NO | wxCANCEL | wxICON_QUESTION);
  dialog.SetExtendedMessage(wx(tr("Some readings have changed since they were last saved.")));
  dialog.SetYesNoCancelLabels(wx(tr("&Save")), wx(tr("&Leave them")), wx(tr("&Stay here")));
  switch (dialog.ShowModal()) {
    case wxID_YES:
      return save();
    case wxID_NO:
      keeping_.wait_until_idle();
      if (!data_folder_.empty()) forget(side_file(data_folder_, document().path()));
      side_file_kept_ = false;
      return true;
    default:
      return false;
  }
}

void Frame::ask_open() {
  wxFileDialog dialog(this, wx(tr("Open readings")), {}, {}, wx(tr(csv_filter)), wxFD_OPEN | wxFD_FILE_MUST_EXIST);
  if (dialog.ShowModal() == wxID_OK) take_file(utf8(dialog.GetPath()));
}

void Frame::ask_record() {
  wxFileDialog dialog(this, wx(tr("Open a record")), {}, {}, wx(tr("Records (*.fitwright)|*.fitwright|All files|*")),
                      wxFD_OPEN | wxFD_FILE_MUST_EXIST);
  if (dialog.ShowModal() == wxID_OK && may_leave()) open_record(utf8(dialog.GetPath()));
}

bool Frame::save() { return document().path().empty() ? ask_save_as() : save_to(document().path()); }

bool Frame::ask_save_as() {
  wxFileDialog dialog(this, wx(tr("Save readings")), {}, "readings.csv", wx(tr(csv_filter)),
                      wxFD_SAVE | wxFD_OVERWRITE_PROMPT);
  return dialog.ShowModal() == wxID_OK && save_to(utf8(dialog.GetPath()));
}

void Frame::ask_settings() {
  wxFileDialog dialog(this, wx(tr("Settings the coupon was printed with")), {}, {},
                      wx(tr("Settings (*.json)|*.json|All files|*")), wxFD_OPEN | wxFD_FILE_MUST_EXIST);
  if (dialog.ShowModal() != wxID_OK) return;
  const std::string path = utf8(dialog.GetPath());
  const auto bytes = read_whole(path);
  if (!bytes) return tell_problems(this, tr("These settings cannot be opened"), bytes.problems());
  const auto state = parse_state(*bytes, path);
  if (!state) return tell_problems(this, tr("These settings cannot be opened"), state.problems());
  make(with_state(document().content(), *state));
}

}  // namespace fitwright
