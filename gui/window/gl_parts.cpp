#include "window/gl_parts.hpp"

#include <algorithm>
#include <array>

namespace fitwright {
namespace {

template <class Make>
GLuint made(const Make& make) {
  GLuint name = 0;
  make(1, &name);
  return name;
}

std::optional<GlShader> shader(GLenum kind, const char* text) {
  GlShader s(glCreateShader(kind));
  if (!s.get()) return std::nullopt;
  glShaderSource(s.get(), 1, &text, nullptr);
  glCompileShader(s.get());
  GLint good = 0;
  glGetShaderiv(s.get(), GL_COMPILE_STATUS, &good);
  if (!good) return std::nullopt;
  return s;
}

GlStore store(int samples, GLenum format, int width, int height) {
  GlStore s(made(glGenRenderbuffers));
  glBindRenderbuffer(GL_RENDERBUFFER, s.get());
  glRenderbufferStorageMultisample(GL_RENDERBUFFER, samples, format, width, height);
  return s;
}

bool complete() { return glCheckFramebufferStatus(GL_FRAMEBUFFER) == GL_FRAMEBUFFER_COMPLETE; }

}  // namespace

std::optional<GlProgram> gl_program(const char* vertex, const char* fragment) {
  const auto v = shader(GL_VERTEX_SHADER, vertex), f = shader(GL_FRAGMENT_SHADER, fragment);
  if (!v || !f) return std::nullopt;
  GlProgram program(glCreateProgram());
  if (!program.get()) return std::nullopt;
  glAttachShader(program.get(), v->get());
  glAttachShader(program.get(), f->get());
  glLinkProgram(program.get());
  GLint good = 0;
  glGetProgramiv(program.get(), GL_LINK_STATUS, &good);
  if (!good) return std::nullopt;
  return program;
}

GlMesh::GlMesh(const std::vector<int>& sizes, bool each_instance)
    : array_(made(glGenVertexArrays)), buffer_(made(glGenBuffers)) {
  floats_ = 0;
  for (const int size : sizes) floats_ += size;
  glBindVertexArray(array_.get());
  glBindBuffer(GL_ARRAY_BUFFER, buffer_.get());
  std::size_t offset = 0;
  for (std::size_t i = 0; i < sizes.size(); ++i) {
    const auto index = static_cast<GLuint>(i);
    glEnableVertexAttribArray(index);
    glVertexAttribPointer(index, sizes[i], GL_FLOAT, GL_FALSE, static_cast<GLsizei>(sizeof(float)) * floats_,
                          reinterpret_cast<const void*>(offset));  // NOLINT: OpenGL takes an offset as a pointer
    if (each_instance) glVertexAttribDivisor(index, 1);
    offset += sizeof(float) * static_cast<std::size_t>(sizes[i]);
  }
  glBindVertexArray(0);
}

void GlMesh::load(const std::vector<float>& values) {
  count_ = static_cast<GLsizei>(values.size()) / floats_;
  glBindBuffer(GL_ARRAY_BUFFER, buffer_.get());
  glBufferData(GL_ARRAY_BUFFER, static_cast<GLsizeiptr>(sizeof(float) * values.size()), values.data(), GL_DYNAMIC_DRAW);
}

void GlMesh::draw_triangles() const {
  if (empty()) return;
  glBindVertexArray(array_.get());
  glDrawArrays(GL_TRIANGLES, 0, count_);
}

void GlMesh::draw_strips(int corners) const {
  if (empty()) return;
  glBindVertexArray(array_.get());
  glDrawArraysInstanced(GL_TRIANGLE_STRIP, 0, corners, count_);
}

std::optional<GlPicture> GlPicture::make(int width, int height) {
  GLint most = 0;
  glGetIntegerv(GL_MAX_RENDERBUFFER_SIZE, &most);
  if (width < 1 || height < 1 || width > most || height > most) return std::nullopt;
  constexpr GLint wanted_samples = 4;
  GLint samples = 0;
  glGetIntegerv(GL_MAX_SAMPLES, &samples);
  samples = std::min(samples, wanted_samples);

  GlPicture p;
  p.width_ = width, p.height_ = height;
  p.colour_ = store(samples, GL_RGBA8, width, height);
  p.depth_ = store(samples, GL_DEPTH_COMPONENT24, width, height);
  p.plain_colour_ = store(0, GL_RGBA8, width, height);
  p.drawn_ = GlFrame(made(glGenFramebuffers));
  glBindFramebuffer(GL_FRAMEBUFFER, p.drawn_.get());
  glFramebufferRenderbuffer(GL_FRAMEBUFFER, GL_COLOR_ATTACHMENT0, GL_RENDERBUFFER, p.colour_.get());
  glFramebufferRenderbuffer(GL_FRAMEBUFFER, GL_DEPTH_ATTACHMENT, GL_RENDERBUFFER, p.depth_.get());
  bool good = complete();
  p.plain_ = GlFrame(made(glGenFramebuffers));
  glBindFramebuffer(GL_FRAMEBUFFER, p.plain_.get());
  glFramebufferRenderbuffer(GL_FRAMEBUFFER, GL_COLOR_ATTACHMENT0, GL_RENDERBUFFER, p.plain_colour_.get());
  good = good && complete();
  glBindFramebuffer(GL_FRAMEBUFFER, 0);
  if (!good) return std::nullopt;
  return p;
}

void GlPicture::use() const { glBindFramebuffer(GL_FRAMEBUFFER, drawn_.get()); }

std::vector<unsigned char> GlPicture::read() const {
  glBindFramebuffer(GL_READ_FRAMEBUFFER, drawn_.get());
  glBindFramebuffer(GL_DRAW_FRAMEBUFFER, plain_.get());
  glBlitFramebuffer(0, 0, width_, height_, 0, 0, width_, height_, GL_COLOR_BUFFER_BIT, GL_NEAREST);
  glBindFramebuffer(GL_READ_FRAMEBUFFER, plain_.get());
  glPixelStorei(GL_PACK_ALIGNMENT, 1);
  const std::size_t line = 3 * static_cast<std::size_t>(width_);
  std::vector<unsigned char> upward(line * static_cast<std::size_t>(height_)), pixels(upward.size());
  glReadPixels(0, 0, width_, height_, GL_RGB, GL_UNSIGNED_BYTE, upward.data());
  glBindFramebuffer(GL_FRAMEBUFFER, 0);
  for (std::size_t y = 0; y < static_cast<std::size_t>(height_); ++y)
    std::copy_n(upward.begin() + static_cast<std::ptrdiff_t>((static_cast<std::size_t>(height_) - 1 - y) * line), line,
                pixels.begin() + static_cast<std::ptrdiff_t>(y * line));
  return pixels;
}

std::optional<GlShade> GlShade::make(int size) {
  GlShade s;
  s.size_ = size;
  s.depth_ = GlTexture(made(glGenTextures));
  glBindTexture(GL_TEXTURE_2D, s.depth_.get());
  glTexImage2D(GL_TEXTURE_2D, 0, GL_DEPTH_COMPONENT24, size, size, 0, GL_DEPTH_COMPONENT, GL_UNSIGNED_INT, nullptr);
  glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_MIN_FILTER, GL_LINEAR);
  glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_MAG_FILTER, GL_LINEAR);
  glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_WRAP_S, GL_CLAMP_TO_BORDER);
  glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_WRAP_T, GL_CLAMP_TO_BORDER);
  constexpr std::array<GLfloat, 4> far{1, 1, 1, 1};  // beyond the picture all is in the light
  glTexParameterfv(GL_TEXTURE_2D, GL_TEXTURE_BORDER_COLOR, far.data());
  glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_COMPARE_MODE, GL_COMPARE_REF_TO_TEXTURE);
  GLint before = 0;
  glGetIntegerv(GL_DRAW_FRAMEBUFFER_BINDING, &before);
  s.frame_ = GlFrame(made(glGenFramebuffers));
  glBindFramebuffer(GL_FRAMEBUFFER, s.frame_.get());
  glFramebufferTexture2D(GL_FRAMEBUFFER, GL_DEPTH_ATTACHMENT, GL_TEXTURE_2D, s.depth_.get(), 0);
  glDrawBuffer(GL_NONE);
  glReadBuffer(GL_NONE);
  const bool good = complete();
  glBindFramebuffer(GL_FRAMEBUFFER, static_cast<GLuint>(before));
  if (!good) return std::nullopt;
  return s;
}

void GlShade::begin() {
  glGetIntegerv(GL_DRAW_FRAMEBUFFER_BINDING, &before_);
  glBindFramebuffer(GL_FRAMEBUFFER, frame_.get());
  glViewport(0, 0, size_, size_);
  glClear(GL_DEPTH_BUFFER_BIT);
}

void GlShade::done() {
  glBindFramebuffer(GL_FRAMEBUFFER, static_cast<GLuint>(before_));
  glActiveTexture(GL_TEXTURE0);
  glBindTexture(GL_TEXTURE_2D, depth_.get());
}

bool gl_fine() {
  bool fine = true;
  for (int i = 0; i < 32 && glGetError() != GL_NO_ERROR; ++i) fine = false;  // a lost context reports for ever
  return fine;
}

}  // namespace fitwright
