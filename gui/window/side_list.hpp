#pragma once
// The slim list at the side: the places in the order of the job, each with what is done or missing.

#include <wx/dataview.h>
#include <wx/panel.h>

#include <functional>
#include <vector>

#include "bench/places.hpp"

namespace fitwright {

/// A native list, so that keys and screen readers work as everywhere on the desktop.
class SideList : public wxPanel {
 public:
  explicit SideList(wxWindow* parent);

  void show(const std::vector<PlaceLine>& lines);
  /// Marks a place as the one shown; does not call on_choice.
  void choose(Stage place);
  [[nodiscard]] wxDataViewListCtrl& list() { return *list_; }

  std::function<void(Stage)> on_choice;

 private:
  wxDataViewListCtrl* list_;
  std::vector<PlaceLine> lines_;
  bool telling_ = true;
};

}  // namespace fitwright
