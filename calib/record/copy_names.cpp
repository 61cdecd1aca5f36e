#include "record/copy_names.hpp"

#include <algorithm>
#include <map>
#include <set>
#include <utility>

namespace fitwright::record {

std::vector<CopyName> copy_names(const std::vector<CopyToName>& copies) {
  std::map<std::string, std::set<std::string>> coupons_of;  // feature id -> coupons
  for (const CopyToName& c : copies)
    for (const std::string& id : c.feature_ids) coupons_of[id].insert(c.features);
  std::set<std::string> colliding;  // coupons that share an id with another
  for (const auto& [id, coupons] : coupons_of)
    if (coupons.size() > 1) colliding.insert(coupons.begin(), coupons.end());

  std::map<std::string, std::string> prefix;
  std::map<std::string, int> of_design;
  int highest = 0;
  for (const CopyToName& c : copies) {
    highest = std::max(highest, c.print);
    if (prefix.contains(c.features)) continue;
    const int n = ++of_design[c.design];
    prefix[c.features] = !colliding.contains(c.features) ? "" : c.design + (n > 1 ? ' ' + std::to_string(n) : "") + ' ';
  }
  std::vector<CopyName> names;
  std::set<std::pair<int, std::string>> used;  // copy number and coupon
  for (const CopyToName& c : copies) {
    CopyName name{c.print, false, prefix[c.features]};
    if (!used.emplace(name.number, c.features).second) {
      name.number = ++highest;
      name.not_print = true;
      used.emplace(name.number, c.features);
    }
    names.push_back(std::move(name));
  }
  return names;
}

}  // namespace fitwright::record
