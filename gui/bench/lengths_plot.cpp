#include <algorithm>
#include <array>
#include <map>
#include <optional>
#include <utility>

#include "base/words.hpp"
#include "bench/plot_parts.hpp"
#include "bench/plots.hpp"
#include "bench/shown.hpp"

namespace fitwright {
namespace {

constexpr double pad_share = 0.06;
constexpr int line_samples = 24;  // a band between straight lines is a hyperbola: enough to look smooth

struct Group {
  Axis axis = Axis::x;
  Kind kind = Kind::outer;
  friend auto operator<=>(const Group&, const Group&) = default;
};

bool is_length(Kind kind) { return kind == Kind::outer || kind == Kind::inner || kind == Kind::pitch; }

/// X and Y are drawn at the same lengths: their marks stand side by side.
double aside_of(Axis axis) { return axis == Axis::x ? -0.5 : axis == Axis::y ? 0.5 : 0; }

/// Weights of the parameters in the reading of a length, and those of them that make the line's place and slope.
std::pair<Contrast, Contrast> contrasts(const Group& group, double length_mm) {
  const char* scale = group.axis == Axis::x ? name::scale_x : group.axis == Axis::y ? name::scale_y : name::scale_z;
  Contrast own{{scale, length_mm}};
  if (group.axis == Axis::z) {
    if (group.kind != Kind::pitch) own[name::z0] = 1;
  } else if (group.kind != Kind::pitch) {
    own[name::edge_growth] = group.kind == Kind::outer ? 2 : -2;
  }
  Contrast all = own;
  if (group.kind != Kind::pitch) all[name::caliper_zero] = 1;
  if (group.kind == Kind::inner) all[name::inside_bias] = 1;
  return {all, own};
}

/// The straight line through the fitted deviations of a group: exact, whatever the estimator could separate.
struct Straight {
  double from = 0, to = 0;  // nominal, mm
  double at_from = 0, at_to = 0;
  [[nodiscard]] double at(double x) const {
    return to > from ? at_from + (at_to - at_from) * (x - from) / (to - from) : at_from;
  }
};

Straight through(const std::vector<const Cell*>& cells) {
  const auto [low, high] = std::minmax_element(cells.begin(), cells.end(), [](const Cell* a, const Cell* b) {
    return a->feature.nominal_mm < b->feature.nominal_mm;
  });
  const Cell& a = **low;
  const Cell& b = **high;
  return {a.feature.nominal_mm, b.feature.nominal_mm, a.fitted_mm - a.feature.nominal_mm,
          b.fitted_mm - b.feature.nominal_mm};
}

std::string group_name(const Group& group) {
  return std::string(spoken(group.axis)) + " " + std::string(spoken(group.kind));
}

void add_line(const Estimates& estimates, const Group& group, const Straight& line, PlotScene& scene, Range& y) {
  const Ink ink = ink_of(group.axis);
  PlotBand band;
  band.ink = ink;
  for (int i = 0; i <= line_samples; ++i) {
    const double x = line.from + (line.to - line.from) * i / line_samples;
    const auto [all, own] = contrasts(group, x);
    const auto half = half_width_95(estimates, all, own);
    if (!half) break;
    band.upper.push_back({x, line.at(x) + *half});
    band.lower.push_back({x, line.at(x) - *half});
    y.show(line.at(x) + *half);
    y.show(line.at(x) - *half);
  }
  if (band.upper.size() > 1) scene.bands.push_back(std::move(band));
  scene.lines.push_back({{{line.from, line.at_from}, {line.to, line.at_to}}, ink, group.kind != Kind::outer});
  scene.labels.push_back({{line.to, line.at_to}, group_name(group), ink});
}

std::string sentence(const std::map<Group, Straight>& lines, std::size_t places) {
  std::string text = said_many("Read minus drawn against drawn length, {} place.",
                               "Read minus drawn against drawn length, {} places.", places);
  for (const auto& [group, line] : lines)
    text += " " + said("{}: {} mm at {} mm, {} mm at {} mm.", group_name(group), shown_signed(line.at_from, 2),
                       shown_exact(line.from), shown_signed(line.at_to, 2), shown_exact(line.to));
  return text;
}

}  // namespace

PlotScene lengths_plot(const Analysis& analysis) {
  PlotScene scene;
  scene.title = tr("Read minus drawn, mm");
  scene.empty = tr("Lengths along X, Y and Z appear here, once some outer sizes or slots are read.");
  scene.said = scene.empty;
  if (!analysis.estimates) return scene;

  std::map<Group, std::vector<const Cell*>> groups;
  Range x, y;
  x.show(0);
  y.show(0);
  for (const Cell& cell : analysis.estimates->cells) {
    if (!is_length(cell.kind)) continue;
    groups[{cell.axis, cell.kind}].push_back(&cell);
    scene.marks.push_back(place_mark(analysis, cell, ink_of(cell.axis), shape_of(cell.kind)));
    scene.marks.back().aside = aside_of(cell.axis);
    x.show(cell.feature.nominal_mm);
    y.show(cell.mean_mm - cell.feature.nominal_mm);
  }
  if (groups.empty()) return scene;

  std::map<Group, Straight> lines;
  for (const auto& [group, cells] : groups) {
    lines[group] = through(cells);
    add_line(*analysis.estimates, group, lines[group], scene, y);
  }
  for (const auto& [kind, text] :
       {std::pair{Kind::outer, tr("outer")}, {Kind::inner, tr("slot")}, {Kind::pitch, tr("pitch")}})
    if (std::any_of(groups.begin(), groups.end(), [k = kind](const auto& g) { return g.first.kind == k; }))
      scene.keys.push_back({shape_of(kind), text});

  scene.empty.clear();
  scene.said = sentence(lines, scene.marks.size());
  scene.x = x.axis(pad_share, 6, false, tr("drawn, mm"));
  scene.y = y.axis(pad_share, 6, true, "");
  add_set_aside(analysis, scene, is_length);
  if (std::any_of(scene.marks.begin(), scene.marks.end(), [](const PlotMark& m) { return m.shape == Shape::cross; }))
    scene.keys.push_back({Shape::cross, tr("set aside"), Ink::warn});
  return scene;
}

}  // namespace fitwright
