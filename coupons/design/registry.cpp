// The table of designs, and the one way to make a coupon of any of them.

#include <algorithm>

#include "design/design.hpp"
#include "design/designs.hpp"
#include "design/parameters.hpp"

namespace fitwright {
namespace {

struct Entry {
  DesignInfo (*info)();
  Result<Coupon> (*make)(const DesignValues&);
};

constexpr Entry entries[] = {
    {frame_info, make_frame},
    {bores_info, make_bores},
    {walls_info, make_walls},
    {stair_info, make_stair},
    {rail_info, make_rail},
    {tongue_info, make_tongue},
    {pockets_info, make_pockets},
    {latch_info, make_latch},
};

}  // namespace

const std::vector<DesignInfo>& designs() {
  static const std::vector<DesignInfo> infos = [] {
    std::vector<DesignInfo> list;
    for (const Entry& entry : entries) list.push_back(entry.info());
    return list;
  }();
  return infos;
}

Result<Coupon> make_coupon(const std::string& design,
                           const std::vector<std::pair<std::string, std::string>>& overrides) {
  const std::vector<DesignInfo>& infos = designs();
  const auto at = std::find_if(infos.begin(), infos.end(), [&](const DesignInfo& i) { return i.name == design; });
  if (at == infos.end()) {
    std::string names;
    for (const DesignInfo& info : infos) names += (names.empty() ? "" : ", ") + info.name;
    return Problem{Code::usage, {}, "there is no coupon design '" + design + "'", "use one of " + names};
  }
  const Result<DesignValues> values = parse_values(*at, overrides);
  if (!values) return values.problems();
  if (const Result<Done> letters = text_ready(); !letters) return letters.problems();
  return entries[at - infos.begin()].make(*values);
}

}  // namespace fitwright
