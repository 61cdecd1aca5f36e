#pragma once
// The measures of the frame, shared by its outlines, features and labels (why they are so: frame.cpp).

#include <string>
#include <utility>
#include <vector>

#include "design/compliance.hpp"
#include "design/design.hpp"
#include "design/layers.hpp"
#include "design/relief.hpp"

namespace fitwright::frame_shape {

inline constexpr double bar_least_mm = 4;  ///< width of the bars; wider where a long diagonal would give way
inline constexpr double bar_most_mm = 12;
inline constexpr double bar_step_mm = 0.5;
inline constexpr double face_mm = 4.4;          ///< least height of the faces above the web
inline constexpr double low_face_mm = 4;        ///< the same where weight asks for it: inside jaws need 4
inline constexpr double web_least_mm = 0.36;    ///< the web has two layers or as many as reach this
inline constexpr double thin_web_mm = 0.2;      ///< least web where weight asks for it; names then stand on plates
inline constexpr double plate_margin_mm = 0.8;  ///< of a plate around its name: wider than a bead
/// Weight of a frame of side 100 mm, printed solid at 1.24 g/cm3; larger ones by their area.
inline constexpr double most_g = 15, at_density_g_cm3 = 1.24, at_side_mm = 100;
inline constexpr double block_mm = 10;       ///< length of a block: outside jaws close on it
inline constexpr double short_slot_mm = 10;  ///< inside jaws, and one outside jaw, enter it
inline constexpr double middle_slot_mm = 20;
inline constexpr double protrude_mm = 7;       ///< of blocks and pads: a 3 mm jaw with 2 mm on both sides of it
inline constexpr double corner_mm = 4;         ///< leg of the cut corners: flats of 5.66 mm for a 3 mm jaw
inline constexpr double read_at_mm = 7;        ///< from the corner to the jaws that read the outside
inline constexpr double notch_mm = 1.5;        ///< depth of the notch that takes the outer loop's seam
inline constexpr double label_mm = 2.6;        ///< capital height: strokes of 0.7 mm, wider than a bead
inline constexpr double label_gap_mm = 1.2;    ///< least distance between labels
inline constexpr double label_clear_mm = 2.2;  ///< least distance from a label to a measured face

/// Faces along one axis, from the low end to the high end.
struct Layout {
  double long_slot_mm = 0;
  double middle_slot_mm = 0;  ///< 0: one block only
  double pad_mm = 0;
};

/// Ways to draw the frame, the stoutest first: thick layers make a heavy web and high faces.
enum class Build { usual, low_faces, thin_web };

struct Frame {
  double side_mm = 0;
  double bar_mm = bar_least_mm;
  Layering layering;
  int web_layers = 0, layers = 0;
  bool plates = false;  ///< names are cut into plates of one layer on the web, not into the web
  Layout layout;

  /// The layer that names are cut into.
  [[nodiscard]] int name_layer() const { return plates ? web_layers : web_layers - 1; }
  [[nodiscard]] double web_mm() const { return layering.height_mm(web_layers); }
  [[nodiscard]] double height_mm() const { return layering.height_mm(layers); }
  /// Middle of the outer faces above the relief, and of the inner faces above the web.
  [[nodiscard]] double outer_z_mm() const { return (layering.height_mm(relief_layers(layering)) + height_mm()) / 2; }
  [[nodiscard]] double inner_z_mm() const { return (web_mm() + height_mm()) / 2; }
  /// Positions of the inner faces along an axis, low to high.
  [[nodiscard]] std::vector<double> faces_mm() const;
  /// Middle of a jaw on the inner faces, across the axis.
  [[nodiscard]] double inner_line_mm() const { return bar_mm + protrude_mm / 2; }
  /// Where blocks and pads end, across the axis.
  [[nodiscard]] double block_end_mm() const { return bar_mm + protrude_mm; }
  [[nodiscard]] double diagonal_closing() const {
    return framed_panel_closing(side_mm - bar_mm, bar_mm, height_mm(), web_mm(), outer_z_mm());
  }
};

Frame frame_of(const DesignValues& values, Build build);

/// Ranges of an axis that are raised beside the inner side: blocks and pad.
std::vector<std::pair<double, double>> raised_mm(const Frame& frame);

enum class Part { block, chain, outside, slot };

/// One axis' features as they lie along X; the Y ones are their mirror images at the diagonal.
struct Item {
  Part part;
  double low_mm, high_mm;  ///< along the axis
  double line_mm;          ///< across it
  std::string edge_low, edge_high;
};

/// The features of axis 'x' or 'y', outsides before slots.
std::vector<Item> items(const Frame& frame, char axis);

/// The outer outline of the full square.
Region outline(double side_mm);

/// Labels of the coupon's features and the marks between them, to be cut into the web.
struct Lettering {
  std::vector<Label> labels;
  Region marks;
};
Lettering letter(const Frame& frame, const std::vector<Feature>& features);

}  // namespace fitwright::frame_shape
