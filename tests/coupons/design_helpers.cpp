#include "design_helpers.hpp"

#include <stdexcept>

namespace fitwright::design_test {

Coupon made(const std::string& design, const Overrides& overrides) {
  Result<Coupon> coupon = make_coupon(design, overrides);
  if (!coupon) throw std::runtime_error(coupon.problems().front().text());
  return std::move(*coupon);
}

std::string Case::text() const {
  std::string words = design;
  for (const auto& [name, value] : overrides) words += ' ' + name + '=' + value;
  return words;
}

const std::vector<Case>& cases() {
  static const std::vector<Case> list = [] {
    const Overrides fine{{"layer_height_mm", "0.12"}, {"first_layer_height_mm", "0.2"}, {"bead_width_mm", "0.35"}};
    const Overrides coarse{{"layer_height_mm", "0.28"}, {"first_layer_height_mm", "0.28"}, {"bead_width_mm", "0.6"}};
    std::vector<Case> all;
    for (const DesignInfo& info : designs())
      for (Overrides overrides : {Overrides{}, fine, coarse}) {
        // Fewer facets where the layers are what is looked at: the meshes are small then.
        if (info.name == "bores" && !overrides.empty()) overrides.emplace_back("facets", "48");
        all.push_back({info.name, overrides});
      }
    for (const char* piece : {"1", "2", "3", "4"}) all.push_back({"walls", {{"piece", piece}}});
    all.push_back({"rail", {{"diameter_mm", "3"}, {"count", "5"}, {"start_mm", "0"}, {"step_mm", "0.025"}}});
    all.push_back({"rail", {{"diameter_mm", "20"}, {"count", "4"}, {"start_mm", "0.3"}}});
    all.push_back({"rail", {{"count", "1"}}});
    all.push_back({"tongue", {{"width_mm", "30"}, {"count", "6"}}});
    all.push_back({"tongue", {{"width_mm", "10.7"}, {"start_mm", "-0.6"}, {"count", "24"}, {"bed_x_mm", "220"}}});
    all.push_back({"tongue", {{"count", "1"}}});
    all.push_back({"pockets", {{"size_mm", "22"}, {"count", "6"}}});
    all.push_back({"pockets", {{"size_mm", "40"}, {"count", "2"}}});
    all.push_back({"pockets", {{"size_mm", "3"}}});
    all.push_back({"pockets", {{"size_mm", "7"}, {"sides", "6"}}});
    all.push_back({"pockets", {{"size_mm", "20"}, {"sides", "4"}, {"count", "3"}}});
    all.push_back({"pockets", {{"size_mm", "4"}, {"sides", "6"}, {"depth_mm", "2"}}});
    all.push_back({"latch", {{"length_mm", "8"}, {"thickness_count", "1"}, {"undercut_count", "1"}}});
    all.push_back(
        {"latch", {{"length_mm", "30"}, {"thickness_mm", "3"}, {"undercut_mm", "5"}, {"undercut_count", "1"}}});
    all.push_back({"walls", {{"wide_bead_width_mm", "1.6"}}});
    all.push_back({"stair", {{"tallest_mm", "30"}}});
    all.push_back({"stair", {{"tallest_mm", "100"}, {"layer_height_mm", "0.3"}}});
    for (const char* side : {"60", "67.3", "78", "80", "99.5", "108"}) all.push_back({"frame", {{"side_mm", side}}});
    all.push_back(
        {"frame", {{"side_mm", "200"}, {"caliper_range_mm", "300"}, {"bed_x_mm", "250"}, {"bed_y_mm", "250"}}});
    return all;
  }();
  return list;
}

const Feature& feature(const Coupon& coupon, const std::string& id) {
  for (const Feature& f : coupon.features)
    if (f.id == id) return f;
  throw std::runtime_error("no feature " + id);
}

const JawPlace& place(const Coupon& coupon, const std::string& id) {
  for (const JawPlace& p : coupon.places)
    if (p.feature_id == id) return p;
  throw std::runtime_error("no place for " + id);
}

const Region& region_at(const Solid& solid, double z_mm) {
  for (const Slab& slab : solid.slabs)
    if (mm(slab.bottom) <= z_mm && z_mm < mm(slab.top)) return slab.region;
  static const Region none;
  return none;
}

double area_mm2(const Region& region) {
  double twice = 0;
  for (const Ring& ring : region)
    for (std::size_t i = 0; i < ring.size(); ++i) {
      const Point &a = ring[i], &b = ring[(i + 1) % ring.size()];
      twice += mm(a.x) * mm(b.y) - mm(b.x) * mm(a.y);
    }
  return twice / 2;
}

}  // namespace fitwright::design_test
