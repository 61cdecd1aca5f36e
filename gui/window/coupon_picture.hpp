#pragma once
// A picture of a coupon in the window: in space where the display can (CouponView), else from above (PlanView).

#include <wx/image.h>
#include <wx/window.h>

#include <functional>
#include <memory>
#include <string>

#include "bench/coupon_marks.hpp"
#include "bench/coupon_scene.hpp"

namespace fitwright {

class CouponPicture {
 public:
  virtual ~CouponPicture() = default;
  CouponPicture(const CouponPicture&) = delete;
  CouponPicture& operator=(const CouponPicture&) = delete;

  /// The window to lay out. It owns this object.
  virtual wxWindow& window() = 0;
  /// The picture as it will stand when no motion is left, in pixels; `scale` as on a display of that scale. What it
  /// shows does not depend on the pointer or the focus.
  virtual wxImage picture(int width, int height, double scale = 1) = 0;

  /// Shows a scene made elsewhere (coupon_scene() off the main thread), or none.
  void set_scene(std::shared_ptr<const CouponScene> scene);
  /// Makes the scene here; takes up to a few tenths of a second.
  void set_coupon(std::shared_ptr<const Coupon> coupon);
  /// Size of the outlined bed, mm. Without one (0 x 0) the part is seen as in the hand.
  void set_bed(double x_mm, double y_mm);
  /// How the copy lies: 0, 90, 180 or 270 degrees anticlockwise.
  void set_turned(int degrees);
  /// Lights the feature, puts jaws on it and turns it to the viewer; an empty or unknown id shows the whole coupon.
  /// `second`: jaws of a round feature at right angles to its first reading.
  void show_feature(const std::string& id, bool second = false);
  /// Colours for another theme than the window's own, for pictures.
  void set_theme(Rgb ground, Rgb text);

  /// The feature under the pointer and what to say of it; both empty when the pointer left it.
  std::function<void(const std::string& id, const std::string& said)> on_feature;
  /// The feature clicked or stepped to by key; it is shown already.
  std::function<void(const std::string& id)> on_choose;

  /// Id of the feature shown; empty for none.
  [[nodiscard]] std::string shown_feature() const;
  /// What the picture shows, as the screen reader says it.
  [[nodiscard]] std::string said() const;

 protected:
  enum class Change { scene, pose, feature, colours };

  explicit CouponPicture(std::string name) : name_(std::move(name)) {}
  /// Takes the colours of the window's theme.
  void take_theme();
  /// The state is new; draw it.
  virtual void changed(Change change) = 0;
  void point_at(int feature);
  void choose(int feature);
  /// n, p and Tab go through the features; Tab leaves the window after the last. False when the key means nothing here.
  bool step_by_key(const wxKeyEvent& event);
  [[nodiscard]] const Pose& pose() const { return pose_; }

  std::shared_ptr<const CouponScene> scene_;
  ViewColours colours_;
  Rgb text_, focus_;
  int shown_ = -1, pointed_ = -1;
  bool second_ = false;

 private:
  void tell(Change change);

  std::string name_, wanted_;  ///< wanted: id to show, also when the scene comes later
  Pose pose_;
  bool own_theme_ = true;
};

/// The picture that this display can show, a child of `parent`. FITWRIGHT_NO_GL in the environment asks for the plan.
CouponPicture& make_coupon_picture(wxWindow* parent);

}  // namespace fitwright
