#pragma once
// OpenGL objects that free themselves. Their context must be current when they are made, used and destroyed.

#include <wx/glcanvas.h>

#include <optional>
#include <string>
#include <utility>
#include <vector>

namespace fitwright {

/// Owns one name of OpenGL; `Free` gives it back.
template <void (*Free)(GLuint)>
class GlName {
 public:
  GlName() = default;
  explicit GlName(GLuint name) : name_(name) {}
  GlName(const GlName&) = delete;
  GlName& operator=(const GlName&) = delete;
  GlName(GlName&& other) noexcept : name_(std::exchange(other.name_, 0)) {}
  GlName& operator=(GlName&& other) noexcept {
    std::swap(name_, other.name_);
    return *this;
  }
  ~GlName() {
    if (name_) Free(name_);
  }
  [[nodiscard]] GLuint get() const { return name_; }

 private:
  GLuint name_ = 0;
};

namespace gl {
inline void free_buffer(GLuint n) { glDeleteBuffers(1, &n); }
inline void free_array(GLuint n) { glDeleteVertexArrays(1, &n); }
inline void free_program(GLuint n) { glDeleteProgram(n); }
inline void free_shader(GLuint n) { glDeleteShader(n); }
inline void free_frame(GLuint n) { glDeleteFramebuffers(1, &n); }
inline void free_texture(GLuint n) { glDeleteTextures(1, &n); }
inline void free_store(GLuint n) { glDeleteRenderbuffers(1, &n); }
}  // namespace gl

using GlBuffer = GlName<gl::free_buffer>;
using GlVertexArray = GlName<gl::free_array>;
using GlProgram = GlName<gl::free_program>;
using GlShader = GlName<gl::free_shader>;
using GlFrame = GlName<gl::free_frame>;
using GlTexture = GlName<gl::free_texture>;
using GlStore = GlName<gl::free_store>;

/// A program of two shaders; nothing when a driver refuses it.
std::optional<GlProgram> gl_program(const char* vertex, const char* fragment);

/// Vertices of floats in a buffer: `sizes` holds the number of floats of attribute 0, 1, ...; `each_instance` when they
/// advance once an instance.
class GlMesh {
 public:
  GlMesh() = default;
  GlMesh(const std::vector<int>& sizes, bool each_instance);
  void load(const std::vector<float>& values);
  void draw_triangles() const;
  /// `corners` corners a record, as a strip of triangles.
  void draw_strips(int corners) const;
  [[nodiscard]] bool empty() const { return count_ == 0; }

 private:
  GlVertexArray array_;
  GlBuffer buffer_;
  int floats_ = 1;
  GLsizei count_ = 0;
};

/// A picture off the screen, smoothed by samples where the driver has them.
class GlPicture {
 public:
  /// Nothing when the driver cannot.
  static std::optional<GlPicture> make(int width, int height);
  /// What is drawn from now on goes here.
  void use() const;
  /// Red, green and blue of all pixels, from the top line down.
  [[nodiscard]] std::vector<unsigned char> read() const;

 private:
  int width_ = 0, height_ = 0;
  GlFrame drawn_, plain_;
  GlStore colour_, depth_, plain_colour_;
};

/// How far light comes, drawn from where it comes; sampled with comparison.
class GlShade {
 public:
  /// Nothing when the driver cannot.
  static std::optional<GlShade> make(int size);
  /// Clears it; depths drawn from now on go here, until done().
  void begin();
  /// What is drawn goes again where it went before, and shaders find the shade in texture unit 0.
  void done();

 private:
  int size_ = 0;
  GLint before_ = 0;
  GlFrame frame_;
  GlTexture depth_;
};

/// Forgets errors that OpenGL has noted; true when there were none.
bool gl_fine();

}  // namespace fitwright
