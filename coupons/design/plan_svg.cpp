// The plan of a coupon as an SVG page: title, the scene of plan.hpp, and below it what each number is.

#include <algorithm>
#include <cmath>

#include "base/number.hpp"
#include "design/plan.hpp"

namespace fitwright {
namespace {

// Page, mm.
constexpr double page_width_mm = 190;
constexpr double plan_size_mm = 130;  ///< longer side of the part on the page
constexpr double largest_scale = 3;
constexpr double edge_mm = 8;  ///< around everything
constexpr double title_mm = 18;
constexpr double row_mm = 5.2;  ///< of the list
constexpr int columns = 3;
constexpr double column_mm = 58;
constexpr Colour grey{0x5f, 0x63, 0x68};

std::string number(double value) { return fixed(value, 2); }

std::string hex(Colour colour) {
  constexpr const char* digits = "0123456789ABCDEF";
  std::string text = "#";
  for (const unsigned char part : {colour.red, colour.green, colour.blue}) {
    text += digits[part / 16];
    text += digits[part % 16];
  }
  return text;
}

std::string escaped(const std::string& text) {
  std::string out;
  for (const char c : text) out += c == '&' ? "&amp;" : c == '<' ? "&lt;" : c == '>' ? "&gt;" : std::string(1, c);
  return out;
}

/// Paints items of a scene as SVG elements, one a line, moved by (dx, dy).
class Painter {
 public:
  Painter(double dx, double dy) : dx_(dx), dy_(dy) {}

  void operator()(const PlanLine& l) {
    body_ += "<line x1=\"" + x(l.a) + "\" y1=\"" + y(l.a) + "\" x2=\"" + x(l.b) + "\" y2=\"" + y(l.b) + "\" stroke=\"" +
             hex(l.colour) + "\" stroke-width=\"" + number(l.width_mm) + "\" stroke-opacity=\"" + number(l.strength) +
             "\"/>\n";
  }
  void operator()(const PlanOutline& o) {
    body_ += "<path fill-rule=\"evenodd\"" + paint(o.fill, o.edge, o.edge_mm) + " d=\"";
    for (const std::vector<Spot2>& ring : o.rings) {
      std::string before;
      for (const Spot2& spot : ring) {
        const std::string point = x(spot) + ' ' + y(spot);
        if (point == before) continue;  // finer than the drawing
        body_ += (before.empty() ? 'M' : 'L') + point;
        before = point;
      }
      body_ += 'Z';
    }
    body_ += "\"/>\n";
  }
  void operator()(const PlanDisc& d) {
    body_ += "<circle cx=\"" + x(d.centre) + "\" cy=\"" + y(d.centre) + "\" r=\"" + number(d.radius_mm) + "\"" +
             paint(d.fill, d.edge, d.edge_mm) + "/>\n";
  }
  void operator()(const PlanWords& w) {
    const char* anchor = w.anchor == Anchor::start ? "start" : w.anchor == Anchor::middle ? "middle" : "end";
    body_ += "<text x=\"" + x(w.at) + "\" y=\"" + y(w.at) + "\" font-size=\"" + number(w.size_mm) + "\" fill=\"" +
             hex(w.colour) + "\" text-anchor=\"" + anchor + "\"" + (w.bold ? " font-weight=\"bold\"" : "") + ">" +
             escaped(w.words) + "</text>\n";
  }
  [[nodiscard]] const std::string& body() const { return body_; }

 private:
  [[nodiscard]] std::string x(Spot2 s) const { return number(s.x + dx_); }
  [[nodiscard]] std::string y(Spot2 s) const { return number(s.y + dy_); }
  static std::string paint(Colour fill, Colour edge, double width_mm) {
    return " fill=\"" + hex(fill) + "\"" +
           (width_mm > 0 ? " stroke=\"" + hex(edge) + "\" stroke-width=\"" + number(width_mm) + "\"" : "");
  }

  double dx_, dy_;
  std::string body_;
};

std::string painted(const std::vector<PlanItem>& items, double dx, double dy) {
  Painter painter(dx, dy);
  for (const PlanItem& item : items) std::visit(painter, item);
  return painter.body();
}

std::string how(const JawPlace& place, const Feature& feature) {
  const std::string tool = tool_words(tool_of(place, &feature));
  switch (feature.kind) {
    case Kind::foot:
      return tool + ", at the bed";
    case Kind::pitch:
      return "two-bead less one-bead wall";
    case Kind::flats_plus:
    case Kind::flats_minus:
      return tool + ", flats";
    default:
      return tool;
  }
}

/// What each number is: rows down, then the next column.
std::vector<PlanItem> list_of(const Coupon& coupon, std::size_t rows) {
  std::vector<PlanItem> items;
  for (std::size_t i = 0; i < coupon.places.size(); ++i) {
    const JawPlace& place = coupon.places[i];
    const Feature* f = find_feature(coupon, place.feature_id);
    const double x = column_mm * static_cast<double>(i / rows) + 2, y = row_mm * static_cast<double>(i % rows) + 2;
    add_number(items, {x, y}, 2, place.number, tool_of(place, f), axis_colour(f ? f->axis : Axis::n));
    items.push_back(PlanWords{{x + 4, y + 1}, place.feature_id, 2.8, plan_colour::ink, Anchor::start, true});
    if (!f) continue;
    const bool whole = std::abs(f->nominal_mm - std::round(f->nominal_mm)) < 1e-9;
    items.push_back(
        PlanWords{{x + 26, y + 1}, fixed(f->nominal_mm, whole ? 0 : 3), 2.8, plan_colour::ink, Anchor::end});
    items.push_back(PlanWords{{x + 27.5, y + 1}, how(place, *f), 2.2, grey});
  }
  return items;
}

}  // namespace

std::string plan_svg(const Coupon& coupon) {
  const double scale = std::min(largest_scale, plan_size_mm / std::max(coupon.size_x_mm, coupon.size_y_mm));
  const PlanScene scene = plan_scene(coupon, scale);
  const std::size_t rows = std::max<std::size_t>(1, (coupon.places.size() + columns - 1) / columns);
  const double list_top = edge_mm + title_mm + scene.height_mm + 6;

  const std::string facts = fixed(coupon.size_x_mm, 1) + " x " + fixed(coupon.size_y_mm, 1) + " x " +
                            fixed(coupon.size_z_mm, 2) + " mm, " + fixed(coupon.grams, 1) + " g solid, " +
                            std::to_string(coupon.layers) + " layers; seen from above";
  const std::vector<PlanItem> title{PlanWords{{0, 5}, coupon.design, 6, plan_colour::ink, Anchor::start, true},
                                    PlanWords{{0, 11}, facts, 3.2, grey}};

  const std::string width = number(page_width_mm);
  const std::string height = number(list_top + row_mm * static_cast<double>(rows) + edge_mm);
  return "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"" + width + "mm\" height=\"" + height +
         "mm\" viewBox=\"0 0 " + width + ' ' + height +
         "\" font-family=\"DejaVu Sans, Helvetica, Arial, sans-serif\">\n<rect width=\"" + width + "\" height=\"" +
         height + "\" fill=\"#FFFFFF\"/>\n" + painted(title, edge_mm, edge_mm) +
         painted(scene.items, (page_width_mm - scene.width_mm) / 2, edge_mm + title_mm) +
         painted(list_of(coupon, rows), edge_mm, list_top) + "</svg>\n";
}

}  // namespace fitwright
