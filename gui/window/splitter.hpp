#pragma once
// Two parts of the window with a hairline between them that can be dragged.

#include <wx/dc.h>
#include <wx/splitter.h>

#include <functional>

namespace fitwright {

class Splitter : public wxSplitterWindow {
 public:
  explicit Splitter(wxWindow* parent);

  /// Where the line belongs for a given length of the whole; it stays there, however the window is resized, until a
  /// person drags it.
  void keep_at(std::function<int(int whole)> place);
  /// The place it was dragged to; empty when it was not.
  [[nodiscard]] bool dragged() const { return dragged_; }
  /// Keeps a place from an earlier run as if it had been dragged there.
  void drag_to(int place);

 protected:
  void DrawSash(wxDC& dc) override;

 private:
  [[nodiscard]] int whole() const;

  std::function<int(int)> place_;
  bool dragged_ = false;
};

}  // namespace fitwright
