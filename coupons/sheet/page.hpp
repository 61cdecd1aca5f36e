#pragma once
// The pages of a measuring sheet: margins, the head and foot that every page has, and how far down it is filled.

#include <string>
#include <vector>

#include "design/design.hpp"
#include "sheet/canvas.hpp"

namespace fitwright {

namespace sheet_style {
inline constexpr double margin_mm = 15;
inline constexpr double write_mm = 7.2;  ///< height of boxes to write in
inline constexpr double gap_mm = 4;      ///< between sections
inline constexpr TextStyle small{8, false, {0x55, 0x55, 0x55}};
inline constexpr TextStyle body{8.5};
inline constexpr TextStyle strong{8.5, true};
inline constexpr TextStyle heading{10, true};
inline constexpr Colour rule{0x9a, 0x9a, 0x9a};
inline constexpr Colour band{0xee, 0xee, 0xee};
}  // namespace sheet_style

/// The style anchored or wrapped otherwise.
TextStyle anchored(TextStyle style, Anchor anchor);
TextStyle wrapped(TextStyle style, double width_mm);

class Page {
 public:
  /// `pages` is the number of pages that the foot announces.
  Page(const Coupon& coupon, bool letter, int pages);

  Canvas canvas;
  double y = 0;  ///< where the next thing goes

  [[nodiscard]] double left() const { return sheet_style::margin_mm; }
  [[nodiscard]] double right() const { return canvas.width_mm() - sheet_style::margin_mm; }
  [[nodiscard]] double width() const { return right() - left(); }
  [[nodiscard]] double bottom() const;
  [[nodiscard]] double room() const { return bottom() - y; }
  [[nodiscard]] int number() const { return number_; }

  /// Ends the page, begins the next with its head.
  void turn();
  /// Ends the last page. Errors of Canvas::finish.
  Result<std::string> finish();

  /// A section's title; `hint` stands beside it.
  void title(const std::string& words, const std::string& hint = "");
  /// A row of boxes to write in over the whole width, a name above each, wide by their shares.
  struct Field {
    std::string name;
    double share = 1;
    double lead_mm = 0;  ///< more space before it
  };
  void fields(const std::vector<Field>& row);
  /// A caution over the whole width: a warning triangle and words in bold, in a frame.
  void caution(const std::string& words);
  /// Lines with a box to tick before each, in two columns of about the same height.
  void ticks(const std::vector<std::string>& lines);
  /// A box for remarks in the room that is left, if it is enough for a line.
  void notes(const std::string& words);

 private:
  void foot();
  double field(double x, double width_mm, const std::string& name);  ///< gives its right edge
  std::string name_;                                                 ///< of the coupon
  int pages_;
  int number_ = 1;
};

}  // namespace fitwright
