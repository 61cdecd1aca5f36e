#pragma once
// The table of estimates: value and uncertainty, its interval, and what it means on the user's part.

#include "bench/bench_view.hpp"
#include "window/page.hpp"

namespace fitwright {

class EstimatesPage : public Page {
 public:
  explicit EstimatesPage(wxWindow* parent);
  void show(const EstimatesView& view);

 protected:
  void lay(Sheet& sheet) override;
  [[nodiscard]] std::string as_text() const override;

 private:
  void lay_table(Sheet& sheet);
  void lay_list(Sheet& sheet, const std::string& heading, const std::vector<std::string>& lines);

  EstimatesView view_;
};

}  // namespace fitwright
