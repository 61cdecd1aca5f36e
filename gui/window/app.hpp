#pragma once

#include <wx/app.h>

#include <string>

#include "window/frame.hpp"

namespace fitwright {

/// How the program is started.
struct Start {
  std::string readings;  ///< a file of readings to put on the bench
  std::string record;    ///< the record to open; empty: the user's own
  std::string setup;     ///< name of the setup to put on the bench; empty: the one that was there last
  bool demo = false;     ///< a copy of the demo record, in memory: nothing is kept
};

/// The application: one main window.
class App : public wxApp {
 public:
  explicit App(Start start = {}) : start_(std::move(start)) {}
  bool OnInit() override;
  [[nodiscard]] Frame* frame() const { return frame_; }

 private:
  Start start_;
  Frame* frame_ = nullptr;
};

}  // namespace fitwright
