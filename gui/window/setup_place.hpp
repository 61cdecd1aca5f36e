#pragma once
// Setup: which printer, material and caliper are on the bench, and what is known of each.

#include <wx/button.h>
#include <wx/choice.h>
#include <wx/scrolwin.h>

#include <map>
#include <string>
#include <vector>

#include "bench/setup_view.hpp"
#include "window/caliper_log_panel.hpp"
#include "window/form_panel.hpp"
#include "window/place_panel.hpp"
#include "window/start_page.hpp"

namespace fitwright {

class SetupPlace : public PlacePanel {
 public:
  SetupPlace(wxWindow* parent, PlaceHost& host);

  void bench_changed() override;
  void take_focus() override;
  bool do_action(int id) override;

  // The parts.
  StartPage& questions() { return *questions_; }
  FormPanel& form(const std::string& key) { return *forms_.at(key); }
  FieldSet& axes() { return axes_; }
  wxChoice& setups() { return *setups_; }
  wxButton& further() { return *further_; }
  wxButton& ending() { return *end_; }
  wxTextCtrl& steel_reading() { return log_->reading(); }
  [[nodiscard]] const SetupView& shown() const { return view_; }
  [[nodiscard]] bool asking() const { return asking_; }

 private:
  void build_top(wxSizer* down);
  void build_forms(wxSizer* down);
  void build_axes(wxSizer* down);
  void show();
  void ask(bool first);
  void begin();
  void lay_out();
  void add_caliper();
  std::string take(const std::string& form, const std::string& key, const std::string& typed);

  Theme theme_;
  SetupView view_;
  record::Id shown_setup_;
  bool asking_ = false;
  wxScrolledWindow* scrolled_ = nullptr;
  wxPanel* known_ = nullptr;
  StartPage* questions_ = nullptr;
  wxChoice* setups_ = nullptr;
  wxButton *further_ = nullptr, *end_ = nullptr;
  wxChoice* calipers_ = nullptr;
  wxStaticText *empty_ = nullptr, *steps_note_ = nullptr, *steps_said_ = nullptr;
  CaliperLogPanel* log_ = nullptr;
  std::map<std::string, FormPanel*> forms_;
  FieldSet axes_;
  std::map<char, wxStaticText*> theory_;
  wxPanel* axes_panel_ = nullptr;
};

}  // namespace fitwright
