#include "window/coupon_scenes.hpp"

#include <utility>

namespace fitwright {

void CouponScenes::ask(const std::shared_ptr<const Coupon>& coupon,
                       std::function<void(std::shared_ptr<const CouponScene>)> then) {
  const bool on_its_way = coupon == wanted_;
  wanted_ = coupon;
  if (!coupon) return then(nullptr);
  if (const auto known = known_.find(coupon); known != known_.end()) return then(known->second);
  if (on_its_way) return;
  making_.start([this, coupon, then = std::move(then)] {
    auto scene = std::make_shared<const CouponScene>(coupon_scene(coupon));
    CallAfter([this, coupon, scene, then] {
      known_[coupon] = scene;
      if (coupon == wanted_) then(scene);
    });
  });
}

}  // namespace fitwright
