#pragma once
// The coupon from above, for displays without OpenGL: the plan of the measuring sheet in the window's colours, with the
// shown feature lit.

#include <wx/font.h>
#include <wx/graphics.h>

#include "window/coupon_picture.hpp"

namespace fitwright {

/// What a plan shows apart from the scene.
struct PlanShown {
  Pose pose;
  ViewColours colours;
  Rgb text;
  int feature = -1;  ///< lit, the only one with jaws; -1: the jaw marks of all
  int pointed = -1;
  wxFont font;
};

/// Where the part stands on the paper.
struct PlanPaper {
  double x = 0, y = 0, pixels_per_mm = 1;  ///< pixel of the part's middle
  /// The part's own point at a pixel.
  [[nodiscard]] Vec3 to_part(const Pose& pose, double px, double py) const;
  [[nodiscard]] Vec3 to_paper(const Pose& pose, const Vec3& part) const;
};

/// Paints the plan on a paper of that size, ground included.
PlanPaper paint_plan(wxGraphicsContext& gc, const CouponScene& scene, const PlanShown& shown, double width,
                     double height);
/// The same as an image of `width` x `height` pixels at `scale` pixels a unit; the ground alone without a scene.
wxImage plan_picture(const CouponScene* scene, const PlanShown& shown, int width, int height, double scale);

class PlanView : public wxWindow, public CouponPicture {
 public:
  explicit PlanView(wxWindow* parent);

  wxWindow& window() override { return *this; }
  wxImage picture(int width, int height, double scale) override;

 private:
  void changed(Change) override { Refresh(); }
  [[nodiscard]] PlanShown shown() const;
  [[nodiscard]] int feature_at(const wxPoint& at) const;
  void paint(wxDC& dc);

  PlanPaper paper_;
};

}  // namespace fitwright
