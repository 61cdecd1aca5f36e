#pragma once
// The corrections with the choice of policy above them.

#include <wx/choice.h>
#include <wx/panel.h>

#include <functional>

#include "window/corrections_page.hpp"

namespace fitwright {

class CorrectionsPanel : public wxPanel {
 public:
  explicit CorrectionsPanel(wxWindow* parent);

  void show(const CorrectionsView& view);
  CorrectionsPage& page() { return *page_; }
  wxChoice& choice() { return *choice_; }
  std::function<void(Policy)> on_policy;

 private:
  wxChoice* choice_;
  CorrectionsPage* page_;
  std::vector<PolicyChoice> choices_;
};

}  // namespace fitwright
