// The plan of a coupon: outlines from above as they will be printed, engraved names included, with a numbered mark
// where the jaws go, and below it what each number is.

#include <algorithm>
#include <cmath>

#include "base/number.hpp"
#include "design/design.hpp"
#include "design/plan_places.hpp"

namespace fitwright {
namespace {

// Page, mm.
constexpr double page_width_mm = 190;
constexpr double plan_size_mm = 130;  ///< longer side of the part on the page
constexpr double largest_scale = 3;
constexpr double edge_mm = 8;  ///< around everything
constexpr double title_mm = 17;
constexpr double surround_mm = 9;  ///< around the part at least: axes, numbers beyond the corners
constexpr double row_mm = 4.6;     ///< of the list
constexpr double column_mm = 58;

// Okabe and Ito (2008), colours that most eyes tell apart.
constexpr const char* blue = "#0072B2";
constexpr const char* vermilion = "#D55E00";
constexpr const char* green = "#009E73";
constexpr const char* ink = "#333333";
constexpr const char* engraved_fill = "#7c838a";

const char* colour(Axis axis) {
  switch (axis) {
    case Axis::x:
      return blue;
    case Axis::y:
      return vermilion;
    case Axis::z:
      return green;
    default:
      return ink;
  }
}

/// Grey of a surface at `height` of `most`: low ones are light. By the square root, so that low steps differ too.
std::string shade(double height, double most) {
  const double dark = std::sqrt(std::clamp(height / most, 0.0, 1.0));
  const auto channel = [&](double light, double deep) {
    return std::to_string(std::lround(light + (deep - light) * dark));
  };
  return "rgb(" + channel(252, 186) + "," + channel(251, 191) + "," + channel(248, 197) + ")";
}

std::string number(double value) { return fixed(value, 2); }

std::string escaped(const std::string& text) {
  std::string out;
  for (const char c : text) out += c == '&' ? "&amp;" : c == '<' ? "&lt;" : c == '>' ? "&gt;" : std::string(1, c);
  return out;
}

/// SVG elements, one a line.
class Svg {
 public:
  void line(Spot2 a, Spot2 b, const char* stroke, double width, double opacity = 1) {
    body_ += "<line x1=\"" + number(a.x) + "\" y1=\"" + number(a.y) + "\" x2=\"" + number(b.x) + "\" y2=\"" +
             number(b.y) + "\" stroke=\"" + stroke + "\" stroke-width=\"" + number(width) + "\" stroke-opacity=\"" +
             number(opacity) + "\"/>\n";
  }
  void polygon(const std::vector<Spot2>& points, const char* fill, const char* stroke = "none") {
    body_ += "<polygon points=\"";
    for (std::size_t i = 0; i < points.size(); ++i)
      body_ += (i ? " " : "") + number(points[i].x) + ',' + number(points[i].y);
    body_ += std::string("\" fill=\"") + fill + "\" stroke=\"" + stroke + "\" stroke-width=\"0.20\"/>\n";
  }
  void disc(Spot2 centre, double radius, const char* fill) {
    body_ += "<circle cx=\"" + number(centre.x) + "\" cy=\"" + number(centre.y) + "\" r=\"" + number(radius) +
             "\" fill=\"" + fill + "\" stroke=\"#ffffff\" stroke-width=\"0.40\"/>\n";
  }
  void text(Spot2 at, const std::string& words, double size, const char* fill, const char* anchor = "start",
            bool bold = false) {
    body_ += "<text x=\"" + number(at.x) + "\" y=\"" + number(at.y) + "\" font-size=\"" + number(size) + "\" fill=\"" +
             fill + "\" text-anchor=\"" + anchor + "\"" + (bold ? " font-weight=\"bold\"" : "") + ">" + escaped(words) +
             "</text>\n";
  }
  void region(const Region& region, const PlanScale& scale, const std::string& fill, const char* stroke) {
    body_ += "<path fill=\"" + fill + "\" stroke=\"" + stroke + "\" stroke-width=\"0.15\" fill-rule=\"evenodd\" d=\"";
    for (const Ring& ring : region) {
      std::string before;
      for (std::size_t i = 0; i < ring.size(); ++i) {
        const Spot2 p = scale.at(mm(ring[i].x), mm(ring[i].y));
        const std::string point = number(p.x) + ' ' + number(p.y);
        if (point == before) continue;  // finer than the drawing
        body_ += (i ? 'L' : 'M') + point;
        before = point;
      }
      body_ += 'Z';
    }
    body_ += "\"/>\n";
  }
  [[nodiscard]] std::string page(double width, double height) const {
    const std::string w = number(width), h = number(height);
    return "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"" + w + "mm\" height=\"" + h + "mm\" viewBox=\"0 0 " + w +
           ' ' + h + "\" font-family=\"DejaVu Sans, Helvetica, Arial, sans-serif\">\n<rect width=\"" + w +
           "\" height=\"" + h + "\" fill=\"#ffffff\"/>\n" + body_ + "</svg>\n";
  }

 private:
  std::string body_;
};

/// A jaw: a small triangle whose tip touches the face at `at`, coming along (dx, dy).
void jaw(Svg& svg, Spot2 at, double dx, double dy, const char* fill, double length = 2.0) {
  const double half = 0.55 * length;
  const Spot2 back{at.x - dx * length, at.y - dy * length};
  svg.polygon({at, {back.x - dy * half, back.y + dx * half}, {back.x + dy * half, back.y - dx * half}}, fill);
}

void number_disc(Svg& svg, Spot2 at, int value, const char* fill) {
  svg.disc(at, number_radius_mm, fill);
  svg.text({at.x, at.y + 1.0}, std::to_string(value), 2.8, "#ffffff", "middle", true);
}

bool is_round(Kind kind) { return kind == Kind::hole || kind == Kind::peg || kind == Kind::pin; }

void draw_jaws(Svg& svg, const PlanMark& m) {
  if (m.feature && m.feature->kind == Kind::pin) return;  // a shank, no jaws
  const char* c = colour(m.feature ? m.feature->axis : Axis::n);
  const double sign = m.place->inside ? -1 : 1;
  if (m.dx == 0 && m.dy == 0) {  // a height: one jaw above, one below
    svg.polygon({{m.a.x - 1.3, m.a.y - 1.3},
                 {m.a.x + 1.3, m.a.y - 1.3},
                 {m.a.x + 1.3, m.a.y + 1.3},
                 {m.a.x - 1.3, m.a.y + 1.3}},
                c);
    return;
  }
  if (m.moved_out) {
    svg.line(m.a, m.line_a, c, 0.18, 0.7);
    svg.line(m.b, m.line_b, c, 0.18, 0.7);
    svg.line(m.line_a, m.line_b, c, 0.3);
    jaw(svg, m.line_a, -m.dx, -m.dy, c);
    jaw(svg, m.line_b, m.dx, m.dy, c);
  } else if (m.dx == 0 || m.dy == 0) {
    svg.line(m.a, m.b, c, 0.25, 0.6);
  }
  // Inside jaws in a small hole: no longer than lets them stand side by side.
  const double apart = std::hypot(m.b.x - m.a.x, m.b.y - m.a.y),
               size = m.place->inside ? std::min(2.0, apart / 3.5) : 2.0;
  jaw(svg, m.a, sign * m.dx, sign * m.dy, c, size);
  jaw(svg, m.b, -sign * m.dx, -sign * m.dy, c, size);
  if (m.feature && is_round(m.feature->kind)) {  // second reading, at right angles
    const Spot2 centre{(m.a.x + m.b.x) / 2, (m.a.y + m.b.y) / 2};
    jaw(svg, {centre.x, centre.y - apart / 2}, 0, sign, c, size);
    jaw(svg, {centre.x, centre.y + apart / 2}, 0, -sign, c, size);
  }
}

std::string jaws_for(const PlanMark& m) {
  if (!m.feature) return "";
  switch (m.feature->kind) {
    case Kind::pin:
      return "drill shank";
    case Kind::foot:
      return "outside jaws, at the bed";
    case Kind::wall:
      return "outside jaws, wall";
    case Kind::pitch:
      return "two-bead less one-bead wall";
    case Kind::flats_plus:
    case Kind::flats_minus:
      return "outside jaws, flats";
    default:
      return m.place->inside ? "inside jaws" : "outside jaws";
  }
}

void draw_axes(Svg& svg, const PlanScale& scale, const PlanLayout& layout) {
  const Spot2 corner = scale.at(0, 0);
  const Spot2 o{corner.x - layout.margins.left - surround_mm, corner.y + layout.margins.front + surround_mm};
  constexpr double length = 11;
  svg.line(o, {o.x + length - 2, o.y}, blue, 0.5);
  jaw(svg, {o.x + length, o.y}, 1, 0, blue);
  svg.line(o, {o.x, o.y - length + 2}, vermilion, 0.5);
  jaw(svg, {o.x, o.y - length}, 0, -1, vermilion);
  svg.text({o.x + length + 1.2, o.y + 1.2}, "X", 3.4, blue, "start", true);
  svg.text({o.x, o.y - length - 1.4}, "Y", 3.4, vermilion, "middle", true);
}

/// Rows down, then the next column.
void draw_list(Svg& svg, const std::vector<PlanMark>& marks, double top, int rows) {
  for (std::size_t i = 0; i < marks.size(); ++i) {
    const PlanMark& m = marks[i];
    const double x = edge_mm + column_mm * static_cast<double>(i / static_cast<std::size_t>(rows)) + number_radius_mm;
    const double y = top + row_mm * static_cast<double>(i % static_cast<std::size_t>(rows)) + number_radius_mm;
    const char* c = colour(m.feature ? m.feature->axis : Axis::n);
    svg.disc({x, y}, 1.9, c);
    svg.text({x, y + 0.8}, std::to_string(m.place->number), 2.2, "#ffffff", "middle", true);
    svg.text({x + 3.2, y + 1.0}, m.place->feature_id, 2.8, ink, "start", true);
    if (!m.feature) continue;
    const int decimals = std::abs(m.feature->nominal_mm - std::round(m.feature->nominal_mm)) < 1e-9 ? 0 : 3;
    svg.text({x + 25.5, y + 1.0}, fixed(m.feature->nominal_mm, decimals), 2.8, ink, "end");
    svg.text({x + 27, y + 1.0}, jaws_for(m), 2.2, "#5f6368");
  }
}

}  // namespace

std::string plan_svg(const Coupon& coupon) {
  PlanScale scale;
  scale.scale = std::min(largest_scale, plan_size_mm / std::max(coupon.size_x_mm, coupon.size_y_mm));
  const PlanMargins margins = plan_layout(coupon, scale).margins;
  const double drawn_x = scale.scale * coupon.size_x_mm, drawn_y = scale.scale * coupon.size_y_mm;
  scale.left = (page_width_mm - drawn_x + margins.left - margins.right) / 2;
  const double back = std::max(surround_mm, margins.back + number_radius_mm + 2);
  scale.bottom = edge_mm + title_mm + back + drawn_y;
  const PlanLayout layout = plan_layout(coupon, scale);

  Svg svg;
  svg.text({edge_mm, edge_mm + 5}, coupon.design, 6, ink, "start", true);
  svg.text({edge_mm, edge_mm + 11},
           fixed(coupon.size_x_mm, 1) + " x " + fixed(coupon.size_y_mm, 1) + " x " + fixed(coupon.size_z_mm, 2) +
               " mm, " + fixed(coupon.grams, 1) + " g solid, " + std::to_string(coupon.layers) +
               " layers; seen from above",
           3.2, "#5f6368");

  for (const Slab& slab : coupon.solid.slabs)
    svg.region(slab.region, scale, shade(mm(slab.bottom), coupon.size_z_mm), "#5f6368");
  svg.region(coupon.engraved, scale, engraved_fill, engraved_fill);
  for (const PlanMark& m : layout.marks) draw_jaws(svg, m);
  for (const PlanMark& m : layout.marks)
    for (const Spot2& s : m.numbers)
      number_disc(svg, s, m.place->number, colour(m.feature ? m.feature->axis : Axis::n));

  draw_axes(svg, scale, layout);
  const double front = scale.bottom + layout.margins.front + surround_mm;
  svg.text({scale.left + drawn_x / 2, front + 2.5}, "front", 3.6, ink, "middle", true);

  const double list_top = front + 8;
  const int columns = 3, rows = (static_cast<int>(layout.marks.size()) + columns - 1) / columns;
  draw_list(svg, layout.marks, list_top, std::max(1, rows));
  return svg.page(page_width_mm, list_top + row_mm * rows + edge_mm);
}

}  // namespace fitwright
