#pragma once

#include <wx/app.h>

#include <string>

#include "window/frame.hpp"

namespace fitwright {

/// The application: one main window on a file's readings, or on the demo.
class App : public wxApp {
 public:
  /// `path` empty: the demo.
  explicit App(std::string path = {}) : path_(std::move(path)) {}
  bool OnInit() override;
  [[nodiscard]] Frame* frame() const { return frame_; }

 private:
  std::string path_;
  Frame* frame_ = nullptr;
};

}  // namespace fitwright
