#pragma once
// Fits: what to draw so that parts go together. The question as a sentence to fill in, its answer, what it rests on,
// and the trials of printed ladders.

#include <wx/choice.h>
#include <wx/stattext.h>
#include <wx/textctrl.h>

#include <cstdint>
#include <memory>

#include "bench/fits_view.hpp"
#include "bench/latest_job.hpp"
#include "window/history_place.hpp"
#include "window/place_panel.hpp"
#include "window/plot_panel.hpp"
#include "window/trying_panel.hpp"

namespace fitwright {

class FitsPlace : public PlacePanel {
 public:
  FitsPlace(wxWindow* parent, PlaceHost& host);

  void bench_changed() override { look_when_seen(); }
  void content_changed() override { look_when_seen(); }
  void take_focus() override;

  // The parts.
  TryingPanel& trying() { return *trying_; }
  PlotPanel& curves() { return *curves_; }
  PassagesPage& below() { return *below_; }
  wxChoice& kind() { return *kind_; }
  wxChoice& partner() { return *partner_; }
  wxChoice& fit() { return *fit_; }
  wxTextCtrl& part() { return *part_; }
  wxTextCtrl& chance() { return *chance_; }
  [[nodiscard]] const FitAnswer& answer() const { return answer_; }
  /// What is shown belongs to what was asked.
  [[nodiscard]] bool up_to_date() const { return asked_ == shown_; }

 private:
  wxSizer* build_sentence();
  void look_when_seen();
  void look(bool only_trials = false);
  void ask();
  void show_answer();
  void show_below();
  void grade(const Ladder& ladder, std::size_t place, Grade grade);
  void on_key(wxKeyEvent& event);
  [[nodiscard]] FitQuestion question() const;

  Theme theme_;
  std::shared_ptr<const FitsView> view_ = std::make_shared<FitsView>();
  FitAnswer answer_;
  bool stale_ = true;
  std::uint64_t asked_ = 0, shown_ = 0;
  wxChoice *kind_ = nullptr, *partner_ = nullptr, *fit_ = nullptr;
  wxTextCtrl *part_ = nullptr, *chance_ = nullptr;
  wxStaticText *size_ = nullptr, *promise_ = nullptr;
  TryingPanel* trying_ = nullptr;
  PlotPanel* curves_ = nullptr;
  PassagesPage* below_ = nullptr;

  LatestJob answering_;  // last: its job posts to this window
};

}  // namespace fitwright
