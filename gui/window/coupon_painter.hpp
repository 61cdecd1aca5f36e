#pragma once
// Draws a coupon's scene by OpenGL 3.3: matte faces under one key light and a soft fill, feature lines, the shown
// feature lit, jaws where they go. Knows nothing of windows; its context must be current throughout its life.

#include <memory>

#include "bench/coupon_marks.hpp"
#include "bench/coupon_scene.hpp"
#include "window/gl_parts.hpp"

namespace fitwright {

/// What is drawn apart from the scene.
struct CouponShown {
  Pose pose;
  Camera camera;
  ViewColours colours;
  int feature = -1;      ///< lit, with jaws
  bool second = false;   ///< jaws of a round feature at right angles to its first reading
  int pointed = -1;      ///< under the pointer: outlined
  double scale = 1;      ///< pixels of a line of width 1
  bool focused = false;  ///< a border in `focus` says where the keys go
  Rgb focus;
};

class CouponPainter {
 public:
  /// Nothing when the driver refuses a shader.
  static std::unique_ptr<CouponPainter> make();
  /// Hands the scene to the graphics memory.
  void load(const CouponScene& scene, const ViewColours& colours);
  /// Draws into what is bound, `width` x `height` pixels. False when OpenGL noted an error.
  bool paint(const CouponScene& scene, const CouponShown& shown, int width, int height);

 private:
  CouponPainter(GlProgram faces, GlProgram lines, GlProgram shade);
  /// Hands over the jaws, and finds what part and jaws keep from the light.
  void find_shade(const CouponScene& scene, const CouponShown& shown);
  void paint_bed(const CouponShown& shown, const Matrix4& to_clip, const Viewport& view);
  void paint_part(const CouponShown& shown, const Matrix4& to_clip);
  void paint_feature(const CouponScene& scene, const CouponShown& shown, const Matrix4& to_clip);
  void paint_jaws(const CouponShown& shown, const Matrix4& to_clip);
  void paint_axes(const CouponShown& shown, const Matrix4& to_clip);
  void paint_focus(const CouponShown& shown);

  /// Sets the faces' program; everything in it but colours.
  void use_faces(const Matrix4& to_clip, const Pose& pose, const Camera& camera) const;
  void use_lines(const Matrix4& to_clip) const;
  [[nodiscard]] GLint face_at(const char* name) const { return glGetUniformLocation(faces_.get(), name); }
  [[nodiscard]] GLint line_at(const char* name) const { return glGetUniformLocation(lines_.get(), name); }

  GlProgram faces_, lines_, shade_program_;
  std::optional<GlShade> shade_;
  Matrix4 to_light_{};
  GlMesh part_, lit_, jaws_, ground_;
  GlMesh edges_, jaw_edges_, some_lines_;
  double width_ = 1, height_ = 1, scale_ = 1;
};

}  // namespace fitwright
