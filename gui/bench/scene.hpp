#pragma once
// A plot as a value: lines, bands, marks and labels in the units of the data. Whoever paints it decides nothing.

#include <cstddef>
#include <string>
#include <vector>

#include "bench/palette.hpp"

namespace fitwright {

enum class Shape { disc, square, diamond, triangle, cross };

struct PlotPoint {
  double x = 0, y = 0;
};

struct PlotMark {
  PlotPoint at;
  Ink ink = Ink::text;
  Shape shape = Shape::disc;
  std::string said;               ///< what the mark is, for the pointer and the screen reader
  std::vector<std::size_t> rows;  ///< rows of the content it stands for
  double aside = 0;  ///< drawn so many mark widths beside its place, where marks of one size would cover each other
};

struct PlotLine {
  std::vector<PlotPoint> points;
  Ink ink = Ink::text;
  bool dashed = false;
};

/// A band between two curves over the same x.
struct PlotBand {
  std::vector<PlotPoint> upper, lower;
  Ink ink = Ink::text;
};

/// Words written beside what they name, instead of a legend.
struct PlotLabel {
  PlotPoint at;
  std::string text;
  Ink ink = Ink::text;
  bool before = false;  ///< ends at the point instead of starting there
};

struct Tick {
  double at = 0;
  std::string text;
};

struct PlotAxis {
  double from = 0, to = 1;
  std::vector<Tick> ticks;
  std::string title;
};

struct Key {
  Shape shape = Shape::disc;
  std::string text;
  Ink ink = Ink::quiet;
};

struct PlotScene {
  std::string title;
  PlotAxis x, y;
  std::vector<PlotBand> bands;
  std::vector<PlotLine> lines;
  std::vector<PlotMark> marks;
  std::vector<PlotLabel> labels;
  std::vector<Key> keys;  ///< what the shapes mean; colours are lettered by the labels
  std::string empty;      ///< when there is nothing to draw: what will be here and what fills it
  std::string said;       ///< one sentence that says what the plot shows
  bool drawing = false;   ///< a drawing to scale: both axes alike, without ticks and grid
};

/// Ticks at 1, 2 or 5 times a power of ten, about `wanted` of them, all decimals equal; with a sign when `signs`.
std::vector<Tick> nice_ticks(double from, double to, int wanted, bool signs);

}  // namespace fitwright
