#include "window/coupon_painter.hpp"

#include <algorithm>
#include <array>

#include "bench/coupon_jaws.hpp"

namespace fitwright {
namespace {

// Corners in the part's frame; normals turn with the pose. Light comes with the camera, so that shading keeps its
// meaning while the part is turned.
constexpr const char* face_vertex = R"(#version 330 core
layout(location = 0) in vec3 at;
layout(location = 1) in vec3 normal;
layout(location = 2) in float engraved;
uniform mat4 to_clip;
uniform mat4 pose;
out vec3 place;
flat out vec3 facing;
flat out float cut;
void main() {
  place = at;
  facing = mat3(pose) * normal;
  cut = engraved;
  gl_Position = to_clip * pose * vec4(at, 1.0);
}
)";

constexpr const char* face_fragment = R"(#version 330 core
in vec3 place;
flat in vec3 facing;
flat in float cut;
uniform vec3 surface;
uniform vec3 engraved;
uniform vec3 key;
uniform vec3 lamp;
uniform float lit;
uniform float opacity;
uniform float contrast;
uniform float tall;
uniform vec3 touch_a;
uniform vec3 touch_b;
out vec4 colour;
void main() {
  float direct = max(dot(facing, key), 0.0);
  float sky = 0.5 + 0.5 * facing.z;
  float open = mix(0.89, 1.0, sqrt(clamp(place.z / tall, 0.0, 1.0)));  // less light comes down between walls
  float light = mix(1.0, (0.52 + 0.34 * direct + 0.20 * sky) * open, contrast);
  vec3 base = mix(surface, engraved, cut) * light;
  float away = min(distance(place, touch_a), distance(place, touch_b));
  float glow = lit * mix(0.55, 1.0, 1.0 - smoothstep(2.0, 14.0, away));
  colour = vec4(mix(base, lamp * (0.66 + 0.4 * light), glow), opacity);
}
)";

// A line is a strip of four corners, as wide as said in pixels; what lies behind the eye is cut off first.
constexpr const char* line_vertex = R"(#version 330 core
layout(location = 0) in vec3 from;
layout(location = 1) in vec3 to;
layout(location = 2) in vec4 tint;
layout(location = 3) in float width;
uniform mat4 to_clip;
uniform vec2 half_size;
uniform float scale;
uniform float nearer;
out vec4 ink;
void main() {
  vec4 a = to_clip * vec4(from, 1.0);
  vec4 b = to_clip * vec4(to, 1.0);
  const float least = 0.5;
  if (a.w < least && b.w < least) { gl_Position = vec4(2.0, 2.0, 2.0, 1.0); ink = tint; return; }
  if (a.w < least) a = mix(b, a, (b.w - least) / (b.w - a.w));
  if (b.w < least) b = mix(a, b, (a.w - least) / (a.w - b.w));
  vec2 pa = a.xy / a.w * half_size, pb = b.xy / b.w * half_size;
  vec2 along = pb - pa;
  float l = length(along);
  along = l > 1e-6 ? along / l : vec2(1.0, 0.0);
  vec2 aside = vec2(-along.y, along.x);
  float w = 0.5 * width * scale;
  bool end = (gl_VertexID & 1) != 0;
  float side = (gl_VertexID & 2) != 0 ? 1.0 : -1.0;
  vec4 p = end ? b : a;
  vec2 shift = side * w * aside + (end ? 0.5 : -0.5) * w * along;
  p.xy += shift / half_size * p.w;
  p.z -= nearer * p.w;
  gl_Position = p;
  ink = tint;
}
)";

constexpr const char* line_fragment = R"(#version 330 core
in vec4 ink;
out vec4 colour;
void main() { colour = ink; }
)";

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

/// Whether axes of that length at `at` are seen whole: half of them would mislead.
bool in_picture(const Camera& camera, const Viewport& view, const Vec3& at, double length_mm) {
  for (const Vec3& p : {at, at + Vec3{length_mm, 0, 0}, at + Vec3{0, length_mm, 0}, at + Vec3{0, 0, length_mm}}) {
    const Projected seen = project(camera, view, p);
    if (!seen.before_eye || seen.x < 0 || seen.y < 0 || seen.x > view.width || seen.y > view.height) return false;
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
  auto faces = gl_program(face_vertex, face_fragment), lines = gl_program(line_vertex, line_fragment);
  if (!faces || !lines) return nullptr;
  return std::unique_ptr<CouponPainter>(new CouponPainter(std::move(*faces), std::move(*lines)));
}

CouponPainter::CouponPainter(GlProgram faces, GlProgram lines)
    : faces_(std::move(faces)),
      lines_(std::move(lines)),
      part_(face_sizes, false),
      lit_(face_sizes, false),
      jaws_(face_sizes, false),
      ground_(face_sizes, false),
      edges_(line_sizes, true),
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
  paint_jaws(scene, shown, to_clip);
  paint_axes(shown, to_clip);
  if (shown.focused) paint_focus(shown);
  glBindVertexArray(0);
  glUseProgram(0);
  return gl_fine();
}

void CouponPainter::use_faces(const Matrix4& to_clip, const Pose& pose, const Camera& camera) const {
  glUseProgram(faces_.get());
  set(face_at("to_clip"), to_clip);
  set(face_at("pose"), pose.matrix());
  const CameraFrame frame = camera_frame(camera);
  set(face_at("key"), unit(0.62 * frame.back + 0.66 * frame.up - 0.42 * frame.right));
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

void CouponPainter::paint_jaws(const CouponScene& scene, const CouponShown& shown, const Matrix4& to_clip) {
  const SceneFeature* f = feature_of(scene, shown.feature);
  if (!f) return;
  const JawSolid jaws = jaws_at(*f, shown.second);
  std::vector<float> values;
  for (const JawSolid::Triangle& t : jaws.triangles) put_triangle(values, t, 0);
  jaws_.load(values);
  use_faces(to_clip, shown.pose, shown.camera);
  set(face_at("surface"), shown.colours.jaw);
  jaws_.draw_triangles();
  values.clear();
  for (const Line3& l : jaws.edges) put_line(values, l, shown.colours.jaw_edge, 1, 1.3);
  some_lines_.load(values);
  use_lines(to_clip * shown.pose.matrix());
  some_lines_.draw_strips(strip_corners);
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
  const std::array<Vec3, 4> corners{{{-x, -y, -1}, {x, -y, -1}, {x, y, -1}, {-x, y, -1}}};
  std::vector<float> values;
  for (std::size_t i = 0; i < 4; ++i) put_line(values, {corners[i], corners[(i + 1) % 4]}, shown.focus, 1, width);
  some_lines_.load(values);
  use_lines({1, 0, 0, 0, 0, 1, 0, 0, 0, 0, 1, 0, 0, 0, 0, 1});
  glDisable(GL_DEPTH_TEST);
  some_lines_.draw_strips(strip_corners);
  glEnable(GL_DEPTH_TEST);
}

}  // namespace fitwright
