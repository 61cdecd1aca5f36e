#pragma once
// The reading in hand: what to put the jaws on, its readings so far, and the field that the next one is typed into.

#include <wx/panel.h>
#include <wx/textctrl.h>

#include <string>

#include "bench/measuring/measure_view.hpp"
#include "window/sheet.hpp"

namespace fitwright {

class HandSheet : public wxPanel {
 public:
  explicit HandSheet(wxWindow* parent);

  /// Shows an evening; the field stands in the line of the reading in hand.
  void show(MeasureView view);
  /// Nothing to measure: says what will be here. The field is hidden.
  void show_nothing(const std::string& words);
  /// Why the line typed was not taken, in the place of the doubt; empty: it was.
  void refuse(const std::string& problem);

  wxTextCtrl& field() { return *field_; }
  [[nodiscard]] const MeasureView& view() const { return view_; }
  [[nodiscard]] const std::string& problem() const { return problem_; }
  /// Paints all but the field; for tests and pictures.
  void paint(wxDC& dc, const wxSize& size);

 private:
  /// Lays all of it; gives where the field belongs (empty when it has no place).
  wxRect lay(Sheet& sheet) const;
  void lay_head(Sheet& sheet, int left, int right) const;
  void lay_feature(Sheet& sheet, int left, int right) const;
  wxRect lay_readings(Sheet& sheet, int left, int right) const;
  void lay_question(Sheet& sheet, int left, int right) const;
  void lay_next(Sheet& sheet, int left, int right) const;
  void place_field();
  void take_theme();

  Theme theme_;
  wxTextCtrl* field_;
  MeasureView view_;
  std::string nothing_, problem_;
};

}  // namespace fitwright
