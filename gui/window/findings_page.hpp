#pragma once
// What the readings say: the first finding largest, each with its one action; the chosen one also tells why.

#include "bench/bench_view.hpp"
#include "window/page.hpp"

namespace fitwright {

class FindingsPage : public Page {
 public:
  explicit FindingsPage(wxWindow* parent);

  void show(const std::vector<FindingLine>& findings, const std::string& otherwise,
            const std::vector<LabelledText>& not_known);
  /// Which finding tells why it is said; -1 none.
  [[nodiscard]] int chosen() const { return chosen_; }
  void choose(int index);

 protected:
  void lay(Sheet& sheet) override;
  [[nodiscard]] std::string as_text() const override;

 private:
  struct Extent {
    int top = 0, bottom = 0;
  };
  void lay_not_known(Sheet& sheet);
  void lay_finding(Sheet& sheet, std::size_t index);
  void on_key(wxKeyEvent& event);
  void on_click(wxMouseEvent& event);

  std::vector<FindingLine> findings_;
  std::string otherwise_;
  std::vector<LabelledText> not_known_;
  std::vector<Extent> extents_;  // where each finding stands on the page
  int chosen_ = 0;
};

}  // namespace fitwright
