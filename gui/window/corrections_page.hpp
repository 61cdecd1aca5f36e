#pragma once
// Corrections: what to change from what to what, what it does, and what is left alone and why.

#include "bench/bench_view.hpp"
#include "window/page.hpp"

namespace fitwright {

class CorrectionsPage : public Page {
 public:
  explicit CorrectionsPage(wxWindow* parent);
  void show(const CorrectionsView& view);

 protected:
  void lay(Sheet& sheet) override;
  [[nodiscard]] std::string as_text() const override;

 private:
  void lay_compared(Sheet& sheet);
  void lay_table(Sheet& sheet);
  void lay_pairs(Sheet& sheet, const std::string& heading, const std::vector<LabelledText>& pairs);

  CorrectionsView view_;
};

}  // namespace fitwright
