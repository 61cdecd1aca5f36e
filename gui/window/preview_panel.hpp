#pragma once
// What pasting or importing would do, beside the table: read it, then take it or leave it.

#include <wx/button.h>
#include <wx/checkbox.h>
#include <wx/dataview.h>
#include <wx/panel.h>
#include <wx/stattext.h>

#include <functional>

#include "bench/measuring/preview_rows.hpp"
#include "window/theme.hpp"

namespace fitwright {

class PreviewPanel : public wxPanel {
 public:
  explicit PreviewPanel(wxWindow* parent);

  void show(const PreviewRows& preview);

  std::function<void(bool replace)> on_take;
  std::function<void()> on_leave;

  wxButton& take() { return *take_; }
  wxButton& leave() { return *leave_; }
  wxCheckBox& replace() { return *replace_; }
  wxDataViewListCtrl& list() { return *list_; }
  [[nodiscard]] std::string heading() const { return utf8(heading_->GetLabel()); }

 private:
  wxStaticText *heading_, *notes_;
  wxDataViewListCtrl* list_;
  wxCheckBox* replace_;
  wxButton *take_, *leave_;
  std::string heading_text_, notes_text_;
};

}  // namespace fitwright
