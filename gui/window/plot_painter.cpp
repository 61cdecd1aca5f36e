#include "window/plot_painter.hpp"

#include <algorithm>
#include <cmath>
#include <vector>

#include "window/sheet.hpp"

namespace fitwright {
namespace {

constexpr double band_alpha = 0.2;
constexpr double drawing_indent_lines = 6;  // of a drawing on wide paper: near its title, not far off in the middle

class Painter {
 public:
  Painter(wxGraphicsContext& gc, const PlotScene& scene, const Theme& theme, double width, double height)
      : gc_(gc), scene_(scene), t_(theme), space_(theme.space), width_(width), height_(height) {
    use(t_.body, t_.quiet);
    line_ = extent("0").second;
    mark_radius_ = std::max(1.1 * space_, line_ / 4.5);
    set_place();
  }

  PlotPlace paint(int chosen) {
    head();
    if (!scene_.drawing) grid();
    gc_.PushState();
    gc_.Clip(place_.left, place_.top, place_.right - place_.left, place_.bottom - place_.top);
    for (const PlotBand& band : scene_.bands) paint_band(band);
    for (const PlotLine& line : scene_.lines) paint_line(line);
    gc_.ResetClip();
    gc_.PopState();
    for (std::size_t i = 0; i < scene_.marks.size(); ++i) paint_mark(scene_.marks[i], static_cast<int>(i) == chosen);
    labels();
    return place_;
  }

 private:
  void use(const wxFont& font, const wxColour& colour) { gc_.SetFont(font, colour); }

  std::pair<double, double> extent(const std::string& text) {
    double w = 0, h = 0;
    gc_.GetTextExtent(wx(text), &w, &h);
    return {w, h};
  }

  void set_place() {
    lay_keys();
    double ticks = 0, labels = 0;
    for (const Tick& tick : scene_.y.ticks) ticks = std::max(ticks, extent(tick.text).first);
    for (const PlotLabel& label : scene_.labels) labels = std::max(labels, extent(label.text).first);
    labels = std::max(labels, extent(scene_.x.title).first);
    place_.left = 4 * space_ + ticks + 2 * space_;
    place_.right = width_ - 3 * space_ - labels - 2 * space_;
    place_.top = 3 * space_ + line_ + keys_below_ * (line_ + space_) + 4 * space_;
    place_.bottom = height_ - 3 * space_ - line_ - space_;
    place_.mark_width = 2 * mark_radius_;
    place_.x_from = scene_.x.from;
    place_.x_to = scene_.x.to;
    place_.y_from = scene_.y.from;
    place_.y_to = scene_.y.to;
    if (scene_.drawing) keep_to_scale();
  }

  /// Both axes alike, in the middle of the paper.
  void keep_to_scale() {
    const double left = 4 * space_;
    const double right = width_ - 4 * space_;
    place_.top = 3 * space_ + line_ + keys_below_ * (line_ + space_) + 2 * space_;
    place_.bottom = height_ - 2 * space_;
    const double wide = scene_.x.to - scene_.x.from;
    const double high = scene_.y.to - scene_.y.from;
    if (!(wide > 0) || !(high > 0)) return;
    const double scale = std::max(0.0, std::min((right - left) / wide, (place_.bottom - place_.top) / high));
    const double middle = std::min((left + right) / 2, left + wide * scale / 2 + line_ * drawing_indent_lines);
    place_.left = middle - wide * scale / 2;
    place_.right = middle + wide * scale / 2;
    place_.top = place_.bottom - high * scale;
  }

  /// Where each key goes: at the right of the title's line, or below it where they do not fit there.
  void lay_keys() {
    use(t_.body, t_.quiet);
    const double title_end = 4 * space_ + extent(scene_.title).first;
    double all = 0;
    for (const Key& key : scene_.keys) all += 7.5 * space_ + extent(key.text).first;
    const double most = width_ - 4 * space_;
    double x = most - all + 5 * space_;
    keys_below_ = x - 4 * space_ < title_end ? 1 : 0;
    if (keys_below_ > 0) x = 4 * space_ + mark_radius_;
    for (const Key& key : scene_.keys) {
      const double wide = 2.5 * space_ + extent(key.text).first;
      if (keys_below_ > 0 && x + wide > most && x > 5 * space_ + mark_radius_) {
        ++keys_below_;
        x = 4 * space_ + mark_radius_;
      }
      keys_.push_back({x, static_cast<double>(keys_below_)});
      x += wide + 5 * space_;
    }
  }

  /// Title at the left, meaning of colours and shapes at the right of the same line or below.
  void head() {
    const double y = 3 * space_;
    use(t_.body, t_.text);
    gc_.DrawText(wx(scene_.title), 4 * space_, y);
    use(t_.body, t_.quiet);
    for (std::size_t i = 0; i < scene_.keys.size(); ++i) {
      const Key& key = scene_.keys[i];
      const double top = y + keys_[i].y * (line_ + space_);
      draw_mark(gc_, key.shape, keys_[i].x, top + line_ / 2, mark_radius_, t_.of(key.ink), t_.ground);
      gc_.DrawText(wx(key.text), keys_[i].x + 2.5 * space_, top);
    }
  }

  void grid() {
    use(t_.body, t_.quiet);
    for (const Tick& tick : scene_.y.ticks) {
      const double y = std::round(place_.y(tick.at)) + 0.5;
      const bool zero = std::abs(tick.at) < 1e-9 * (scene_.y.to - scene_.y.from);
      gc_.SetPen(wxPen(zero ? t_.of(Ink::zero) : t_.faint, 1));
      gc_.StrokeLine(place_.left, y, place_.right, y);
      const auto [w, h] = extent(tick.text);
      gc_.DrawText(wx(tick.text), place_.left - 2 * space_ - w, y - h / 2);
    }
    double last_end = -1;
    const double y = place_.bottom + space_;
    for (const Tick& tick : scene_.x.ticks) {
      const double x = std::round(place_.x(tick.at)) + 0.5;
      gc_.SetPen(wxPen(t_.faint, 1));
      gc_.StrokeLine(x, place_.top, x, place_.bottom);
      const double w = extent(tick.text).first;
      if (x - w / 2 < last_end) continue;
      gc_.DrawText(wx(tick.text), x - w / 2, y);
      last_end = x + w / 2 + 2 * space_;
    }
    gc_.DrawText(wx(scene_.x.title), place_.right + 3 * space_, y);
  }

  void paint_band(const PlotBand& band) {
    if (band.upper.empty() || band.lower.empty()) return;
    const wxColour c = t_.of(band.ink);
    gc_.SetPen(*wxTRANSPARENT_PEN);
    gc_.SetBrush(wxBrush(wxColour(c.Red(), c.Green(), c.Blue(), static_cast<unsigned char>(255 * band_alpha))));
    wxGraphicsPath path = gc_.CreatePath();
    path.MoveToPoint(place_.x(band.upper.front().x), place_.y(band.upper.front().y));
    for (const PlotPoint& p : band.upper) path.AddLineToPoint(place_.x(p.x), place_.y(p.y));
    for (auto p = band.lower.rbegin(); p != band.lower.rend(); ++p) path.AddLineToPoint(place_.x(p->x), place_.y(p->y));
    path.CloseSubpath();
    gc_.FillPath(path);
  }

  void paint_line(const PlotLine& line) {
    if (line.points.size() < 2) return;
    gc_.SetPen(
        wxPen(t_.of(line.ink), std::max(1, t_.space / 2), line.dashed ? wxPENSTYLE_SHORT_DASH : wxPENSTYLE_SOLID));
    wxGraphicsPath path = gc_.CreatePath();
    path.MoveToPoint(place_.x(line.points.front().x), place_.y(line.points.front().y));
    for (const PlotPoint& p : line.points) path.AddLineToPoint(place_.x(p.x), place_.y(p.y));
    gc_.StrokePath(path);
  }

  void paint_mark(const PlotMark& mark, bool chosen) {
    const wxColour colour = t_.of(mark.ink);
    PlotPoint p = place_.of(mark);
    if (place_.holds(mark.at)) {
      draw_mark(gc_, mark.shape, p.x, p.y, mark_radius_, colour, t_.ground);
    } else {
      p = arrow(mark, p, colour);
    }
    if (!chosen) return;
    gc_.SetPen(wxPen(t_.text, std::max(1, t_.space / 2)));
    gc_.SetBrush(*wxTRANSPARENT_BRUSH);
    gc_.DrawEllipse(p.x - 2 * mark_radius_, p.y - 2 * mark_radius_, 4 * mark_radius_, 4 * mark_radius_);
  }

  /// A mark beyond the field: a cross at its edge and an arrowhead that points to where it would be. Returns where the
  /// cross stands.
  PlotPoint arrow(const PlotMark& mark, const PlotPoint& p, const wxColour& colour) {
    const double way = mark.at.y > place_.y_to ? -1 : 1;
    const PlotPoint cross{p.x, p.y - way * 2.6 * mark_radius_};
    draw_mark(gc_, mark.shape, cross.x, cross.y, 0.8 * mark_radius_, colour, t_.ground);
    gc_.SetPen(*wxTRANSPARENT_PEN);
    gc_.SetBrush(wxBrush(colour));
    wxGraphicsPath head = gc_.CreatePath();
    head.MoveToPoint(p.x, p.y);
    head.AddLineToPoint(p.x - mark_radius_, p.y - way * 1.3 * mark_radius_);
    head.AddLineToPoint(p.x + mark_radius_, p.y - way * 1.3 * mark_radius_);
    head.CloseSubpath();
    gc_.FillPath(head);
    return cross;
  }

  /// Words at the ends of the lines, moved apart until none covers another.
  void labels() {
    struct Placed {
      const PlotLabel* label;
      double x, y;
    };
    std::vector<Placed> placed;
    for (const PlotLabel& label : scene_.labels) {
      const PlotPoint p = place_.held(label.at);
      const double away = mark_radius_ + 2 * space_;
      placed.push_back({&label, label.before ? p.x - away - extent(label.text).first : p.x + away, p.y - line_ / 2});
    }
    std::sort(placed.begin(), placed.end(), [](const Placed& a, const Placed& b) { return a.y < b.y; });
    for (int round = 0; round < 20; ++round)
      for (std::size_t i = 0; i < placed.size(); ++i)
        for (std::size_t j = i + 1; j < placed.size(); ++j)
          separate(placed[i].x, placed[i].y, placed[j].x, placed[j].y);
    for (const Placed& p : placed) {
      use(t_.body, t_.of(p.label->ink));
      gc_.DrawText(wx(p.label->text), p.x, p.y);
    }
  }

  void separate(double ax, double& ay, double bx, double& by) const {
    const double apart = by - ay;
    const double wanted = 0.9 * line_;
    if (std::abs(ax - bx) > 12 * space_ || apart >= wanted) return;
    ay -= (wanted - apart) / 2;
    by += (wanted - apart) / 2;
  }

  wxGraphicsContext& gc_;
  const PlotScene& scene_;
  const Theme& t_;
  double space_, width_, height_, line_ = 0, mark_radius_ = 0;
  std::vector<PlotPoint> keys_;  // x of the mark, line below the title's
  int keys_below_ = 0;
  PlotPlace place_;
};

}  // namespace

PlotPoint PlotPlace::held(PlotPoint value) const {
  return {std::clamp(x(value.x), std::min(left, right), std::max(left, right)),
          std::clamp(y(value.y), std::min(top, bottom), std::max(top, bottom))};
}

PlotPoint PlotPlace::of(const PlotMark& mark) const {
  PlotPoint p = held(mark.at);
  if (holds(mark.at)) p.x += mark.aside * mark_width;
  return p;
}

bool PlotPlace::holds(PlotPoint value) const {
  return value.x >= x_from && value.x <= x_to && value.y >= y_from && value.y <= y_to;
}

PlotPlace paint_plot(wxGraphicsContext& gc, const PlotScene& scene, const Theme& theme, double width, double height,
                     int chosen) {
  Painter painter(gc, scene, theme, width, height);
  if (scene.empty.empty()) return painter.paint(chosen);
  gc.SetFont(theme.body, theme.quiet);
  gc.DrawText(wx(scene.empty), 4 * theme.space, 4 * theme.space);
  return {};
}

int mark_at(const PlotScene& scene, const PlotPlace& place, double x, double y, double reach) {
  int nearest = -1;
  double distance = reach;
  for (std::size_t i = 0; i < scene.marks.size(); ++i) {
    const PlotPoint p = place.of(scene.marks[i]);
    const double d = std::hypot(p.x - x, p.y - y);
    if (d > distance) continue;
    distance = d;
    nearest = static_cast<int>(i);
  }
  return nearest;
}

}  // namespace fitwright
