#pragma once
// Corrections: what to change from what to what, what it does, and what is left alone and why.

#include <wx/button.h>
#include <wx/tglbtn.h>

#include <functional>
#include <set>
#include <string>
#include <vector>

#include "bench/bench_view.hpp"
#include "window/page.hpp"

namespace fitwright {

class CorrectionsPage : public Page {
 public:
  explicit CorrectionsPage(wxWindow* parent);
  void show(const CorrectionsView& view);
  /// Whether changes can be marked as applied: only those of a setup of the record.
  void can_mark(bool can);
  /// How many of the rows are marked as set on the machine.
  [[nodiscard]] std::size_t marked() const;
  /// The buttons of a row.
  wxButton& copy_button(std::size_t row) { return *buttons_[row].copy; }
  wxToggleButton& mark_button(std::size_t row) { return *buttons_[row].mark; }

  std::function<void(const std::string& text)> on_copy;
  /// A row was marked or unmarked; `all` of them are marked now.
  std::function<void(bool all)> on_marked;

 protected:
  void lay(Sheet& sheet) override;
  [[nodiscard]] std::string as_text() const override;

 private:
  /// Both buttons of a row. They stand on the page, and Tab goes through them.
  struct Buttons {
    wxButton* copy;
    wxToggleButton* mark;
    int top = 0, bottom = 0;  // of the row, on the page
  };
  void make_buttons();
  void name_mark(std::size_t row);
  void place_buttons(std::size_t row, const Sheet& sheet, int right, int top);
  [[nodiscard]] int buttons_width() const;
  [[nodiscard]] int mark_width() const;
  bool step_focus(bool forward);

  void lay_compared(Sheet& sheet);
  void lay_table(Sheet& sheet);
  void lay_bar(Sheet& sheet, double mm, double reach, int right, int width, int top);
  void lay_caution(Sheet& sheet, const std::string& caution, int right);
  void lay_pairs(Sheet& sheet, const std::string& heading, const std::vector<LabelledText>& pairs);

  CorrectionsView view_;
  std::vector<Buttons> buttons_;
  std::set<std::string> marked_;  // knobs with their new values
  bool can_mark_ = false;
};

}  // namespace fitwright
