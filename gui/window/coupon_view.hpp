#pragma once
// The coupon in space, by OpenGL. Turned by arrows or dragging, moved with Shift, nearer and farther by + and - or the
// wheel, all of it with Home or a double click; n, p and Tab go through the features.

#include <wx/glcanvas.h>
#include <wx/timer.h>

#include <chrono>

#include "window/coupon_painter.hpp"
#include "window/coupon_picture.hpp"

namespace fitwright {

class CouponView : public wxGLCanvas, public CouponPicture {
 public:
  /// Null when the display has no OpenGL 3.3.
  static CouponView* make(wxWindow* parent);
  ~CouponView() override;

  wxWindow& window() override { return *this; }
  wxImage picture(int width, int height, double scale) override;

  /// The eye when no motion is left.
  [[nodiscard]] const Camera& camera() const { return goal_; }
  /// Whether it draws by OpenGL; false when that failed after all, and the plan is painted.
  [[nodiscard]] bool in_space() const { return !failed_; }

 private:
  CouponView(wxWindow* parent, const wxGLAttributes& attributes);
  void changed(Change change) override;

  /// Makes the context current and the painter ready; false when it cannot.
  bool ready();
  void paint(wxDC& dc);
  [[nodiscard]] CouponShown shown(const Camera& camera, double scale) const;
  [[nodiscard]] Viewport viewport() const;
  [[nodiscard]] Camera best_camera(const Viewport& view) const;
  /// Goes there in a short motion; at once when nothing is seen of it.
  void go_to(const Camera& camera);
  void move_by_hand(const Camera& camera);
  [[nodiscard]] Camera present() const;
  [[nodiscard]] int feature_at(const wxPoint& at) const;

  void on_mouse(wxMouseEvent& event);
  void on_drag(const wxMouseEvent& event);
  void on_key(wxKeyEvent& event);

  std::unique_ptr<wxGLContext> context_;
  std::unique_ptr<CouponPainter> painter_;
  bool stale_ = true;  ///< the painter holds another scene or other colours
  bool failed_ = false;
  bool by_hand_ = false;  ///< the user chose the eye: resizing keeps it
  Camera from_, goal_;
  std::chrono::steady_clock::time_point start_;
  wxTimer timer_;
  wxPoint pressed_, last_;
  bool dragging_ = false;
};

}  // namespace fitwright
