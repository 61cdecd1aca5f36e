#include "gui/measuring_helpers.hpp"

#include <catch2/catch.hpp>

#include "base/number.hpp"
#include "design/design.hpp"

namespace evening {

PartCopy part(const std::string& design, int copy, int turned_deg) {
  PartCopy p;
  p.coupon = std::make_shared<const Coupon>(make_coupon(design).value());
  p.name = design == "frame" ? "Frame" : design == "bores" ? "Bores" : design == "walls" ? "Walls" : "Stair";
  p.copy = copy;
  p.turned_deg = turned_deg;
  return p;
}

SteelPiece steel(const std::string& id, Kind kind, double mm, int times) {
  SteelPiece piece;
  piece.feature.id = id;
  piece.feature.kind = kind;
  piece.feature.axis = Axis::n;
  piece.feature.nominal_mm = mm;
  piece.times = times;
  return piece;
}

SteelPiece jaws(int times) { return steel("jaws", Kind::zero, 0, times); }

std::shared_ptr<const MeasurePlan> plan(const std::vector<PartCopy>& parts, const std::vector<SteelPiece>& steel,
                                        const MeasureOptions& options) {
  return std::make_shared<const MeasurePlan>(plan_measuring(parts, steel, options).value());
}

std::shared_ptr<const MeasurePlan> first_evening() {
  static const auto kept = plan({part("frame")}, {jaws()});
  return kept;
}

std::string drawn_here(const Measuring& m, double off_mm) {
  const auto lines = due_lines(m);
  const Feature& f = m.plan->spots[lines.at(find_line(lines, m.here)).due.spot].feature;
  return fixed(f.nominal_mm + (f.kind == Kind::zero ? 0 : off_mm), 2);
}

Measuring typed(const Measuring& m, const std::string& text) {
  const auto step = type_line(m, text);
  INFO(text);
  REQUIRE(step);
  return step->next;
}

Measuring read_on(Measuring m, std::size_t readings, double off_mm) {
  for (std::size_t i = 0; i < readings; ++i) m = typed(m, drawn_here(m, off_mm));
  return m;
}

Measuring at(const Measuring& m, const std::string& id, int repeat, int copy) {
  const auto step = go_to(m, {copy, id, repeat});
  INFO(id);
  REQUIRE(step);
  return step->next;
}

}  // namespace evening
