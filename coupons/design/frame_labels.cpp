// Where the frame's labels stand: each beside its feature, all clear of each other and of the jaws.

#include <algorithm>

#include "design/drafting.hpp"
#include "design/frame_shape.hpp"

namespace fitwright::frame_shape {
namespace {

constexpr double stroke_mm = 0.7;       ///< width of leading lines and brackets
constexpr double small_label_mm = 2.2;  ///< capital height where there is little room

Area mirrored(const Area& a) { return {a.y0, a.x0, a.y1, a.x1}; }

/// A label's words along X, and those of its mirror image along Y.
struct Words {
  std::string x, y;
};

class Writer {
 public:
  explicit Writer(const Frame& frame) : frame_(frame) {
    for (const auto& [low, high] : raised_mm(frame)) take_both({low, 0, high, first_row_mm() - label_gap_mm});
  }

  /// Where the first row of labels along the blocks begins.
  [[nodiscard]] double first_row_mm() const { return frame_.block_end_mm() + label_clear_mm; }
  /// Height up to which rows at the front are used.
  [[nodiscard]] double used_mm() const { return used_mm_; }

  /// A pair of labels in the floor of a slot from `low` to `high`, in line with the jaws. False when there is no room.
  bool in_slot(const Words& words, double low, double high) {
    // The first slot's corner is measured along both axes: 1.5 mm of jaw and 2 mm of distance from the other's line.
    const double from = std::max(low + label_clear_mm, frame_.inner_line_mm() + 1.5 + 2);
    const double middle = (from + high - label_clear_mm) / 2;
    for (const double height : {label_mm, small_label_mm})
      if (middle - text_width_mm(words.x, height) / 2 >= from - 1e-9)
        return pair(words, middle, frame_.bar_mm + 1.4, {}, height);
    return false;
  }

  /// A pair of labels beside a feature from `low` to `high`: in the row along the blocks, or in a later one with a
  /// stroke that leads to the feature, or with a bracket as long as the feature; at last anywhere near.
  bool beside(const Words& words, double low, double high, bool bracket = false) {
    const double half = text_width_mm(words.x, label_mm) / 2, w = stroke_mm / 2, centre = (low + high) / 2;
    for (const bool plain : {false, true})
      for (int row = 0; row < 6; ++row)
        for (const double shift : {0., -2., 2., -4., 4., 6., 8., 10., 12.}) {
          const double across = first_row_mm() + row * (label_mm + label_gap_mm + 0.6), along = centre + shift;
          const double middle = across + label_mm / 2;
          std::vector<Area> strokes;
          if (bracket && !plain) {
            if (shift != 0 || half + 2 > high - centre) continue;
            strokes = {{low, middle - w, along - half - 1, middle + w},
                       {along + half + 1, middle - w, high, middle + w},
                       {low, across - 0.6, low + stroke_mm, middle + w},
                       {high - stroke_mm, across - 0.6, high, middle + w}};
          } else if (row > 0 && !plain) {
            strokes = {{centre - w, first_row_mm(), centre + w, across - 0.8}};
          } else if (!plain && std::abs(shift) > 4) {
            continue;
          }
          if (pair(words, along, across, strokes)) return true;
        }
    return false;
  }

  /// A pair at exactly (along, across), if there is room.
  bool pair(const Words& words, double along, double across, const std::vector<Area>& strokes,
            double height = label_mm) {
    const double half = text_width_mm(words.x, height) / 2;
    const double low = frame_.bar_mm + 1, high = frame_.side_mm - frame_.bar_mm - 1;
    std::vector<Area> areas{{along - half, across, along + half, across + height}};
    areas.insert(areas.end(), strokes.begin(), strokes.end());
    for (std::size_t i = 0; i < areas.size(); ++i) {
      const double gap = i ? 0.5 : label_gap_mm;
      if (areas[i].x0 < low || areas[i].x1 > high || areas[i].y1 > high) return false;
      if (!free(areas[i], gap) || !free(mirrored(areas[i]), gap)) return false;
      for (const Area& other : areas)
        if (areas[i].meets(mirrored(other), label_gap_mm)) return false;
    }
    for (const Area& area : areas) take_both(area);
    if (areas[0].y1 < frame_.side_mm / 2) used_mm_ = std::max(used_mm_, areas[0].y1);
    out.labels.push_back(centred_label(words.x, along, across + height / 2, height));
    out.labels.push_back(centred_label(words.y, across + height / 2, along, height, 90));
    for (const Area& s : strokes)
      for (const Area& a : {s, mirrored(s)}) out.marks = unite(out.marks, {rectangle(a.x0, a.y0, a.x1, a.y1)});
    return true;
  }

  /// One label with its middle at (cx, cy), if there is room.
  bool single(const std::string& words, double cx, double cy, double height_mm = label_mm) {
    const Label label = centred_label(words, cx, cy, height_mm);
    if (!free(area_of(label), label_gap_mm)) return false;
    taken_.push_back(area_of(label));
    out.labels.push_back(label);
    return true;
  }

  bool mark(const Region& region, const Area& area) {
    if (!free(area, 0.5)) return false;
    taken_.push_back(area);
    out.marks = unite(out.marks, region);
    return true;
  }

  [[nodiscard]] bool free(const Area& area, double gap_mm) const {
    return std::none_of(taken_.begin(), taken_.end(), [&](const Area& other) { return area.meets(other, gap_mm); });
  }

  Lettering out;

 private:
  void take_both(const Area& area) {
    taken_.push_back(area);
    taken_.push_back(mirrored(area));
  }

  const Frame& frame_;
  std::vector<Area> taken_;
  double used_mm_ = 0;
};

/// Where the seams go: at the notch, and in the inner corner at the back right.
void mark_seams(Writer& writer, const Frame& frame) {
  const double side = frame.side_mm, tip = side - frame.bar_mm - 1.0, size = 2.0;
  writer.mark({pointer(side / 2, tip, 0, 1, size)}, {side / 2 - size, tip - size, side / 2 + size, tip});
  writer.mark({pointer(tip, tip, 1, 1, size)}, {tip - 1.6 * size, tip - 1.6 * size, tip, tip});
  if (side >= 70) writer.single("seam", side / 2 + 9, tip - label_mm / 2 - 0.3);
}

/// The diagonals: the name and a pointer along the diagonal into the corner at the back where it ends.
void name_diagonals(Writer& writer, const Frame& frame) {
  const double side = frame.side_mm, half = text_width_mm("D1", label_mm) / 2;
  for (const bool plus : {true, false})
    for (double in = frame.bar_mm + 4; in < side / 2; in += 0.5) {
      const double tip = in + (plus ? 1 : 0), x = plus ? side - tip : tip, y = side - tip, dx = plus ? 1 : -1;
      const double cx = x - dx * (half + 2.4), cy = y - 5.6;
      const Area arrow_area{std::min(x, x - dx * 3), y - 3, std::max(x, x - dx * 3), y};
      const Area label_area{cx - half, cy - label_mm / 2, cx + half, cy + label_mm / 2};
      if (!writer.free(arrow_area, label_gap_mm) || !writer.free(label_area, label_gap_mm)) continue;
      writer.single(plus ? "D1" : "D2", cx, cy);
      writer.mark({pointer(x, y, dx, 1, 2.4)}, arrow_area);
      break;
    }
}

/// The free middle of the web, and the sizes of what stands in it.
struct Middle {
  double low, high;         ///< a square
  double cap_mm, shaft_mm;  ///< capital height, width of arrows
};

Middle middle_of(const Writer& writer, const Frame& frame) {
  const double low = std::max(writer.used_mm() + 3.5, 0.27 * frame.side_mm);
  const double high = frame.side_mm - frame.bar_mm - 4, span = high - low;
  return {low, high, std::clamp(span / 16, label_mm, 4.5), std::clamp(span / 50, 0.7, 1.0)};
}

void draw_axes(Writer& writer, const Middle& m) {
  const double length = std::min(24.0, (m.high - m.low) * 0.42), w = m.shaft_mm, low = m.low, tip = low + length;
  writer.mark(arrow(low, low, tip, low, w), {low - w, low - 2 * w, tip, low + 2 * w});
  writer.mark(arrow(low, low, low, tip, w), {low - 2 * w, low + 2 * w + 0.6, low + 2 * w, tip});
  writer.single("X", tip + m.cap_mm, low, m.cap_mm);
  writer.single("Y", low, tip + m.cap_mm, m.cap_mm);
}

/// Right of the axes, from the front to the back: which side is the front, which copy it is.
void draw_words(Writer& writer, const Frame& frame, const Middle& m) {
  const double cap = m.cap_mm, left = m.low + 3 * m.shaft_mm + 2, centre = (left + m.high) / 2, room = m.high - left;
  const double tip = m.low + 2 * m.shaft_mm + 1.5 + 1.2 * cap;
  writer.mark(arrow(centre, tip + 2.2 * cap, centre, tip, m.shaft_mm), {centre - 2, tip, centre + 2, tip + 2.2 * cap});
  double y = tip + 2.8 * cap;
  for (const std::string& words : {std::string("FRONT"), std::string("copy 1 2 3 4"),
                                   std::string("turned 0 90 180 270"), "frame " + engraved(frame.side_mm)}) {
    const double fit = std::min(cap, cap * room / text_width_mm(words, cap));
    if (fit < 0.85 * label_mm) continue;
    if (writer.single(words, centre, y + fit / 2, fit)) y += fit + 0.9 * cap;
  }
}

}  // namespace

Lettering letter(const Frame& frame, const std::vector<Feature>& features) {
  Writer writer(frame);
  const double side = frame.side_mm;
  const std::vector<Item> list = items(frame, 'x');
  const auto each = [&](Part part, auto put) {
    for (std::size_t i = 0; i < list.size(); ++i)
      if (list[i].part == part) put(list[i], Words{features[i].id, features[list.size() + i].id});
  };
  mark_seams(writer, frame);
  // First those with one good place, then those that can give way.
  each(Part::block, [&](const Item& i, const Words& w) { writer.beside(w, i.low_mm, i.high_mm); });
  each(Part::slot, [&](const Item& i, const Words& w) {
    const bool corner = i.low_mm == frame.bar_mm && i.high_mm < 2 * frame.block_end_mm() + 4;
    if (!corner || !writer.in_slot(w, i.low_mm, i.high_mm)) writer.beside(w, i.low_mm, i.high_mm);
  });
  each(Part::chain, [&](const Item& i, const Words& w) { writer.beside(w, i.low_mm, i.high_mm, true); });
  each(Part::outside, [&](const Item& i, const Words& w) {
    if (i.line_mm < side / 2) {
      // In line with the jaws, in the floor of a slot; else near the corner.
      for (const Item& slot : list)
        if (slot.part == Part::slot && writer.in_slot(w, slot.low_mm, slot.high_mm)) return;
      writer.beside(w, frame.block_end_mm(), frame.block_end_mm() + 10);
    } else {
      const double across = side - frame.bar_mm - 1.4 - label_mm;
      for (const double along : {0.30, 0.35, 0.65, 0.70, 0.75, 0.40, 0.80})
        if (writer.pair(w, along * side, across, {})) return;
    }
  });
  const Middle middle = middle_of(writer, frame);
  draw_axes(writer, middle);
  name_diagonals(writer, frame);
  draw_words(writer, frame, middle);
  return std::move(writer.out);
}

}  // namespace fitwright::frame_shape
