#pragma once
// Scenes of the coupons of an evening: each made once, off the main thread.

#include <wx/event.h>

#include <functional>
#include <map>
#include <memory>

#include "bench/coupon_scene.hpp"
#include "bench/latest_job.hpp"

namespace fitwright {

class CouponScenes : public wxEvtHandler {
 public:
  /// Gives the scene of a coupon to `then` on the main thread: at once when it is known, else when it is made, unless
  /// another one was asked for meanwhile.
  void ask(const std::shared_ptr<const Coupon>& coupon, std::function<void(std::shared_ptr<const CouponScene>)> then);
  /// Forgets all of them.
  void clear() { known_.clear(); }

 private:
  std::map<std::shared_ptr<const Coupon>, std::shared_ptr<const CouponScene>> known_;
  std::shared_ptr<const Coupon> wanted_;
  LatestJob making_;  // last: its jobs post to this
};

}  // namespace fitwright
