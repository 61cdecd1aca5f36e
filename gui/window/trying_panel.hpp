#pragma once
// The places of a printed ladder, graded one after the other with the keys 0 to 4.

#include <wx/button.h>
#include <wx/choice.h>
#include <wx/dataview.h>
#include <wx/panel.h>
#include <wx/stattext.h>

#include <functional>
#include <vector>

#include "bench/fits_view.hpp"
#include "window/theme.hpp"

namespace fitwright {

class TryingPanel : public wxPanel {
 public:
  explicit TryingPanel(wxWindow* parent);

  /// Shows the ladders; the one shown before stays, its next place without a grade is in hand.
  void show(const std::vector<Ladder>& ladders, const std::string& no_ladder);
  /// Grades the place in hand.
  void grade(Grade grade);
  /// Called with the ladder, the place and its grade.
  std::function<void(const Ladder& ladder, std::size_t place, Grade grade)> on_grade;

  // The parts.
  wxChoice& choice() { return *choice_; }
  wxDataViewListCtrl& list() { return *list_; }
  std::vector<wxButton*>& grades() { return grades_; }
  [[nodiscard]] std::size_t in_hand() const { return in_hand_; }
  [[nodiscard]] bool has_ladder() const { return !ladders_.empty(); }

 private:
  void show_ladder();
  void show_place();
  [[nodiscard]] const Ladder* ladder() const;

  Theme theme_;
  std::vector<Ladder> ladders_;
  std::string no_ladder_;
  record::Id shown_;
  std::size_t in_hand_ = 0;
  wxChoice* choice_ = nullptr;
  wxStaticText *place_ = nullptr, *hint_ = nullptr;
  wxDataViewListCtrl* list_ = nullptr;
  std::vector<wxButton*> grades_;
};

}  // namespace fitwright
