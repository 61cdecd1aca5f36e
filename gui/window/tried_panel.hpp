#pragma once
// What a reading decides: the estimate with it beside the one without it.

#include <wx/button.h>
#include <wx/choice.h>
#include <wx/panel.h>

#include <functional>
#include <vector>

#include "bench/tried_view.hpp"
#include "window/page.hpp"

namespace fitwright {

class TriedPage : public Page {
 public:
  explicit TriedPage(wxWindow* parent);
  void show(const TriedView& view);

 protected:
  void lay(Sheet& sheet) override;
  [[nodiscard]] std::string as_text() const override;

 private:
  void lay_table(Sheet& sheet);

  TriedView view_;
};

class TriedPanel : public wxPanel {
 public:
  explicit TriedPanel(wxWindow* parent);

  void show(const TriedView& view);
  wxChoice& choice() { return *choice_; }
  TriedPage& page() { return *page_; }
  wxButton& back() { return *back_; }
  /// Called with the readings to try; with none to end the trial.
  std::function<void(const std::vector<ReadingKey>&)> on_try;

 private:
  wxChoice* choice_;
  wxButton* back_;
  TriedPage* page_;
  std::vector<TriedChoice> choices_;
};

}  // namespace fitwright
