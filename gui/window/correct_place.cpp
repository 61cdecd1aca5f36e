#include "window/correct_place.hpp"

#include <wx/sizer.h>

namespace fitwright {

CorrectPlace::CorrectPlace(wxWindow* parent, PlaceHost& host) : PlacePanel(parent, host) {
  corrections_ = new CorrectionsPanel(this);
  auto* sizer = new wxBoxSizer(wxVERTICAL);
  sizer->Add(corrections_, 1, wxEXPAND);
  SetSizer(sizer);
  corrections_->on_policy = [this](Policy policy) {
    Wishes wishes = host_.document().content().wishes;
    wishes.policy = policy;
    host_.make(with_wishes(host_.document().content(), wishes, "choice of policy"));
  };
}

void CorrectPlace::view_changed() { corrections_->show(host_.view().corrections); }
void CorrectPlace::take_focus() { corrections_->choice().SetFocus(); }

}  // namespace fitwright
