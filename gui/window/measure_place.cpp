#include "window/measure_place.hpp"

#include <wx/sizer.h>
#include <wx/textentry.h>

#include "base/number.hpp"
#include "window/actions.hpp"
#include "window/clipboard.hpp"

namespace fitwright {
namespace {

/// The field that is being typed in, if one is.
wxTextEntry* typed_in() { return dynamic_cast<wxTextEntry*>(wxWindow::FindFocus()); }

}  // namespace

MeasurePlace::MeasurePlace(wxWindow* parent, PlaceHost& host) : PlacePanel(parent, host) {
  grid_ = new ReadingsGrid(this);
  hand_ = new Strip(this, "Reading in hand", [this](Sheet& sheet) { lay_hand(sheet); });
  const Theme& theme = hand_->theme();
  SetBackgroundColour(theme.ground);
  hand_->SetMinSize({-1, 4 * GetCharHeight() + 8 * theme.space});
  auto* sizer = new wxBoxSizer(wxVERTICAL);
  sizer->Add(grid_, 1, wxEXPAND | wxLEFT, 2 * theme.space);
  sizer->Add(hand_, 0, wxEXPAND);
  SetSizer(sizer);
  grid_->on_typed = [this](std::size_t row, Column column, const std::string& text) {
    // What could not be taken keeps the cursor where it was typed.
    if (!host_.make(set_cell(host_.document().content(), row, column, text)))
      CallAfter([this, row] { grid_->go_to(row); });
  };
  grid_->on_row = [this](std::size_t row) {
    hand_row_ = row;
    show_hand();
  };
  grid_->on_typing = [this](const std::string& text) {
    typing_ = text;
    if (!text.empty()) problem_.clear();
    hand_->Refresh();
  };
  grid_->on_clear = [this] { clear_cells(); };
}

void MeasurePlace::content_changed() {
  const Content& content = host_.document().content();
  if (&grid_->readings() != content.readings.get()) grid_->show(content.readings, all_columns_);
  show_hand();
}

void MeasurePlace::view_changed() {
  grid_->show_marks(host_.view().marks);
  show_hand();
}

void MeasurePlace::refused(const std::string& problem) {
  problem_ = problem;
  hand_->changed(problem);
}

void MeasurePlace::take_focus() { grid_->SetFocus(); }

void MeasurePlace::go_to(std::size_t row) {
  grid_->go_to(row);
  grid_->SetFocus();
}

void MeasurePlace::end_editing() { grid_->DisableCellEditControl(); }

void MeasurePlace::show_hand() {
  const InHand hand = in_hand(host_.document().content(), hand_row_, host_.view());
  hand_->changed(hand.place + ": " + hand.reading + ", " + hand.detail + " " + hand.doubt);
}

void MeasurePlace::lay_hand(Sheet& s) const {
  const Theme& t = s.theme();
  const InHand hand = in_hand(host_.document().content(), hand_row_, host_.view());
  s.rule(s.margin(), s.width() - s.margin());
  s.skip(3);
  const int top = s.y();
  const int field = s.wide("000.00", t.huge) + s.margin();
  const int right = s.width() - s.margin();
  if (typing_.empty()) {
    s.cell(hand.reading, t.huge, hand.doubt.empty() ? t.text : t.warn, field, Side::right);
  } else {
    s.cell(typing_, t.huge, t.accent, field, Side::right, field);
  }
  const int left = field + 5 * t.space;
  s.move_to(top + t.space);
  s.paragraph(hand.place, t.strong, t.text, left, right);
  if (!problem_.empty()) {
    s.paragraph(problem_, t.body, t.warn, left, right);
  } else if (hand.doubt.empty()) {
    s.paragraph(hand.detail, t.body, t.quiet, left, right);
  } else {
    s.paragraph(hand.doubt, t.body, t.warn, left, right);
  }
}

bool MeasurePlace::do_action(int id) {
  const Content& content = host_.document().content();
  switch (id) {
    case act_undo:
      if (!grid_->IsCellEditControlEnabled()) return false;
      grid_->GetCellEditor(grid_->GetGridCursorRow(), grid_->GetGridCursorCol())->Reset();
      grid_->DisableCellEditControl();
      return true;
    case act_copy:
      copy();
      return true;
    case act_paste:
      paste();
      return true;
    case act_insert:
      host_.make(insert_row(content, grid_->row() + 1));
      grid_->go_to(grid_->row() + 1);
      return true;
    case act_delete:
      host_.make(delete_rows(content, grid_->chosen_rows()));
      return true;
    case act_take:
      take_proposal();
      return true;
    case act_next_doubt:
      next_doubt();
      return true;
    case act_all_columns:
      all_columns_ = !all_columns_;
      grid_->show(content.readings, all_columns_);
      grid_->show_marks(host_.view().marks);
      return true;
    default:
      return false;
  }
}

bool MeasurePlace::update_action(wxUpdateUIEvent& event) {
  switch (event.GetId()) {
    case act_delete:
      event.Enable(!host_.document().content().readings->rows.empty());
      return true;
    case act_next_doubt:
      event.Enable(!host_.view().marks.empty());
      return true;
    case act_take: {
      const auto mark = host_.view().marks.find(grid_->row());
      event.Enable(mark != host_.view().marks.end() && mark->second.proposal_mm.has_value());
      return true;
    }
    case act_all_columns:
      event.Check(all_columns_);
      return true;
    default:
      return false;
  }
}

void MeasurePlace::copy() {
  if (wxTextEntry* entry = typed_in()) return entry->Copy();
  to_clipboard(grid_->selected_text());
}

void MeasurePlace::paste() {
  if (wxTextEntry* entry = typed_in()) return entry->Paste();
  if (const auto text = from_clipboard())
    host_.make(paste_block(host_.document().content(), grid_->row(), grid_->columns(), grid_->column_index(), *text));
}

/// Delete on cells: their readings become unread; other cells are left alone, since they cannot be empty.
void MeasurePlace::clear_cells() {
  Content next = host_.document().content();
  std::string label;
  for (const std::size_t row : grid_->chosen_rows()) {
    auto edit = set_cell(next, row, Column::reading, "");
    if (!edit) {
      host_.make(std::move(edit));
      return;
    }
    next = edit->next;
    label = edit->label;
  }
  host_.make(Edit{std::move(next), "clearing " + label, {}});
}

void MeasurePlace::take_proposal() {
  const auto mark = host_.view().marks.find(grid_->row());
  if (mark == host_.view().marks.end() || !mark->second.proposal_mm) return;
  host_.make(set_cell(host_.document().content(), grid_->row(), Column::reading, shortest(*mark->second.proposal_mm)));
}

void MeasurePlace::next_doubt() {
  const auto& marks = host_.view().marks;
  if (marks.empty()) return;
  auto next = marks.upper_bound(grid_->row());
  if (next == marks.end()) next = marks.begin();
  go_to(next->first);
}

}  // namespace fitwright
