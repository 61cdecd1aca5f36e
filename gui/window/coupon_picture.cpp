#include "window/coupon_picture.hpp"

#include <cstdlib>

#include "base/words.hpp"
#include "window/access.hpp"
#include "window/coupon_view.hpp"
#include "window/plan_view.hpp"
#include "window/theme.hpp"

namespace fitwright {
namespace {

Rgb rgb(const wxColour& c) { return {c.Red(), c.Green(), c.Blue()}; }

}  // namespace

void CouponPicture::set_scene(std::shared_ptr<const CouponScene> scene) {
  scene_ = std::move(scene);
  pose_.size = scene_ ? scene_->size : Vec3{};
  shown_ = scene_ ? scene_->find(wanted_) : -1;
  pointed_ = -1;
  tell(Change::scene);
}

void CouponPicture::set_coupon(std::shared_ptr<const Coupon> coupon) {
  set_scene(coupon ? std::make_shared<const CouponScene>(coupon_scene(std::move(coupon))) : nullptr);
}

void CouponPicture::set_bed(double x_mm, double y_mm) {
  if (pose_.bed_x_mm == x_mm && pose_.bed_y_mm == y_mm) return;
  pose_.bed_x_mm = x_mm, pose_.bed_y_mm = y_mm;
  tell(Change::pose);
}

void CouponPicture::set_turned(int degrees) {
  if (pose_.turned_deg == degrees) return;
  pose_.turned_deg = degrees;
  tell(Change::pose);
}

void CouponPicture::show_feature(const std::string& id, bool second) {
  const int feature = scene_ ? scene_->find(id) : -1;
  wanted_ = id;
  if (feature == shown_ && second == second_) return;
  shown_ = feature;
  second_ = second;
  tell(Change::feature);
}

void CouponPicture::set_theme(Rgb ground, Rgb text) {
  own_theme_ = false;
  text_ = focus_ = text;
  colours_ = view_colours(ground, text);
  tell(Change::colours);
}

void CouponPicture::take_theme() {
  if (!own_theme_) return;
  const Theme theme = theme_of(window());
  text_ = rgb(theme.text), focus_ = rgb(theme.accent);
  colours_ = view_colours(rgb(theme.ground), text_);
  tell(Change::colours);
}

std::string CouponPicture::shown_feature() const {
  return shown_ < 0 ? std::string() : scene_->features[static_cast<std::size_t>(shown_)].feature.id;
}

std::string CouponPicture::said() const {
  return scene_ ? said_of(*scene_, pose_, shown_) : tr("No coupon chosen yet.");
}

void CouponPicture::tell(Change change) {
  set_accessible(window(), name_, said(), Role::picture);
  changed(change);
}

void CouponPicture::point_at(int feature) {
  if (feature == pointed_) return;
  pointed_ = feature;
  const SceneFeature* f = scene_ && feature >= 0 ? &scene_->features[static_cast<std::size_t>(feature)] : nullptr;
  if (f)
    window().SetToolTip(wx(said_of(*f)));
  else
    window().UnsetToolTip();
  if (on_feature) on_feature(f ? f->feature.id : std::string(), f ? said_of(*f) : std::string());
  window().Refresh();
}

void CouponPicture::choose(int feature) {
  if (!scene_ || feature < 0) return;
  const std::string id = scene_->features[static_cast<std::size_t>(feature)].feature.id;
  show_feature(id);
  if (on_choose) on_choose(id);
}

bool CouponPicture::step_by_key(const wxKeyEvent& event) {
  const int key = event.GetKeyCode(), count = scene_ ? static_cast<int>(scene_->features.size()) : 0;
  const bool tab = key == WXK_TAB, back = key == 'p' || key == 'P' || (tab && event.ShiftDown());
  if (!tab && !back && key != 'n' && key != 'N') return false;
  // Stepping back from nothing begins at the end.
  const int next = back ? (shown_ < 0 ? count - 1 : shown_ - 1) : shown_ + 1;
  if (next >= 0 && next < count)
    choose(next);
  else if (tab)
    window().Navigate(back ? wxNavigationKeyEvent::IsBackward : wxNavigationKeyEvent::IsForward);
  return true;
}

CouponPicture& make_coupon_picture(wxWindow* parent) {
  if (!std::getenv("FITWRIGHT_NO_GL"))
    if (CouponPicture* view = CouponView::make(parent)) return *view;
  return *new PlanView(parent);
}

}  // namespace fitwright
