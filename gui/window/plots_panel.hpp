#pragma once
// The plots: the chosen one, and beside it the one that goes with it where there is room. Below stands what the mark in
// hand is.

#include <wx/panel.h>
#include <wx/radiobut.h>
#include <wx/stattext.h>

#include <array>
#include <cstddef>
#include <functional>
#include <vector>

#include "bench/bench_view.hpp"
#include "window/plot_panel.hpp"

namespace fitwright {

enum class Plot : std::size_t { lengths, rounds, by_order, by_feature, corner };
inline constexpr std::size_t plot_count = 5;

class PlotsPanel : public wxPanel {
 public:
  explicit PlotsPanel(wxWindow* parent);

  void show(const BenchView& view);
  PlotPanel& plot(Plot which) { return *plots_[static_cast<std::size_t>(which)]; }
  /// Shows one of them.
  void choose(Plot which);
  [[nodiscard]] Plot chosen() const { return chosen_; }
  /// Rows of the mark that was chosen last in a plot that is shown; empty when none is.
  [[nodiscard]] std::vector<std::size_t> chosen_rows() const;
  /// What stands below the plots: the mark in hand, or how to take one.
  wxStaticText& told() { return *told_; }

  std::function<void(std::size_t row)> on_go;

 private:
  void arrange();
  void tell(const std::string& mark);

  std::array<PlotPanel*, plot_count> plots_{};
  std::array<wxRadioButton*, plot_count> picks_{};
  wxStaticText* told_;
  Plot chosen_ = Plot::lengths;
  PlotPanel* last_ = nullptr;  // in which a mark was chosen last
};

}  // namespace fitwright
