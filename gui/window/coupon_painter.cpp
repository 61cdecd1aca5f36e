#include "window/coupon_painter.hpp"

#include <algorithm>
#include <array>

#include "bench/coupon_jaws.hpp"
#include "window/coupon_shaders.hpp"

namespace fitwright {
namespace {

constexpr float shade_depth = 0.6F;  ///< share of the key light that a shadow takes
constexpr int shade_texels = 2048;   ///< a tenth of a millimetre each on the largest coupon
constexpr int strip_corners = 4;
const std::vector<int> face_sizes{3, 3, 1};
const std::vector<int> line_sizes{3, 3, 4, 1};

constexpr float nearer = 2e-5F;  ///< lines of the part stand a hair before its faces

std::array<float, 3> floats(Rgb c) {
  return {static_cast<float>(c.r) / 255, static_cast<float>(c.g) / 255, static_cast<float>(c.b) / 255};
}

std::array<float, 16> floats(const Matrix4& m) {
  std::array<float, 16> f{};
  std::transform(m.begin(), m.end(), f.begin(), [](double v) { return static_cast<float>(v); });
  return f;
}

void put(std::vector<float>& to, const Vec3& v) {
  for (const double c : {v.x, v.y, v.z}) to.push_back(static_cast<float>(c));
}

void put_line(std::vector<float>& to, const Line3& line, Rgb colour, double opacity, double width) {
  put(to, line.a), put(to, line.b);
  for (const float c : floats(colour)) to.push_back(c);
  to.push_back(static_cast<float>(opacity));
  to.push_back(static_cast<float>(width));
}

template <class Triangle>
void put_triangle(std::vector<float>& to, const Triangle& t, float engraved) {
  for (const Vec3& corner : t.at) {
    put(to, corner), put(to, t.normal);
    to.push_back(engraved);
  }
}

void set(GLint place, Rgb c) {
  const auto f = floats(c);
  glUniform3f(place, f[0], f[1], f[2]);
}
void set(GLint place, const Vec3& v) {
  glUniform3f(place, static_cast<float>(v.x), static_cast<float>(v.y), static_cast<float>(v.z));
}
void set(GLint place, const Matrix4& m) { glUniformMatrix4fv(place, 1, GL_FALSE, floats(m).data()); }

/// From where the key light comes: over the viewer's left shoulder.
Vec3 key_light(const Camera& camera) {
  const CameraFrame frame = camera_frame(camera);
  return unit(0.62 * frame.back + 0.66 * frame.up - 0.42 * frame.right);
}

/// From the bed into the light's picture: the part and what stands on it, seen from far away along `key`.
Matrix4 light_matrix(const Pose& pose, const Vec3& key) {
  constexpr double jaws_mm = 24;
  const Vec3 middle = pose.to_bed(0.5 * pose.size);
  const double reach = length(pose.size) / 2 + jaws_mm;
  const Vec3 right = unit(cross(std::abs(key.z) < 0.9 ? Vec3{0, 0, 1} : Vec3{0, 1, 0}, key)), up = cross(key, right);
  const double s = 1 / reach;
  return {s * right.x,
          s * up.x,
          -s * key.x,
          0,
          s * right.y,
          s * up.y,
          -s * key.y,
          0,
          s * right.z,
          s * up.z,
          -s * key.z,
          0,
          -s * dot(right, middle),
          -s * dot(up, middle),
          s * dot(key, middle),
          1};
}

/// Whether axes of that length at `at` are seen whole: half of them would mislead.
bool in_picture(const Camera& camera, const Viewport& view, const Vec3& at, double length_mm) {
  const double letter = 0.3 * length_mm / mm_per_pixel(camera, view);
  for (const Vec3& p : {at, at + Vec3{length_mm, 0, 0}, at + Vec3{0, length_mm, 0}, at + Vec3{0, 0, length_mm}}) {
    const Projected seen = project(camera, view, p);
    if (!seen.before_eye || seen.x < letter || seen.y < letter || seen.x > view.width - letter ||
        seen.y > view.height - letter)
      return false;
  }
  return true;
}

const SceneFeature* feature_of(const CouponScene& scene, int index) {
  return index >= 0 && index < static_cast<int>(scene.features.size())
             ? &scene.features[static_cast<std::size_t>(index)]
             : nullptr;
}

}  // namespace

std::unique_ptr<CouponPainter> CouponPainter::make() {
  auto faces = gl_program(shaders::face_vertex, shaders::face_fragment);
  auto lines = gl_program(shaders::line_vertex, shaders::line_fragment);
  auto shade = gl_program(shaders::shade_vertex, shaders::shade_fragment);
  if (!faces || !lines || !shade) return nullptr;
  return std::unique_ptr<CouponPainter>(new CouponPainter(std::move(*faces), std::move(*lines), std::move(*shade)));
}

CouponPainter::CouponPainter(GlProgram faces, GlProgram lines, GlProgram shade)
    : faces_(std::move(faces)),
      lines_(std::move(lines)),
      shade_program_(std::move(shade)),
      shade_(GlShade::make(shade_texels)),
      part_(face_sizes, false),
      lit_(face_sizes, false),
      jaws_(face_sizes, false),
      ground_(face_sizes, false),
      edges_(line_sizes, true),
      jaw_edges_(line_sizes, true),
      some_lines_(line_sizes, true) {}

void CouponPainter::load(const CouponScene& scene, const ViewColours& colours) {
  std::vector<float> faces, edges;
  faces.reserve(scene.triangles.size() * 21);
  for (const SceneTriangle& t : scene.triangles) put_triangle(faces, t, t.engraved ? 1.0F : 0.0F);
  part_.load(faces);
  constexpr double edge_width = 1.15;
  for (const SceneEdge& e : scene.edges)
    if (!e.engraved) put_line(edges, e.line, colours.edge, 0.9, edge_width);
  edges_.load(edges);
}

bool CouponPainter::paint(const CouponScene& scene, const CouponShown& shown, int width, int height) {
  width_ = width, height_ = height, scale_ = shown.scale;
  const Viewport view{width_, height_};
  const Matrix4 to_clip = view_projection(shown.camera, view);
  find_shade(scene, shown);
  glViewport(0, 0, width, height);
  const auto ground = floats(shown.colours.ground);
  glClearColor(ground[0], ground[1], ground[2], 1);
  glClearDepth(1);
  glDepthMask(GL_TRUE);
  glClear(GL_COLOR_BUFFER_BIT | GL_DEPTH_BUFFER_BIT);
  glEnable(GL_DEPTH_TEST);
  glDepthFunc(GL_LEQUAL);
  glEnable(GL_MULTISAMPLE);
  glEnable(GL_BLEND);
  glBlendFunc(GL_SRC_ALPHA, GL_ONE_MINUS_SRC_ALPHA);
  glDisable(GL_CULL_FACE);
  paint_bed(shown, to_clip, view);
  paint_part(shown, to_clip);
  paint_feature(scene, shown, to_clip);
  paint_jaws(shown, to_clip);
  paint_axes(shown, to_clip);
  if (shown.focused) paint_focus(shown);
  glBindVertexArray(0);
  glUseProgram(0);
  return gl_fine();
}

void CouponPainter::find_shade(const CouponScene& scene, const CouponShown& shown) {
  std::vector<float> faces, edges;
  if (const SceneFeature* f = feature_of(scene, shown.feature)) {
    const JawSolid jaws = jaws_at(*f, shown.second);
    for (const JawSolid::Triangle& t : jaws.triangles) put_triangle(faces, t, 0);
    for (const Line3& l : jaws.edges) put_line(edges, l, shown.colours.jaw_edge, 1, 1.3);
  }
  jaws_.load(faces);
  jaw_edges_.load(edges);
  if (!shade_) return;
  to_light_ = light_matrix(shown.pose, key_light(shown.camera));
  glEnable(GL_DEPTH_TEST);
  glDepthFunc(GL_LEQUAL);
  glDepthMask(GL_TRUE);
  glClearDepth(1);
  glEnable(GL_POLYGON_OFFSET_FILL);
  glPolygonOffset(2, 4);  // a lit face does not shade itself
  shade_->begin();
  glUseProgram(shade_program_.get());
  set(glGetUniformLocation(shade_program_.get(), "to_light"), to_light_);
  set(glGetUniformLocation(shade_program_.get(), "pose"), shown.pose.matrix());
  part_.draw_triangles();
  jaws_.draw_triangles();
  shade_->done();
  glDisable(GL_POLYGON_OFFSET_FILL);
}

void CouponPainter::use_faces(const Matrix4& to_clip, const Pose& pose, const Camera& camera) const {
  glUseProgram(faces_.get());
  set(face_at("to_clip"), to_clip);
  set(face_at("pose"), pose.matrix());
  set(face_at("key"), key_light(camera));
  set(face_at("to_light"), to_light_);
  glUniform1i(face_at("shade"), 0);
  glUniform1f(face_at("shade_depth"), shade_ ? shade_depth : 0);
  glUniform1f(face_at("lit"), 0);
  glUniform1f(face_at("opacity"), 1);
  glUniform1f(face_at("contrast"), 1);
  glUniform1f(face_at("tall"), static_cast<float>(std::max(pose.size.z, 0.1)));
}

void CouponPainter::use_lines(const Matrix4& to_clip) const {
  glUseProgram(lines_.get());
  set(line_at("to_clip"), to_clip);
  glUniform2f(line_at("half_size"), static_cast<float>(width_ / 2), static_cast<float>(height_ / 2));
  glUniform1f(line_at("scale"), static_cast<float>(scale_));
  glUniform1f(line_at("nearer"), nearer);
}

void CouponPainter::paint_bed(const CouponShown& shown, const Matrix4& to_clip, const Viewport& view) {
  const Pose& pose = shown.pose;
  if (pose.bed_x_mm <= 0 || pose.bed_y_mm <= 0) return;
  glDepthMask(GL_FALSE);
  if (shown.camera.elevation_rad > 0) {  // from below one looks through it at the part
    const Vec3 a{0, 0, 0}, b{pose.bed_x_mm, 0, 0}, c{pose.bed_x_mm, pose.bed_y_mm, 0}, d{0, pose.bed_y_mm, 0};
    struct Flat {
      std::array<Vec3, 3> at;
      Vec3 normal;
    };
    std::vector<float> values;
    put_triangle(values, Flat{{a, b, c}, {0, 0, 1}}, 0);
    put_triangle(values, Flat{{a, c, d}, {0, 0, 1}}, 0);
    ground_.load(values);
    use_faces(to_clip, {}, shown.camera);
    glUniform1f(face_at("contrast"), 0);
    set(face_at("surface"), shown.colours.bed);
    ground_.draw_triangles();
  }
  // Single millimetres only where they stand apart.
  const double pixels = 1 / (mm_per_pixel(shown.camera, view) * scale_);
  const double fine = std::clamp((pixels - 2.5) / 2, 0.0, 1.0), middle = std::clamp((pixels - 0.6) / 0.6, 0.0, 1.0);
  std::vector<float> values;
  for (const BedLine& l : bed_lines(pose.bed_x_mm, pose.bed_y_mm)) {
    const double opacity = l.mark == MarkLine::tick_1 ? 0.8 * fine : l.mark == MarkLine::tick_5 ? middle : 1;
    const double width = l.mark == MarkLine::outline ? 1.3 : l.mark == MarkLine::figure ? 1.2 : 1;
    if (opacity > 0) put_line(values, l.line, shown.colours.tick, opacity, width);
  }
  some_lines_.load(values);
  use_lines(to_clip);
  some_lines_.draw_strips(strip_corners);
  glDepthMask(GL_TRUE);
}

void CouponPainter::paint_part(const CouponShown& shown, const Matrix4& to_clip) {
  use_faces(to_clip, shown.pose, shown.camera);
  set(face_at("surface"), shown.colours.part);
  set(face_at("engraved"), shown.colours.engraved);
  part_.draw_triangles();
}

void CouponPainter::paint_feature(const CouponScene& scene, const CouponShown& shown, const Matrix4& to_clip) {
  const Matrix4 part_to_clip = to_clip * shown.pose.matrix();
  const SceneFeature* f = feature_of(scene, shown.feature);
  const SceneFeature* pointed = shown.pointed == shown.feature ? nullptr : feature_of(scene, shown.pointed);
  const auto light = [&](float lit, float opacity) {
    use_faces(to_clip, shown.pose, shown.camera);
    set(face_at("surface"), shown.colours.part);
    set(face_at("engraved"), shown.colours.engraved);
    set(face_at("lamp"), shown.colours.glow);
    set(face_at("touch_a"), f->a), set(face_at("touch_b"), f->b);
    glUniform1f(face_at("lit"), lit);
    glUniform1f(face_at("opacity"), opacity);
    lit_.draw_triangles();
  };
  const auto outline = [&](const SceneFeature& feature, double opacity, double width) {
    std::vector<float> values;
    for (const Line3& l : feature.outline) put_line(values, l, shown.colours.glow_edge, opacity, width);
    some_lines_.load(values);
    use_lines(part_to_clip);
    some_lines_.draw_strips(strip_corners);
  };
  if (f) {
    std::vector<float> values;
    for (const std::uint32_t t : f->triangles) put_triangle(values, scene.triangles[t], 0);
    lit_.load(values);
    light(1, 1);
  }
  use_lines(part_to_clip);
  edges_.draw_strips(strip_corners);
  constexpr double lit_width = 2.2, pointed_width = 1.8;
  if (pointed) outline(*pointed, 0.9, pointed_width);
  if (!f) return;
  outline(*f, 1, lit_width);
  if (f->reach.z == 0) return;  // the bottom is hidden by all of the part: it would shimmer everywhere
  // What the part itself hides of the feature shimmers through.
  glDepthFunc(GL_GREATER);
  glDepthMask(GL_FALSE);
  light(1, 0.16F);
  outline(*f, 0.35, 1);
  glDepthMask(GL_TRUE);
  glDepthFunc(GL_LEQUAL);
}

void CouponPainter::paint_jaws(const CouponShown& shown, const Matrix4& to_clip) {
  use_faces(to_clip, shown.pose, shown.camera);
  set(face_at("surface"), shown.colours.jaw);
  jaws_.draw_triangles();
  use_lines(to_clip * shown.pose.matrix());
  jaw_edges_.draw_strips(strip_corners);
}

void CouponPainter::paint_axes(const CouponShown& shown, const Matrix4& to_clip) {
  const bool bed = shown.pose.bed_x_mm > 0 && shown.pose.bed_y_mm > 0;
  constexpr double on_bed_mm = 26, beside_part_mm = 10, away_mm = 12;
  const Vec3 at = bed ? Vec3{} : Vec3{-away_mm, -away_mm, 0};
  if (!bed && !in_picture(shown.camera, {width_, height_}, at, 1.4 * beside_part_mm)) return;
  std::vector<float> values;
  for (const AxisMark& mark : axis_marks(shown.camera, bed ? on_bed_mm : beside_part_mm, at)) {
    const Rgb ink = mark.ink == Ink::x ? shown.colours.x : mark.ink == Ink::y ? shown.colours.y : shown.colours.z;
    for (const Line3& l : mark.arrow) put_line(values, l, ink, 1, 2.2);
    for (const Line3& l : mark.letter) put_line(values, l, ink, 1, 2);
  }
  some_lines_.load(values);
  use_lines(to_clip);
  some_lines_.draw_strips(strip_corners);
}

void CouponPainter::paint_focus(const CouponShown& shown) {
  constexpr double width = 2;
  const double x = 1 - width * scale_ / width_, y = 1 - width * scale_ / height_;  // the line's outer side on the edge
  const std::array<Vec3, 4> corners{{{-x, -y, 0}, {x, -y, 0}, {x, y, 0}, {-x, y, 0}}};
  std::vector<float> values;
  for (std::size_t i = 0; i < 4; ++i) put_line(values, {corners[i], corners[(i + 1) % 4]}, shown.focus, 1, width);
  some_lines_.load(values);
  use_lines({1, 0, 0, 0, 0, 1, 0, 0, 0, 0, 1, 0, 0, 0, 0, 1});
  glDisable(GL_DEPTH_TEST);
  some_lines_.draw_strips(strip_corners);
  glEnable(GL_DEPTH_TEST);
}

}  // namespace fitwright
