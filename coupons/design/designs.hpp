#pragma once
// The designs, one file each. `values` holds every parameter of the design, in range (see parameters.hpp).

#include "design/design.hpp"

namespace fitwright {

DesignInfo frame_info();
Result<Coupon> make_frame(const DesignValues& values);

DesignInfo bores_info();
Result<Coupon> make_bores(const DesignValues& values);

DesignInfo walls_info();
Result<Coupon> make_walls(const DesignValues& values);

DesignInfo stair_info();
Result<Coupon> make_stair(const DesignValues& values);

DesignInfo rail_info();
Result<Coupon> make_rail(const DesignValues& values);

DesignInfo tongue_info();
Result<Coupon> make_tongue(const DesignValues& values);

DesignInfo pockets_info();
Result<Coupon> make_pockets(const DesignValues& values);

DesignInfo latch_info();
Result<Coupon> make_latch(const DesignValues& values);

}  // namespace fitwright
