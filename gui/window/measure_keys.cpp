// What the keys do while measuring.

#include <chrono>
#include <cstdlib>

#include "base/number.hpp"
#include "base/words.hpp"
#include "bench/shown.hpp"
#include "window/actions.hpp"
#include "window/clipboard.hpp"
#include "window/measure_place.hpp"

namespace fitwright {
namespace {

constexpr int line_feed = 10;  ///< what some keyboards and calipers send for the second half of a line's end

double seconds_now() {
  return std::chrono::duration<double>(std::chrono::steady_clock::now().time_since_epoch()).count();
}

bool several_lines(const std::string& text) {
  const auto end = text.find_first_of("\r\n");
  return end != std::string::npos && text.find_first_not_of("\r\n", end) != std::string::npos;
}

/// The field that is being typed in, if one is.
wxTextEntry* typed_in() { return dynamic_cast<wxTextEntry*>(wxWindow::FindFocus()); }

}  // namespace

bool MeasurePlace::empty_field() const { return folded(utf8(hand_->field().GetValue())).empty(); }

void MeasurePlace::on_key(wxKeyEvent& event) {
  const bool plain = !event.HasAnyModifiers();
  switch (event.GetKeyCode()) {
    case WXK_RETURN:
    case WXK_NUMPAD_ENTER:
    case line_feed:
      if (event.AltDown()) break;
      return enter(event.GetTimestamp());
    case WXK_SPACE:
      if (!plain || !empty_field()) break;
      if (!doubts().empty() && doubts().front().doubt.proposal_mm)
        make(take_proposal(measuring(), doubts().front().doubt));
      return;
    case WXK_ESCAPE:
      return read_again_or_clear();
    case WXK_BACK:
      if (!plain || !field().IsEmpty()) break;
      return host_.undo();
    case WXK_PAGEUP:
      return step_place(-1);
    case WXK_PAGEDOWN:
      return step_place(1);
    case WXK_UP:
    case WXK_DOWN:
      if (!event.AltDown()) break;
      return step_place(event.GetKeyCode() == WXK_UP ? -1 : 1);
    default:
      break;
  }
  event.Skip();
}

void MeasurePlace::enter(long stamp_ms) {
  const bool line_end = stamp_ms != 0 && last_enter_ms_ != 0 && std::labs(stamp_ms - last_enter_ms_) < line_end_ms;
  if (!measuring().plan) return;
  if (empty_field()) {
    if (line_end) return;
    last_enter_ms_ = 0;
    if (!doubts().empty())
      make(keep_doubtful(measuring(), doubts().front().doubt));
    else
      hand_->refuse(tr("Type what the caliper shows, then Enter."));
    return;
  }
  last_enter_ms_ = stamp_ms;
  const std::string text = utf8(field().GetValue());
  if (make(type_line(measuring(), text, seconds_now()))) field().Clear();
}

/// Esc: what is half typed goes; then the doubtful reading is read again; then a reading taken up again is left.
void MeasurePlace::read_again_or_clear() {
  hand_->refuse({});
  if (!field().IsEmpty()) return field().Clear();
  const auto& here = measuring().here;
  if (measuring().plan && here && taken_at(measuring(), *here))
    make(go_on(measuring()));
  else if (!doubts().empty())
    make(read_again(measuring(), doubts().front().doubt));
}

/// Goes to the reading before or after in the order, whether it is read or not.
void MeasurePlace::step_place(int by) {
  if (!measuring().plan) return;
  const auto lines = due_lines(measuring());
  if (lines.empty()) return;
  const std::size_t at = find_line(lines, measuring().here);
  const auto count = static_cast<int>(lines.size());
  const int from = at == none_there ? (by > 0 ? -1 : count) : static_cast<int>(at);
  const int to = from + by;
  if (to < 0 || to >= count)
    return host_.say(by > 0 ? tr("This is the last reading.") : tr("This is the first reading."));
  go_to_key(lines[static_cast<std::size_t>(to)].key);
}

void MeasurePlace::go_to_key(const ReadingKey& key) {
  field().Clear();
  make(fitwright::go_to(measuring(), key));
}

void MeasurePlace::take_proposal_of_hand() {
  // A reading that the fit doubts has its row chosen; the doubt at the caliper goes before.
  if (const auto key = table_->chosen(); key && table_->in_focus()) {
    for (const DoubtLine& line : doubts())
      if (line.doubt.key == *key) return void(make(take_proposal(measuring(), line.doubt)));
    const auto& rows = host_.document().content().readings->rows;
    for (const auto& [row, mark] : host_.view().marks)
      if (row < rows.size() && key_of(rows[row]) == *key && mark.proposal_mm)
        return void(make(amend_reading(measuring(), *key, shortest(*mark.proposal_mm) + " mm")));
  }
  if (doubts().empty()) return host_.say(tr("No reading is doubtful."));
  make(take_proposal(measuring(), doubts().front().doubt));
}

/// The next reading that is doubted, at the caliper or by the fit, round the end of the table.
void MeasurePlace::next_doubt() {
  if (!table_->IsShown()) do_action(act_table);
  const auto& rows = table_->rows();
  const auto chosen = table_->chosen();
  const auto at = std::find_if(rows.begin(), rows.end(), [&](const TableRow& r) { return chosen && r.key == *chosen; });
  const std::size_t from = at == rows.end() ? rows.size() : static_cast<std::size_t>(at - rows.begin());
  for (std::size_t i = 1; i <= rows.size(); ++i) {
    const TableRow& row = rows[(from + i) % rows.size()];
    if (!row.doubtful) continue;
    table_->choose(row.key);
    table_->list().SetFocus();
    return host_.say(said("{}, {} reading: {}", row.place, row.ordinal, row.remark));
  }
  host_.say(tr("No reading is doubtful."));
}

bool MeasurePlace::do_action(int id) {
  const bool due = measuring().plan != nullptr;
  switch (id) {
    case act_undo:
      if (!field().HasFocus() || field().IsEmpty()) return false;
      field().Clear();
      return true;
    case act_copy:
      copy();
      return true;
    case act_paste:
      paste();
      return true;
    case act_skip:
      if (due) make(skip_here(measuring()));
      return true;
    case act_damaged:
      if (due) make(part_damaged(measuring()));
      return true;
    case act_more:
      if (due) make(one_more_here(measuring()));
      return true;
    case act_delete:
      if (const auto key = table_->chosen(); key && table_->IsShown()) make(delete_reading(measuring(), *key));
      return true;
    case act_take:
      if (due) take_proposal_of_hand();
      return true;
    case act_next_doubt:
      if (due) next_doubt();
      return true;
    case act_table:
      table_wanted_ = !table_wanted_;
      arrange();
      show_table();
      return true;
    default:
      return false;
  }
}

bool MeasurePlace::update_action(wxUpdateUIEvent& event) {
  const bool due = measuring().plan != nullptr && IsShownOnScreen();
  switch (event.GetId()) {
    case act_skip:
    case act_damaged:
      event.Enable(due && measuring().here.has_value());
      return true;
    case act_more:
    case act_paste:
      event.Enable(due);
      return true;
    case act_delete:
      event.Enable(due && table_->IsShown() && table_->chosen().has_value());
      return true;
    case act_take:
      event.Enable(due && (!doubts().empty() || table_->chosen().has_value()));
      return true;
    case act_next_doubt:
      event.Enable(measuring().plan != nullptr);
      return true;
    case act_table:
      event.Enable(due);
      event.Check(table_->IsShown());
      return true;
    default:
      return false;
  }
}

void MeasurePlace::copy() {
  if (wxTextEntry* entry = typed_in()) return entry->Copy();
  if (table_->IsShown()) to_clipboard(table_->as_text());
}

/// One number goes into the field; more than that is shown first.
void MeasurePlace::paste() {
  const auto text = from_clipboard();
  if (!text) return;
  if (field().HasFocus() && !several_lines(*text) && text->find('\t') == std::string::npos)
    return field().WriteText(wx(folded(*text)));
  offer_paste(*text);
}

}  // namespace fitwright
