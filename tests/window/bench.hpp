#pragma once
// The main window under test: one for the whole run, put back to the demo before each case.

#include <functional>
#include <memory>
#include <string>

#include "window/frame.hpp"

namespace window_test {

/// Handles events until `condition` holds; false when it does not within ten seconds.
bool pump_until(const std::function<bool()>& condition);
/// Handles whatever waits.
void pump();

/// The window on a fresh demo, everything computed, no unsaved readings on disk.
fitwright::Frame& fresh_frame();

/// The window on a new setup of the record, with so many copies of the frame coupon to be measured.
fitwright::Frame& frame_with_setup(int copies = 1);

/// Puts into `record` a printer, a spool and a setup, with so many copies of the frame coupon, every second one turned.
fitwright::record::Id put_setup_in(fitwright::record::Record& record, int copies);

/// Waits until what is shown belongs to the document.
bool settled(fitwright::Frame& frame);

/// Does what the menu item does.
void choose(fitwright::Frame& frame, int action);

/// A folder for files of the tests, gone at the end of the run.
std::string folder();

/// Closes every dialog that opens while it lives, with `answer`, and keeps the texts of the last one.
class Dialogs {
 public:
  explicit Dialogs(int answer);
  ~Dialogs();
  [[nodiscard]] int count() const;
  [[nodiscard]] std::string text() const;

 private:
  class Hook;
  std::unique_ptr<Hook> hook_;
};

}  // namespace window_test
