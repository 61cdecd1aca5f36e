#include "design/compliance.hpp"

#include <algorithm>
#include <cmath>
#include <initializer_list>
#include <numbers>

namespace fitwright {

using std::numbers::pi;

namespace {
constexpr double shear_modulus_mpa = youngs_modulus_mpa / (2 * (1 + poissons_ratio));
}  // namespace

Section rectangle_section(double across0_mm, double across1_mm, double low_mm, double high_mm) {
  const double width = across1_mm - across0_mm, height = high_mm - low_mm;
  return {width * height, (across0_mm + across1_mm) / 2, (low_mm + high_mm) / 2, height * std::pow(width, 3) / 12,
          width * std::pow(height, 3) / 12};
}

Section together(const Section& a, const Section& b) {
  Section sum;
  sum.area_mm2 = a.area_mm2 + b.area_mm2;
  sum.centre_across_mm = (a.area_mm2 * a.centre_across_mm + b.area_mm2 * b.centre_across_mm) / sum.area_mm2;
  sum.centre_up_mm = (a.area_mm2 * a.centre_up_mm + b.area_mm2 * b.centre_up_mm) / sum.area_mm2;
  for (const Section& part : {a, b}) {
    sum.inertia_plan_mm4 +=
        part.inertia_plan_mm4 + part.area_mm2 * std::pow(part.centre_across_mm - sum.centre_across_mm, 2);
    sum.inertia_up_mm4 += part.inertia_up_mm4 + part.area_mm2 * std::pow(part.centre_up_mm - sum.centre_up_mm, 2);
  }
  return sum;
}

double bar_closing(const Section& section, double length_mm, double across_mm, double up_mm) {
  return length_mm / youngs_modulus_mpa *
         (1 / section.area_mm2 + std::pow(across_mm - section.centre_across_mm, 2) / section.inertia_plan_mm4 +
          std::pow(up_mm - section.centre_up_mm, 2) / section.inertia_up_mm4);
}

double working_width_mm(double length_mm) { return length_mm / 10; }

double torsion_constant_mm4(double width_mm, double height_mm) {
  const double a = std::max(width_mm, height_mm), b = std::min(width_mm, height_mm);
  return a * std::pow(b, 3) * (1.0 / 3 - 0.21 * b / a * (1 - std::pow(b / a, 4) / 12));
}

double framed_panel_closing(double side_mm, double bar_width_mm, double bar_height_mm, double web_mm, double up_mm) {
  constexpr double joints = 1.2;
  const double area = bar_width_mm * bar_height_mm;
  const double bending = youngs_modulus_mpa * bar_width_mm * std::pow(bar_height_mm, 3) / 12;
  const double torsion = shear_modulus_mpa * torsion_constant_mm4(bar_width_mm, bar_height_mm);
  const double lever0 = up_mm - bar_height_mm / 2, lever1 = up_mm - web_mm / 2;
  const double lever2 = (lever0 * lever0 + lever0 * lever1 + lever1 * lever1) / 3;
  return joints * (1 / (2 * shear_modulus_mpa * web_mm) + 2 * side_mm / (3 * youngs_modulus_mpa * area) +
                   side_mm / 2 * (1 / bending + 1 / torsion) * lever2);
}

double ring_closing(double inner_diameter_mm, double wall_mm, double height_mm) {
  const double radius = (inner_diameter_mm + wall_mm) / 2;
  const double inertia = height_mm * std::pow(wall_mm, 3) / 12;
  return (pi / 4 - 2 / pi) * std::pow(radius, 3) / (youngs_modulus_mpa * inertia);
}

double cylinder_closing(double diameter_mm, double length_mm, double force_n) {
  const double plane_modulus_mpa = youngs_modulus_mpa / (1 - poissons_ratio * poissons_ratio);
  const double half_width = std::sqrt(2 * force_n * diameter_mm / (pi * plane_modulus_mpa * length_mm));
  return 2 / (pi * plane_modulus_mpa * length_mm) * (2 * std::log(2 * diameter_mm / half_width) - 1);
}

}  // namespace fitwright
