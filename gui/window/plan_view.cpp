#include "window/plan_view.hpp"

#include <wx/dcbuffer.h>

#include <algorithm>
#include <cmath>

#include "base/words.hpp"
#include "design/plan.hpp"
#include "window/theme.hpp"

namespace fitwright {
namespace {

constexpr double page_mm_per_line = 4.6;  ///< height of a line of the window's text, in the plan's millimetres
constexpr double mark_contrast = 3;       ///< WCAG 2.1, 1.4.11 non-text contrast
const char* const name = noted("Coupon from above");

wxColour colour(Rgb c, double opacity = 1) {
  return {c.r, c.g, c.b, static_cast<unsigned char>(std::lround(255 * std::clamp(opacity, 0.0, 1.0)))};
}

/// The sheet's colours on the window's ground: its greys run from ground to text, its hues keep their contrast.
Rgb themed(Colour c, const PlanShown& shown) {
  const auto [low, high] = std::minmax({c.red, c.green, c.blue});
  constexpr int grey = 24;
  if (high - low < grey) return mixed(shown.colours.ground, shown.text, (low + high) / 2.0 / 255);
  return with_contrast({c.red, c.green, c.blue}, shown.colours.ground, mark_contrast);
}

/// Turns points of the page, Y downward, anticlockwise about the origin, and moves them onto the paper.
struct OnPaper {
  int quarters = 0;
  double x = 0, y = 0, pixels = 1;  ///< of the page's origin; pixels a page millimetre
  [[nodiscard]] wxPoint2DDouble at(Spot2 s) const {
    const Spot2 t = turned(s);
    return {x + pixels * t.x, y + pixels * t.y};
  }
  [[nodiscard]] Spot2 turned(Spot2 s) const {
    switch (quarters) {
      case 1:
        return {s.y, -s.x};
      case 2:
        return {-s.x, -s.y};
      case 3:
        return {-s.y, s.x};
      default:
        return s;
    }
  }
};

/// Box of what is drawn.
struct Box2 {
  double x0 = 1e9, y0 = 1e9, x1 = -1e9, y1 = -1e9;
  void take(Spot2 s, double around) {
    x0 = std::min(x0, s.x - around), x1 = std::max(x1, s.x + around);
    y0 = std::min(y0, s.y - around), y1 = std::max(y1, s.y + around);
  }
};

Box2 box_of(const std::vector<PlanItem>& items, const OnPaper& paper) {
  Box2 box;
  for (const PlanItem& item : items) {
    if (const auto* line = std::get_if<PlanLine>(&item)) {
      box.take(paper.turned(line->a), 0), box.take(paper.turned(line->b), 0);
    } else if (const auto* outline = std::get_if<PlanOutline>(&item)) {
      for (const auto& ring : outline->rings)
        for (const Spot2& s : ring) box.take(paper.turned(s), 0);
    } else if (const auto* disc = std::get_if<PlanDisc>(&item)) {
      box.take(paper.turned(disc->centre), disc->radius_mm);
    }
  }
  return box;
}

class PlanPainter {
 public:
  PlanPainter(wxGraphicsContext& gc, const PlanShown& shown, const OnPaper& paper)
      : gc_(gc), shown_(shown), paper_(paper) {}

  void paint(const PlanItem& item) {
    std::visit([this](const auto& i) { draw(i); }, item);
  }

  void line(Spot2 a, Spot2 b, const wxColour& c, double width) {
    wxGraphicsPath path = gc_.CreatePath();
    path.MoveToPoint(paper_.at(a));
    path.AddLineToPoint(paper_.at(b));
    gc_.SetPen(gc_.CreatePen(wxGraphicsPenInfo(c, width).Cap(wxCAP_ROUND)));
    gc_.StrokePath(path);
  }

 private:
  void draw(const PlanLine& l) {
    line(l.a, l.b, colour(themed(l.colour, shown_), l.strength), std::max(1.0, paper_.pixels * l.width_mm));
  }

  void draw(const PlanOutline& o) {
    wxGraphicsPath path = gc_.CreatePath();
    for (const auto& ring : o.rings) {
      if (ring.empty()) continue;
      path.MoveToPoint(paper_.at(ring.front()));
      for (const Spot2& s : ring) path.AddLineToPoint(paper_.at(s));
      path.CloseSubpath();
    }
    fill(path, o.fill, o.edge, o.edge_mm);
  }

  void draw(const PlanDisc& d) {
    const wxPoint2DDouble c = paper_.at(d.centre);
    wxGraphicsPath path = gc_.CreatePath();
    path.AddCircle(c.m_x, c.m_y, paper_.pixels * d.radius_mm);
    fill(path, d.fill, d.edge, d.edge_mm);
  }

  void fill(const wxGraphicsPath& path, Colour inside, Colour edge, double edge_mm) {
    gc_.SetBrush(wxBrush(colour(themed(inside, shown_))));
    gc_.SetPen(*wxTRANSPARENT_PEN);
    gc_.FillPath(path, wxODDEVEN_RULE);
    if (edge_mm <= 0) return;
    gc_.SetPen(gc_.CreatePen(wxGraphicsPenInfo(colour(themed(edge, shown_)), std::max(1.0, paper_.pixels * edge_mm))));
    gc_.StrokePath(path);
  }

  /// Numbers of places stay upright however the part lies: their middle is turned, not they.
  void draw(const PlanWords& w) {
    constexpr double capital_share = 0.729;  // of the font's size
    const wxPoint2DDouble middle = paper_.at({w.at.x, w.at.y - capital_share * w.size_mm / 2});
    wxFont font = w.bold ? shown_.font.Bold() : shown_.font;
    gc_.SetFont(font, colour(themed(w.colour, shown_)));
    double width = 0, height = 0;
    gc_.GetTextExtent(wx(w.words), &width, &height);
    const double size = w.size_mm * paper_.pixels / (height * 0.82);
    font.SetFractionalPointSize(font.GetFractionalPointSize() * size);
    gc_.SetFont(font, colour(themed(w.colour, shown_)));
    gc_.GetTextExtent(wx(w.words), &width, &height);
    gc_.DrawText(wx(w.words), middle.m_x - width / 2, middle.m_y - height / 2);
  }

  wxGraphicsContext& gc_;
  const PlanShown& shown_;
  const OnPaper& paper_;
};

/// Faces that the jaws touch: upright ones are lines from above.
void light(PlanPainter& painter, const SceneFeature& f, const PlanScale& scale, const wxColour& c, double width) {
  for (const Line3& l : f.outline)
    if (std::hypot(l.b.x - l.a.x, l.b.y - l.a.y) > 1e-6)
      painter.line(scale.at(l.a.x, l.a.y), scale.at(l.b.x, l.b.y), c, width);
}

/// The machine's axes and its front, which do not turn with the part.
void paint_machine(wxGraphicsContext& gc, const PlanShown& shown, double width, double height, double line) {
  const double length = 2.4 * line, x = 0.8 * line, y = height - 0.9 * line, head = 0.32 * line;
  const auto arrow = [&](double dx, double dy, Rgb ink, const char* letter) {
    const double tx = x + dx * length, ty = y + dy * length;
    gc.SetPen(wxPen(colour(ink), 2));
    gc.StrokeLine(x, y, tx, ty);
    gc.StrokeLine(tx, ty, tx - head * dx + 0.6 * head * dy, ty - head * dy + 0.6 * head * dx);
    gc.StrokeLine(tx, ty, tx - head * dx - 0.6 * head * dy, ty - head * dy - 0.6 * head * dx);
    gc.SetFont(shown.font.Bold(), colour(ink));
    double w = 0, h = 0;
    gc.GetTextExtent(letter, &w, &h);
    gc.DrawText(letter, tx + dx * 0.35 * line - (dx != 0 ? 0 : w / 2), ty - h / 2 + dy * 0.7 * line);
  };
  arrow(1, 0, shown.colours.x, "X");
  arrow(0, -1, shown.colours.y, "Y");
  gc.SetFont(shown.font, colour(colour_of(Ink::quiet, shown.colours.ground, shown.text)));
  const wxString front = wx(tr("front of the machine"));
  double w = 0, h = 0;
  gc.GetTextExtent(front, &w, &h);
  gc.DrawText(front, std::max((width - w) / 2, x + length + 2 * line), height - 0.4 * line - h);
}

}  // namespace

Vec3 PlanPaper::to_part(const Pose& pose, double px, double py) const {
  const Vec3 d = pose.turn_to_part({(px - x) / pixels_per_mm, (y - py) / pixels_per_mm, 0});
  return {d.x + pose.size.x / 2, d.y + pose.size.y / 2, 0};
}

Vec3 PlanPaper::to_paper(const Pose& pose, const Vec3& part) const {
  const Vec3 d = pose.turn_to_bed({part.x - pose.size.x / 2, part.y - pose.size.y / 2, 0});
  return {x + pixels_per_mm * d.x, y - pixels_per_mm * d.y, 0};
}

PlanPaper paint_plan(wxGraphicsContext& gc, const CouponScene& scene, const PlanShown& shown, double width,
                     double height) {
  gc.SetBrush(wxBrush(colour(shown.colours.ground)));
  gc.SetPen(*wxTRANSPARENT_PEN);
  gc.DrawRectangle(0, 0, width, height);
  gc.SetFont(shown.font, colour(shown.text));
  double ignored = 0, line = 0;
  gc.GetTextExtent("0", &ignored, &line);
  paint_machine(gc, shown, width, height, line);

  OnPaper paper;
  paper.quarters = ((shown.pose.turned_deg / 90) % 4 + 4) % 4;
  paper.pixels = line / page_mm_per_line;
  const double free_w = (width - 2 * line) / paper.pixels, free_h = (height - 4 * line) / paper.pixels;
  const std::string only = shown.feature >= 0 ? scene.features[static_cast<std::size_t>(shown.feature)].feature.id : "";
  // The plan's origin is the part's middle. Marks beside the part keep their size: the scale is found in a few steps.
  const auto scaled = [&](double s) { return PlanScale{s, -s * scene.size.x / 2, s * scene.size.y / 2}; };
  double scale = 0.6 * std::min(free_w, free_h) / std::max(scene.size.x, scene.size.y);
  std::vector<PlanItem> items;
  Box2 box;
  for (int round = 0; round < 4; ++round) {
    items = plan_items(*scene.coupon, scaled(scale), only);
    box = box_of(items, paper);
    const double part_w = scale * (paper.quarters % 2 ? scene.size.y : scene.size.x);
    const double part_h = scale * (paper.quarters % 2 ? scene.size.x : scene.size.y);
    const double beside_w = box.x1 - box.x0 - part_w, beside_h = box.y1 - box.y0 - part_h;
    scale *= std::max(0.05, std::min((free_w - beside_w) / part_w, (free_h - beside_h) / part_h));
  }
  items = plan_items(*scene.coupon, scaled(scale), only);
  box = box_of(items, paper);
  paper.x = width / 2 - paper.pixels * (box.x0 + box.x1) / 2;
  paper.y = (height - 2 * line) / 2 - paper.pixels * (box.y0 + box.y1) / 2;

  PlanPainter painter(gc, shown, paper);
  const std::size_t outlines = scene.coupon->solid.slabs.size() + 1;  // the part and its names come first
  for (std::size_t i = 0; i < items.size(); ++i) {
    if (i == outlines) {
      const auto lit = [&](int feature, double share) {
        if (feature < 0) return;
        const SceneFeature& f = scene.features[static_cast<std::size_t>(feature)];
        light(painter, f, scaled(scale), colour(shown.colours.glow), share * line);
      };
      if (shown.pointed != shown.feature) lit(shown.pointed, 0.12);
      lit(shown.feature, 0.24);
    }
    painter.paint(items[i]);
  }
  return {paper.x, paper.y, paper.pixels * scale};
}

wxImage plan_picture(const CouponScene* scene, const PlanShown& shown, int width, int height, double scale) {
  wxImage image(width, height, false);
  image.SetRGB(wxRect(0, 0, width, height), shown.colours.ground.r, shown.colours.ground.g, shown.colours.ground.b);
  if (!scene) return image;
  const std::unique_ptr<wxGraphicsContext> gc(wxGraphicsContext::Create(image));
  if (gc) {
    gc->Scale(scale, scale);
    paint_plan(*gc, *scene, shown, width / scale, height / scale);
    gc->Flush();
  }
  return image;
}

PlanView::PlanView(wxWindow* parent)
    : wxWindow(parent, wxID_ANY, wxDefaultPosition, parent->FromDIP(wxSize(400, 300)),
               wxWANTS_CHARS | wxFULL_REPAINT_ON_RESIZE),
      CouponPicture(tr(name)) {
  SetBackgroundStyle(wxBG_STYLE_PAINT);
  take_theme();
  Bind(wxEVT_PAINT, [this](wxPaintEvent&) {
    wxAutoBufferedPaintDC dc(this);
    paint(dc);
  });
  Bind(wxEVT_SYS_COLOUR_CHANGED, [this](wxSysColourChangedEvent& event) {
    event.Skip();
    take_theme();
  });
  for (const auto& type : {wxEVT_SET_FOCUS, wxEVT_KILL_FOCUS})
    Bind(type, [this](wxFocusEvent& event) {
      event.Skip();
      Refresh();
    });
  Bind(wxEVT_MOTION, [this](wxMouseEvent& event) {
    event.Skip();
    point_at(feature_at(event.GetPosition()));
  });
  Bind(wxEVT_LEAVE_WINDOW, [this](wxMouseEvent& event) {
    event.Skip();
    point_at(-1);
  });
  Bind(wxEVT_LEFT_DOWN, [this](wxMouseEvent& event) {
    event.Skip();
    SetFocus();
    choose(feature_at(event.GetPosition()));
  });
  Bind(wxEVT_CHAR, [this](wxKeyEvent& event) {
    if (event.GetKeyCode() == WXK_HOME) return show_feature({});
    if (event.ControlDown() || event.AltDown() || !step_by_key(event)) event.Skip();
  });
}

PlanShown PlanView::shown() const { return {pose(), colours_, text_, shown_, pointed_, GetFont()}; }

int PlanView::feature_at(const wxPoint& at) const {
  if (!scene_) return -1;
  Vec3 above = paper_.to_part(pose(), at.x + 0.5, at.y + 0.5);
  above.z = scene_->size.z + 1;
  return pick(*scene_, {above, {0, 0, -1}});
}

void PlanView::paint(wxDC& dc) {
  dc.SetBackground(wxBrush(colour(colours_.ground)));
  dc.Clear();
  const std::unique_ptr<wxGraphicsContext> gc(wxGraphicsContext::CreateFromUnknownDC(dc));
  if (!gc) return;
  const wxSize size = GetClientSize();
  if (scene_) paper_ = paint_plan(*gc, *scene_, shown(), size.x, size.y);
  if (!HasFocus()) return;
  gc->SetPen(wxPen(colour(focus_), 2));
  gc->SetBrush(*wxTRANSPARENT_BRUSH);
  gc->DrawRectangle(1, 1, size.x - 2, size.y - 2);
}

wxImage PlanView::picture(int width, int height, double scale) {
  PlanShown s = shown();
  s.pointed = -1;
  return plan_picture(scene_.get(), s, width, height, scale);
}

}  // namespace fitwright
