// Letters as outlines: the font's own curves, unhinted, flattened.

#include <cairo-ft.h>
#include <cairo.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <memory>
#include <numbers>
#include <stdexcept>
#include <string_view>
#include <utility>

#include "solid/solid.hpp"

namespace fitwright {
namespace {

constexpr const char* family = "DejaVu Sans";
constexpr const char* style = "Bold";
/// Size at which one unit is one unit of the font's own square (2048 to the em in this family): curves come out exact.
constexpr double font_units = 2048;
/// Largest distance of the flattened outline from the curve. A bead is 40 times as wide.
constexpr double flatness_mm = 0.01;

using Context = std::unique_ptr<cairo_t, decltype(&cairo_destroy)>;

/// A context with the font set, hinting off; no font, an empty one.
/// Its surface has no bounds: on a bounded one cairo drops the letters farther out than ten times the font's size.
Context font_context() {
  const std::unique_ptr<cairo_surface_t, decltype(&cairo_surface_destroy)> surface(
      cairo_recording_surface_create(CAIRO_CONTENT_ALPHA, nullptr), cairo_surface_destroy);
  Context context(cairo_create(surface.get()), cairo_destroy);
  cairo_select_font_face(context.get(), family, CAIRO_FONT_SLANT_NORMAL, CAIRO_FONT_WEIGHT_BOLD);
  cairo_set_font_size(context.get(), font_units);
  const std::unique_ptr<cairo_font_options_t, decltype(&cairo_font_options_destroy)> options(
      cairo_font_options_create(), cairo_font_options_destroy);
  cairo_font_options_set_hint_style(options.get(), CAIRO_HINT_STYLE_NONE);
  cairo_font_options_set_hint_metrics(options.get(), CAIRO_HINT_METRICS_OFF);
  cairo_font_options_set_antialias(options.get(), CAIRO_ANTIALIAS_GRAY);
  cairo_set_font_options(context.get(), options.get());

  // A missing font is replaced by another in silence; other letters would mean another mesh.
  cairo_scaled_font_t* font = cairo_get_scaled_font(context.get());
  if (cairo_scaled_font_status(font) != CAIRO_STATUS_SUCCESS || cairo_scaled_font_get_type(font) != CAIRO_FONT_TYPE_FT)
    return {nullptr, cairo_destroy};
  const FT_Face face = cairo_ft_scaled_font_lock_face(font);
  const bool ours = face && face->family_name && face->style_name && std::string_view(face->family_name) == family &&
                    std::string_view(face->style_name) == style;
  cairo_ft_scaled_font_unlock_face(font);
  return ours ? std::move(context) : Context(nullptr, cairo_destroy);
}

Context font_context_or_throw() {
  Context context = font_context();
  if (!context) throw std::runtime_error("text: the font for labels is not installed (see text_ready)");
  return context;
}

using Path = std::unique_ptr<cairo_path_t, decltype(&cairo_path_destroy)>;

Path path_of(cairo_t* context, const std::string& line) {
  cairo_new_path(context);
  cairo_move_to(context, 0, 0);
  cairo_text_path(context, line.c_str());
  Path path(cairo_copy_path(context), cairo_path_destroy);
  if (path->status != CAIRO_STATUS_SUCCESS) throw std::runtime_error("text: the line could not be drawn");
  return path;
}

/// Font units per mm at a capital height: the height is that of the letter H.
double units_per_mm(cairo_t* context, double capital_height_mm) {
  if (!(capital_height_mm > 0)) throw std::logic_error("text: the capital height must be above 0");
  const Path path = path_of(context, "H");
  double x0 = 0, y0 = 0, x1 = 0, y1 = 0;
  cairo_path_extents(context, &x0, &y0, &x1, &y1);
  return (y1 - y0) / capital_height_mm;
}

using Spot = std::array<double, 2>;

/// Takes path elements in font units, y down; gives rings in nm, y up, turned and moved into place.
class Outliner {
 public:
  Outliner(double x, double y, double turn_deg, double units) : x_(x), y_(y), units_(units) {
    // Quarter turns exactly, so that a label's strokes stay upright.
    const double quarters = turn_deg / 90;
    if (quarters == std::floor(quarters)) {
      constexpr std::array<Spot, 4> turns{{{1, 0}, {0, 1}, {-1, 0}, {0, -1}}};
      const Spot& turn = turns[static_cast<std::size_t>(std::fmod(std::fmod(quarters, 4) + 4, 4))];
      cos_ = turn[0], sin_ = turn[1];
    } else {
      const double angle = turn_deg * std::numbers::pi / 180;
      cos_ = std::cos(angle), sin_ = std::sin(angle);
    }
  }

  void move(Spot to) { finish(), here_ = to, add(to); }
  void line(Spot to) { here_ = to, add(to); }
  void curve(Spot b, Spot c, Spot d) {
    // A chord over 1/n of the parameter leaves the curve by at most |second derivative| / (8 n2).
    double bend = 0;
    for (std::size_t i = 0; i < 2; ++i)
      bend += std::pow(std::max(std::abs(here_[i] - 2 * b[i] + c[i]), std::abs(b[i] - 2 * c[i] + d[i])), 2);
    const double second = 6 * std::sqrt(bend) / units_;
    const int parts = std::max(1, static_cast<int>(std::ceil(std::sqrt(second / (8 * flatness_mm)))));
    const Spot a = here_;
    for (int k = 1; k <= parts; ++k) {
      const double t = static_cast<double>(k) / parts, s = 1 - t;
      Spot p{};
      for (std::size_t i = 0; i < 2; ++i)
        p[i] = s * s * s * a[i] + 3 * s * s * t * b[i] + 3 * s * t * t * c[i] + t * t * t * d[i];
      line(p);
    }
  }
  void finish() {
    if (ring_.size() > 2) region_.push_back(ring_);
    ring_.clear();
  }
  Region take() { return finish(), std::move(region_); }

 private:
  void add(Spot p) {
    const double along = p[0] / units_, up = -p[1] / units_;
    ring_.push_back({nm(x_ + along * cos_ - up * sin_), nm(y_ + along * sin_ + up * cos_)});
  }

  double x_, y_, units_;
  double cos_ = 1, sin_ = 0;
  Spot here_{};
  Ring ring_;
  Region region_;
};

}  // namespace

Result<Done> text_ready() {
  if (font_context()) return Done{};
  return Problem{
      Code::io, {}, "the font for labels, DejaVu Sans Bold, is not installed", "install the package fonts-dejavu-core"};
}

Region text(const std::string& line, double x, double y, double capital_height_mm, double turn_deg) {
  const Context context = font_context_or_throw();
  Outliner outline(x, y, turn_deg, units_per_mm(context.get(), capital_height_mm));
  const Path path = path_of(context.get(), line);
  for (int i = 0; i < path->num_data; i += path->data[i].header.length) {
    const cairo_path_data_t* data = path->data + i;
    const auto at = [&](int k) { return Spot{data[k].point.x, data[k].point.y}; };
    switch (data->header.type) {
      case CAIRO_PATH_MOVE_TO:
        outline.move(at(1));
        break;
      case CAIRO_PATH_LINE_TO:
        outline.line(at(1));
        break;
      case CAIRO_PATH_CURVE_TO:
        outline.curve(at(1), at(2), at(3));
        break;
      case CAIRO_PATH_CLOSE_PATH:
        outline.finish();
        break;
    }
  }
  return unite(outline.take(), {});
}

double text_width_mm(const std::string& line, double capital_height_mm) {
  const Context context = font_context_or_throw();
  cairo_text_extents_t extents;
  cairo_text_extents(context.get(), line.c_str(), &extents);
  return extents.x_advance / units_per_mm(context.get(), capital_height_mm);
}

}  // namespace fitwright
