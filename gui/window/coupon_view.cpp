#include "window/coupon_view.hpp"

#include <wx/dcclient.h>
#include <wx/graphics.h>

#include <algorithm>
#include <numbers>

#include "base/words.hpp"
#include "window/gl_display.hpp"
#include "window/plan_view.hpp"

namespace fitwright {
namespace {

constexpr double degree = std::numbers::pi / 180;
constexpr double key_turn_rad = 7.5 * degree, drag_turn_rad = 0.4 * degree;  ///< a press; a pixel
constexpr double key_pan = 0.08;                                             ///< share of the picture's height
constexpr double key_zoom = 1.2, wheel_zoom = 1.12;
constexpr int click_slack_dip = 4;  ///< a hand that clicks moves that far
constexpr int frame_ms = 15;
const char* const name = noted("Coupon in space");

wxGLAttributes attributes_with(int samples) {
  wxGLAttributes a;
  a.PlatformDefaults().RGBA().DoubleBuffer().Depth(24);
  if (samples > 0) a.SampleBuffers(1).Samplers(samples);
  a.EndList();
  return a;
}

}  // namespace

CouponView* CouponView::make(wxWindow* parent) {
  if (!display_has_glx()) return nullptr;
  constexpr int smooth = 4;
  for (const int samples : {smooth, 0}) {
    const wxGLAttributes attributes = attributes_with(samples);
    if (!wxGLCanvas::IsDisplaySupported(attributes)) continue;
    auto* view = new CouponView(parent, attributes);
    if (view->context_ && view->context_->IsOK()) return view;
    view->Destroy();
  }
  return nullptr;
}

CouponView::CouponView(wxWindow* parent, const wxGLAttributes& attributes)
    : wxGLCanvas(parent, attributes, wxID_ANY, wxDefaultPosition, parent->FromDIP(wxSize(400, 300)),
                 wxWANTS_CHARS | wxFULL_REPAINT_ON_RESIZE),
      CouponPicture(tr(name)),
      timer_(this) {
  wxGLContextAttrs wanted;
  wanted.PlatformDefaults().CoreProfile().OGLVersion(3, 3).EndList();
  const wxLogNull quiet;  // a display without OpenGL is no error: the plan takes its place
  context_ = std::make_unique<wxGLContext>(this, nullptr, &wanted);
  SetBackgroundStyle(wxBG_STYLE_PAINT);
  take_theme();
  Bind(wxEVT_PAINT, [this](wxPaintEvent&) {
    wxPaintDC dc(this);
    paint(dc);
  });
  Bind(wxEVT_SIZE, [this](wxSizeEvent& event) {
    event.Skip();
    if (!by_hand_) go_to(best_camera(viewport()));
    Refresh();
  });
  Bind(wxEVT_SYS_COLOUR_CHANGED, [this](wxSysColourChangedEvent& event) {
    event.Skip();
    take_theme();
  });
  for (const auto& type : {wxEVT_SET_FOCUS, wxEVT_KILL_FOCUS})
    Bind(type, [this](wxFocusEvent& event) {
      event.Skip();
      Refresh();
    });
  Bind(wxEVT_TIMER, [this](wxTimerEvent&) {
    if (present() == goal_) timer_.Stop();
    Refresh();
  });
  for (const auto& type : {wxEVT_LEFT_DOWN, wxEVT_LEFT_UP, wxEVT_LEFT_DCLICK, wxEVT_RIGHT_DOWN, wxEVT_RIGHT_UP,
                           wxEVT_MIDDLE_DOWN, wxEVT_MIDDLE_UP, wxEVT_MOTION, wxEVT_LEAVE_WINDOW, wxEVT_MOUSEWHEEL})
    Bind(type, &CouponView::on_mouse, this);
  Bind(wxEVT_MOUSE_CAPTURE_LOST, [this](wxMouseCaptureLostEvent&) { dragging_ = false; });
  Bind(wxEVT_CHAR, &CouponView::on_key, this);
}

CouponView::~CouponView() {
  if (!painter_) return;
  if (IsShown() && SetCurrent(*context_))  // a hidden one cannot be made current
    painter_.reset();
  else
    (void)painter_.release();  // without its context there is nothing left to free on the graphics side
}

bool CouponView::ready() {
  if (failed_ || !context_ || !IsShownOnScreen()) return false;
  if (!SetCurrent(*context_)) return false;  // not on the screen yet
  if (!painter_) {
    painter_ = CouponPainter::make();
    failed_ = !painter_;
    stale_ = true;
    if (failed_) return false;
  }
  if (stale_ && scene_) {
    painter_->load(*scene_, colours_);
    stale_ = false;
  }
  return true;
}

CouponShown CouponView::shown(const Camera& camera, double scale) const {
  CouponShown s;
  s.pose = pose();
  s.camera = camera;
  s.colours = colours_;
  s.feature = shown_;
  s.second = second_;
  s.scale = scale;
  return s;
}

void CouponView::paint(wxDC& dc) {
  const wxSize size = GetClientSize();
  if (!scene_ || !ready()) {
    dc.SetBackground(wxBrush(wxColour(colours_.ground.r, colours_.ground.g, colours_.ground.b)));
    dc.Clear();
    if (!scene_ || !failed_) return;
    const std::unique_ptr<wxGraphicsContext> gc(wxGraphicsContext::CreateFromUnknownDC(dc));
    if (gc) paint_plan(*gc, *scene_, {pose(), colours_, text_, shown_, pointed_, GetFont()}, size.x, size.y);
    return;
  }
  const double scale = GetContentScaleFactor();
  CouponShown s = shown(present(), scale * FromDIP(100) / 100.0);
  s.pointed = pointed_;
  s.focused = HasFocus();
  s.focus = focus_;
  glBindFramebuffer(GL_FRAMEBUFFER, 0);
  painter_->paint(*scene_, s, static_cast<int>(size.x * scale), static_cast<int>(size.y * scale));
  SwapBuffers();
}

wxImage CouponView::picture(int width, int height, double scale) {
  if (scene_ && ready())
    if (const auto target = GlPicture::make(width, height)) {
      const Viewport view{width / scale, height / scale};
      target->use();
      painter_->paint(*scene_, shown(by_hand_ ? goal_ : best_camera(view), scale), width, height);
      const std::vector<unsigned char> pixels = target->read();
      wxImage image(width, height, false);
      std::copy(pixels.begin(), pixels.end(), image.GetData());
      return image;
    }
  return plan_picture(scene_.get(), {pose(), colours_, text_, shown_, -1, GetFont()}, width, height, scale);
}

Viewport CouponView::viewport() const {
  const wxSize size = GetClientSize();
  return {std::max(1.0, double(size.x)), std::max(1.0, double(size.y))};
}

Camera CouponView::best_camera(const Viewport& view) const {
  if (scene_ && shown_ >= 0) return camera_for(scene_->features[static_cast<std::size_t>(shown_)], pose(), view);
  return camera_for_all(pose(), view);
}

void CouponView::changed(Change change) {
  if (change == Change::scene || change == Change::colours) stale_ = true;
  if (change != Change::colours) {
    by_hand_ = false;
    const bool moves = change == Change::feature;
    if (!moves) timer_.Stop(), from_ = goal_ = best_camera(viewport());
    go_to(best_camera(viewport()));
  }
  Refresh();
}

void CouponView::go_to(const Camera& camera) {
  from_ = present();
  goal_ = camera;
  start_ = std::chrono::steady_clock::now();
  if (IsShownOnScreen() && scene_ && !(from_ == goal_))
    timer_.Start(frame_ms);
  else
    from_ = goal_;
  Refresh();
}

void CouponView::move_by_hand(const Camera& camera) {
  by_hand_ = true;
  go_to(camera);
}

Camera CouponView::present() const {
  const std::chrono::duration<double, std::milli> gone = std::chrono::steady_clock::now() - start_;
  return between(from_, goal_, eased(gone.count()));
}

int CouponView::feature_at(const wxPoint& at) const {
  return scene_ ? pick(*scene_, pose(), present(), viewport(), at.x + 0.5, at.y + 0.5) : -1;
}

void CouponView::on_drag(const wxMouseEvent& event) {
  const wxPoint at = event.GetPosition(), moved = at - last_;
  const int slack = FromDIP(click_slack_dip);
  if (!dragging_ && std::abs(at.x - pressed_.x) < slack && std::abs(at.y - pressed_.y) < slack) return;
  dragging_ = true;
  last_ = at;
  const Camera camera = present();
  const double height = viewport().height, per_pixel = drag_turn_rad * 100.0 / FromDIP(100);
  const bool pans = event.ShiftDown() || event.RightIsDown() || event.MiddleIsDown();
  from_ = goal_ = pans ? pan(camera, -moved.x / height, moved.y / height)
                       : orbit(camera, -moved.x * per_pixel, moved.y * per_pixel);
  by_hand_ = true;
  Refresh();
}

void CouponView::on_mouse(wxMouseEvent& event) {
  const wxPoint at = event.GetPosition();
  const bool held = event.LeftIsDown() || event.MiddleIsDown() || event.RightIsDown();
  if (event.LeftDClick()) {
    by_hand_ = false;
    go_to(best_camera(viewport()));
  } else if (event.ButtonDown()) {
    SetFocus();
    pressed_ = last_ = at;
    dragging_ = false;
    if (!HasCapture()) CaptureMouse();
  } else if (event.ButtonUp()) {
    if (!held && HasCapture()) ReleaseMouse();
    if (event.LeftUp() && !dragging_) choose(feature_at(at));
    dragging_ = false;
  } else if (event.Dragging() && HasCapture()) {
    on_drag(event);
  } else if (event.Leaving()) {
    point_at(-1);
  } else if (event.GetWheelRotation() != 0) {
    const Viewport view = viewport();
    const double x = (at.x - view.width / 2) / view.height, y = (view.height / 2 - at.y) / view.height;
    const double turns = double(event.GetWheelRotation()) / std::max(1, event.GetWheelDelta());
    move_by_hand(zoom(goal_, std::pow(wheel_zoom, turns), x, y));
  } else if (event.Moving()) {
    point_at(feature_at(at));
  }
  if (!event.ButtonDown()) event.Skip();
}

void CouponView::on_key(wxKeyEvent& event) {
  if (event.ControlDown() || event.AltDown()) return event.Skip();
  if (step_by_key(event)) return;
  const bool pans = event.ShiftDown();
  const auto go = [&](double right, double up) {
    move_by_hand(pans ? pan(goal_, right * key_pan, up * key_pan)
                      : orbit(goal_, right * key_turn_rad, up * key_turn_rad));
  };
  switch (event.GetKeyCode()) {
    case WXK_LEFT:
      return go(-1, 0);
    case WXK_RIGHT:
      return go(1, 0);
    case WXK_UP:
      return go(0, 1);
    case WXK_DOWN:
      return go(0, -1);
    case '+':
    case '=':
    case WXK_NUMPAD_ADD:
      return move_by_hand(zoom(goal_, key_zoom));
    case '-':
    case WXK_NUMPAD_SUBTRACT:
      return move_by_hand(zoom(goal_, 1 / key_zoom));
    case WXK_HOME:
    case WXK_NUMPAD_HOME:
      go_to(camera_for_all(pose(), viewport()));
      by_hand_ = shown_ >= 0;
      return;
    default:
      event.Skip();
  }
}

}  // namespace fitwright
