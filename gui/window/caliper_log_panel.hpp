#pragma once
// The caliper's log: what steel of known size read, and a row to add to it.

#include <wx/choice.h>
#include <wx/panel.h>
#include <wx/stattext.h>
#include <wx/textctrl.h>

#include <functional>
#include <string>
#include <vector>

#include "bench/setup_view.hpp"
#include "window/theme.hpp"

namespace fitwright {

class CaliperLogPanel : public wxPanel {
 public:
  explicit CaliperLogPanel(wxWindow* parent);

  /// The log in sentences, broken at `width` pixels.
  void show(const std::vector<std::string>& log, int width);
  wxTextCtrl& reading() { return *reading_; }

  /// Adds an entry to the log. Gives what is wrong with it, in a sentence; empty when it was added.
  std::function<std::string(const SteelEntry&)> on_add;
  std::function<void()> on_layout;

 private:
  wxTextCtrl* field(wxSizer* row, const std::string& name);
  void add();

  Theme theme_;
  wxStaticText *log_ = nullptr, *wrong_ = nullptr;
  wxPanel* row_ = nullptr;
  wxChoice* steel_ = nullptr;
  wxTextCtrl *size_ = nullptr, *reading_ = nullptr;
};

}  // namespace fitwright
