#include "sheet/canvas.hpp"

#include <cairo-pdf.h>
#include <cairo.h>
#include <pango/pangocairo.h>

#include <array>
#include <cmath>
#include <numbers>

namespace fitwright {
namespace {

constexpr double points_per_mm = 72 / 25.4;
constexpr const char* family = "DejaVu Sans";

template <auto Free>
struct Freed {
  template <class T>
  void operator()(T* held) const {
    Free(held);
  }
};
using Surface = std::unique_ptr<cairo_surface_t, Freed<cairo_surface_destroy>>;
using Context = std::unique_ptr<cairo_t, Freed<cairo_destroy>>;
using Layout = std::unique_ptr<PangoLayout, Freed<g_object_unref>>;
using Font = std::unique_ptr<PangoFontDescription, Freed<pango_font_description_free>>;
using FontOptions = std::unique_ptr<cairo_font_options_t, Freed<cairo_font_options_destroy>>;

double pt(double mm) { return mm * points_per_mm; }
double from_pango(int units) { return units / (PANGO_SCALE * points_per_mm); }

cairo_status_t append(void* bytes, const unsigned char* data, unsigned int count) {
  static_cast<std::string*>(bytes)->append(reinterpret_cast<const char*>(data), count);
  return CAIRO_STATUS_SUCCESS;
}

}  // namespace

struct Canvas::Inner {
  double width_mm, height_mm;
  std::string bytes;
  Surface surface;
  Context context;

  void colour(Colour c, double strength = 1) const {
    cairo_set_source_rgba(context.get(), c.red / 255.0, c.green / 255.0, c.blue / 255.0, strength);
  }

  [[nodiscard]] Layout layout(const std::string& words, const TextStyle& style) const {
    Layout made(pango_cairo_create_layout(context.get()));
    PangoContext* pango = pango_layout_get_context(made.get());
    // Positions of letters as the font has them, whatever screen the machine has.
    const FontOptions options(cairo_font_options_create());
    cairo_font_options_set_hint_style(options.get(), CAIRO_HINT_STYLE_NONE);
    cairo_font_options_set_hint_metrics(options.get(), CAIRO_HINT_METRICS_OFF);
    cairo_font_options_set_antialias(options.get(), CAIRO_ANTIALIAS_GRAY);
    pango_cairo_context_set_font_options(pango, options.get());
    pango_cairo_context_set_resolution(pango, 72);  // points
    pango_context_set_round_glyph_positions(pango, FALSE);

    const Font font(pango_font_description_new());
    pango_font_description_set_family_static(font.get(), family);
    pango_font_description_set_weight(font.get(), style.bold ? PANGO_WEIGHT_BOLD : PANGO_WEIGHT_NORMAL);
    pango_font_description_set_size(font.get(), static_cast<int>(std::lround(style.points * PANGO_SCALE)));
    pango_layout_set_font_description(made.get(), font.get());
    pango_layout_set_text(made.get(), words.c_str(), static_cast<int>(words.size()));
    if (style.width_mm > 0) {
      pango_layout_set_width(made.get(), static_cast<int>(std::lround(pt(style.width_mm) * PANGO_SCALE)));
      pango_layout_set_wrap(made.get(), PANGO_WRAP_WORD);
    }
    return made;
  }

  static double start_of(const Layout& made, double x_mm, Anchor anchor) {
    int width = 0;
    pango_layout_get_size(made.get(), &width, nullptr);
    const double share = anchor == Anchor::start ? 0 : anchor == Anchor::middle ? 0.5 : 1;
    return x_mm - share * from_pango(width);
  }

  void trace(const std::vector<std::vector<Spot2>>& rings, Spot2 offset) const {
    for (const std::vector<Spot2>& ring : rings) {
      cairo_new_sub_path(context.get());
      for (const Spot2& s : ring) cairo_line_to(context.get(), pt(s.x + offset.x), pt(s.y + offset.y));
      cairo_close_path(context.get());
    }
  }

  void fill_and_edge(Colour fill, Colour edge, double edge_mm) const {
    colour(fill);
    if (edge_mm <= 0) return cairo_fill(context.get());
    cairo_fill_preserve(context.get());
    colour(edge);
    cairo_set_line_width(context.get(), pt(edge_mm));
    cairo_stroke(context.get());
  }
};

Canvas::Canvas(double width_mm, double height_mm, const std::string& title) : inner_(std::make_unique<Inner>()) {
  inner_->width_mm = width_mm, inner_->height_mm = height_mm;
  inner_->surface.reset(cairo_pdf_surface_create_for_stream(append, &inner_->bytes, pt(width_mm), pt(height_mm)));
  cairo_surface_t* surface = inner_->surface.get();
  if (cairo_surface_status(surface) == CAIRO_STATUS_SUCCESS) {
    cairo_pdf_surface_set_metadata(surface, CAIRO_PDF_METADATA_TITLE, title.c_str());
    cairo_pdf_surface_set_metadata(surface, CAIRO_PDF_METADATA_CREATOR, "fitwright");
    // Without it the library writes the time of day, and equal input would not give equal bytes.
    cairo_pdf_surface_set_metadata(surface, CAIRO_PDF_METADATA_CREATE_DATE, "2000-01-01T00:00:00Z");
  }
  inner_->context.reset(cairo_create(surface));
  cairo_set_fill_rule(inner_->context.get(), CAIRO_FILL_RULE_EVEN_ODD);
  cairo_set_line_join(inner_->context.get(), CAIRO_LINE_JOIN_ROUND);
}

Canvas::~Canvas() {
  if (inner_->surface) cairo_surface_finish(inner_->surface.get());  // writes into bytes, which are still there
}

double Canvas::width_mm() const { return inner_->width_mm; }
double Canvas::height_mm() const { return inner_->height_mm; }

void Canvas::next_page() { cairo_show_page(inner_->context.get()); }

double Canvas::text(Spot2 top, const std::string& words, const TextStyle& style) {
  const Layout made = inner_->layout(words, style);
  inner_->colour(style.colour);
  cairo_move_to(inner_->context.get(), pt(Inner::start_of(made, top.x, style.anchor)), pt(top.y));
  pango_cairo_show_layout(inner_->context.get(), made.get());
  int height = 0;
  pango_layout_get_size(made.get(), nullptr, &height);
  return from_pango(height);
}

void Canvas::on_baseline(Spot2 at, const std::string& words, const TextStyle& style) {
  const Layout made = inner_->layout(words, style);
  inner_->colour(style.colour);
  const double rise_mm = from_pango(pango_layout_get_baseline(made.get()));
  cairo_move_to(inner_->context.get(), pt(Inner::start_of(made, at.x, style.anchor)), pt(at.y - rise_mm));
  pango_cairo_show_layout(inner_->context.get(), made.get());
}

double Canvas::text_height(const std::string& words, const TextStyle& style) const {
  int height = 0;
  pango_layout_get_size(inner_->layout(words, style).get(), nullptr, &height);
  return from_pango(height);
}

double Canvas::text_width(const std::string& words, const TextStyle& style) const {
  int width = 0;
  pango_layout_get_size(inner_->layout(words, style).get(), &width, nullptr);
  return from_pango(width);
}

void Canvas::line(Spot2 a, Spot2 b, double width_mm, Colour colour) {
  paint({PlanLine{a, b, colour, width_mm}}, {0, 0});
}

void Canvas::box(Spot2 top_left, double width_mm, double height_mm, const BoxStyle& style) {
  cairo_t* context = inner_->context.get();
  cairo_rectangle(context, pt(top_left.x), pt(top_left.y), pt(width_mm), pt(height_mm));
  if (style.filled) {
    inner_->colour(style.fill);
    cairo_fill_preserve(context);
  }
  if (style.edge_mm <= 0) return cairo_new_path(context);
  const std::array<double, 2> dash{pt(0.9), pt(0.9)};
  if (style.dashed) cairo_set_dash(context, dash.data(), static_cast<int>(dash.size()), 0);
  inner_->colour(style.edge);
  cairo_set_line_width(context, pt(style.edge_mm));
  cairo_stroke(context);
  cairo_set_dash(context, nullptr, 0, 0);
}

void Canvas::paint(const std::vector<PlanItem>& items, Spot2 offset) {
  cairo_t* context = inner_->context.get();
  for (const PlanItem& item : items) {
    if (const auto* stroke = std::get_if<PlanLine>(&item)) {
      inner_->colour(stroke->colour, stroke->strength);
      cairo_set_line_width(context, pt(stroke->width_mm));
      cairo_move_to(context, pt(stroke->a.x + offset.x), pt(stroke->a.y + offset.y));
      cairo_line_to(context, pt(stroke->b.x + offset.x), pt(stroke->b.y + offset.y));
      cairo_stroke(context);
    } else if (const auto* outline = std::get_if<PlanOutline>(&item)) {
      inner_->trace(outline->rings, offset);
      inner_->fill_and_edge(outline->fill, outline->edge, outline->edge_mm);
    } else if (const auto* disc = std::get_if<PlanDisc>(&item)) {
      cairo_new_sub_path(context);
      constexpr double whole_turn = 2 * std::numbers::pi;
      cairo_arc(context, pt(disc->centre.x + offset.x), pt(disc->centre.y + offset.y), pt(disc->radius_mm), 0,
                whole_turn);
      cairo_close_path(context);
      inner_->fill_and_edge(disc->fill, disc->edge, disc->edge_mm);
    } else if (const auto* words = std::get_if<PlanWords>(&item)) {
      on_baseline({words->at.x + offset.x, words->at.y + offset.y}, words->words,
                  {pt(words->size_mm), words->bold, words->colour, words->anchor, 0});
    }
  }
}

Result<std::string> Canvas::finish() {
  cairo_show_page(inner_->context.get());
  const bool drawn = cairo_status(inner_->context.get()) == CAIRO_STATUS_SUCCESS;
  cairo_surface_finish(inner_->surface.get());
  if (!drawn || cairo_surface_status(inner_->surface.get()) != CAIRO_STATUS_SUCCESS)
    return Problem{Code::io, {}, "the measuring sheet could not be drawn", "free some memory and try again"};
  return std::move(inner_->bytes);
}

}  // namespace fitwright
