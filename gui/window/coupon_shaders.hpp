#pragma once
// The shaders of the coupon's picture, OpenGL 3.3.

namespace fitwright::shaders {

// Corners in the part's frame; normals turn with the pose. Light comes with the camera, so that shading keeps its
// meaning while the part is turned.
inline constexpr const char* face_vertex = R"(#version 330 core
layout(location = 0) in vec3 at;
layout(location = 1) in vec3 normal;
layout(location = 2) in float engraved;
uniform mat4 to_clip;
uniform mat4 pose;
uniform mat4 to_light;
out vec3 place;
out vec3 in_light;
flat out vec3 facing;
flat out float cut;
void main() {
  place = at;
  facing = mat3(pose) * normal;
  cut = engraved;
  vec4 on_bed = pose * vec4(at, 1.0);
  const float off = 0.25;  // mm before the face, so that no face shades itself
  in_light = (to_light * (on_bed + vec4(off * facing, 0.0))).xyz * 0.5 + 0.5;
  gl_Position = to_clip * on_bed;
}
)";

inline constexpr const char* face_fragment = R"(#version 330 core
in vec3 place;
in vec3 in_light;
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
uniform sampler2DShadow shade;
uniform float shade_depth;
uniform vec3 touch_a;
uniform vec3 touch_b;
out vec4 colour;
// Share of the key light that arrives, softened over a few texels.
float arriving() {
  if (shade_depth <= 0.0) return 1.0;
  vec2 step = 1.0 / vec2(textureSize(shade, 0));
  float sum = 0.0;
  for (int i = -1; i <= 1; i += 2)
    for (int j = -1; j <= 1; j += 2) sum += texture(shade, vec3(in_light.xy + step * vec2(i, j), in_light.z));
  return 1.0 - shade_depth * (1.0 - sum / 4.0);
}
void main() {
  float arrives = arriving();
  float direct = max(dot(facing, key), 0.0) * arrives;
  float sky = 0.5 + 0.5 * facing.z;
  float open = mix(0.89, 1.0, sqrt(clamp(place.z / tall, 0.0, 1.0)));  // less light comes down between walls
  float light = mix(mix(0.88, 1.0, arrives), (0.50 + 0.36 * direct + 0.20 * sky) * open, contrast);
  vec3 base = mix(surface, engraved, cut) * light;
  float away = min(distance(place, touch_a), distance(place, touch_b));
  float glow = lit * mix(0.55, 1.0, 1.0 - smoothstep(2.0, 14.0, away));
  colour = vec4(mix(base, lamp * (0.66 + 0.4 * light), glow), opacity);
}
)";

// A line is a strip of four corners, as wide as said in pixels; what lies behind the eye is cut off first.
inline constexpr const char* line_vertex = R"(#version 330 core
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

inline constexpr const char* line_fragment = R"(#version 330 core
in vec4 ink;
out vec4 colour;
void main() { colour = ink; }
)";

// Only how far the light comes.
inline constexpr const char* shade_vertex = R"(#version 330 core
layout(location = 0) in vec3 at;
uniform mat4 to_light;
uniform mat4 pose;
void main() { gl_Position = to_light * pose * vec4(at, 1.0); }
)";

inline constexpr const char* shade_fragment = R"(#version 330 core
void main() {}
)";

}  // namespace fitwright::shaders
