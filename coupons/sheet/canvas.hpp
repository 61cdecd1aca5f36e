#pragma once
// Pages of a PDF, in millimetres from the top left corner; text by the layout library, sizes in points.

#include <memory>
#include <string>
#include <vector>

#include "base/result.hpp"
#include "design/plan.hpp"

namespace fitwright {

struct TextStyle {
  double points = 8.5;
  bool bold = false;
  Colour colour = plan_colour::ink;
  Anchor anchor = Anchor::start;
  double width_mm = 0;  ///< wraps at this width (anchored at the start); 0: one line
};

struct BoxStyle {
  Colour edge = plan_colour::ink;
  double edge_mm = 0.25;
  bool dashed = false;
  bool filled = false;
  Colour fill = plan_colour::white;
};

/// A PDF under way. The bytes depend on what is drawn only: no date, no random number.
class Canvas {
 public:
  Canvas(double width_mm, double height_mm, const std::string& title);
  ~Canvas();
  Canvas(const Canvas&) = delete;
  Canvas& operator=(const Canvas&) = delete;

  [[nodiscard]] double width_mm() const;
  [[nodiscard]] double height_mm() const;

  void next_page();

  /// Words below `top` (their start, middle or end is at `top.x`). Gives the height taken, mm.
  double text(Spot2 top, const std::string& words, const TextStyle& style = {});
  /// One line of words on a baseline.
  void on_baseline(Spot2 at, const std::string& words, const TextStyle& style = {});
  /// Height that `text` would take, mm.
  [[nodiscard]] double text_height(const std::string& words, const TextStyle& style) const;
  /// Width of the longest line, mm.
  [[nodiscard]] double text_width(const std::string& words, const TextStyle& style) const;

  void line(Spot2 a, Spot2 b, double width_mm = 0.25, Colour colour = plan_colour::ink);
  void box(Spot2 top_left, double width_mm, double height_mm, const BoxStyle& style = {});
  /// Paints items moved by `offset`.
  void paint(const std::vector<PlanItem>& items, Spot2 offset);

  /// Ends the document. Error: Code::io when the PDF library reports a failure.
  Result<std::string> finish();

 private:
  struct Inner;
  std::unique_ptr<Inner> inner_;
};

}  // namespace fitwright
