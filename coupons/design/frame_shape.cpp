#include "design/frame_shape.hpp"

#include <algorithm>
#include <cmath>

#include "design/parameters.hpp"

namespace fitwright::frame_shape {
namespace {

/// The longest even slots that fit. Two blocks with a slot of 20 mm between them when the first slot can then be 10 mm
/// or more, else one block and a longer slot: two different slot lengths always remain. A pad thinner than a bead or so
/// does not print well: then the slot is a step shorter.
Layout layout_for(double inner_mm) {
  constexpr double thinnest_pad_mm = 0.6;
  const auto with_longest = [](double room_mm, double middle_mm) {
    Layout layout;
    for (const double length : {10., 15., 20., 25., 30., 40., 60., 80., 100., 120., 160., 200.})
      if (const double pad = room_mm - length; std::abs(pad) < 1e-9 || pad >= thinnest_pad_mm)
        layout = {length, middle_mm, std::abs(pad) < 1e-9 ? 0 : pad};
    return layout;
  };
  const double two_blocks_room_mm = inner_mm - 2 * block_mm - short_slot_mm - middle_slot_mm;
  if (two_blocks_room_mm >= middle_slot_mm) return with_longest(two_blocks_room_mm, middle_slot_mm);
  return with_longest(inner_mm - block_mm - short_slot_mm, 0);
}

}  // namespace

std::vector<double> Frame::faces_mm() const {
  std::vector<double> at{bar_mm};
  const auto next = [&](double length) { at.push_back(at.back() + length); };
  next(layout.long_slot_mm), next(block_mm);
  if (layout.middle_slot_mm > 0) next(layout.middle_slot_mm), next(block_mm);
  next(short_slot_mm);
  return at;
}

Frame frame_of(const DesignValues& values, Build build) {
  Frame frame;
  frame.side_mm = values.at(param::side);
  frame.layering = layering_of(values);
  frame.plates = build == Build::thin_web;
  frame.web_layers =
      frame.plates ? frame.layering.at_least(thin_web_mm) : std::max(2, frame.layering.at_least(web_least_mm));
  frame.layers = frame.layering.at_least(frame.web_mm() + (build == Build::usual ? face_mm : low_face_mm));
  while (frame.diagonal_closing() > 0.95 * compliance_limit_mm_per_n && frame.bar_mm < bar_most_mm)
    frame.bar_mm += bar_step_mm;
  frame.layout = layout_for(frame.side_mm - 2 * frame.bar_mm);
  return frame;
}

std::vector<std::pair<double, double>> raised_mm(const Frame& frame) {
  const std::vector<double> at = frame.faces_mm();
  std::vector<std::pair<double, double>> raised;
  for (std::size_t i = 1; i + 1 < at.size(); i += 2) raised.emplace_back(at[i], at[i + 1]);
  if (frame.layout.pad_mm > 0) raised.emplace_back(at.back(), frame.side_mm - frame.bar_mm);
  return raised;
}

std::vector<Item> items(const Frame& frame, char axis) {
  const std::vector<double> at = frame.faces_mm();
  const auto edge = [&](std::size_t i) { return std::string(1, axis) + std::to_string(i + 1); };
  const double line = frame.inner_line_mm(), side = frame.side_mm;
  std::vector<Item> list;
  for (std::size_t i = 1; i + 1 < at.size(); i += 2)
    list.push_back({Part::block, at[i], at[i + 1], line, edge(i), edge(i + 1)});
  if (frame.layout.middle_slot_mm > 0) list.push_back({Part::chain, at[1], at[4], line, edge(1), edge(4)});
  const std::size_t n = at.size();
  list.push_back({Part::outside, 0, side, read_at_mm, edge(n), edge(n + 1)});
  list.push_back({Part::outside, 0, side, side - read_at_mm, edge(n + 2), edge(n + 3)});
  for (std::size_t i = 0; i + 1 < n; i += 2) list.push_back({Part::slot, at[i], at[i + 1], line, edge(i), edge(i + 1)});
  return list;
}

Region outline(double side_mm) {
  const double side = side_mm, c = corner_mm, m = side / 2;
  return {{{nm(c), 0},
           {nm(side - c), 0},
           {nm(side), nm(c)},
           {nm(side), nm(side - c)},
           {nm(side - c), nm(side)},
           {nm(m + notch_mm), nm(side)},
           {nm(m), nm(side - notch_mm)},
           {nm(m - notch_mm), nm(side)},
           {nm(c), nm(side)},
           {0, nm(side - c)},
           {0, nm(c)}}};
}

}  // namespace fitwright::frame_shape
