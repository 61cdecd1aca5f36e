#pragma once
// A place of the window, and what it may ask of the window around it.

#include <wx/panel.h>

#include <string>

#include "base/result.hpp"
#include "bench/bench.hpp"
#include "bench/bench_view.hpp"
#include "bench/document.hpp"
#include "bench/edit.hpp"
#include "bench/places.hpp"

namespace fitwright {

/// The window as its places see it.
class PlaceHost {
 public:
  virtual ~PlaceHost() = default;
  virtual Bench& bench() = 0;
  [[nodiscard]] virtual const Document& document() const = 0;
  /// What is known of the document now; it belongs to it when the revisions agree.
  [[nodiscard]] virtual const BenchView& view() const = 0;
  /// Makes an edit, or lets the place that is shown say why not. Tells whether it was made.
  virtual bool make(Result<Edit> edit) = 0;
  /// Takes back the last step.
  virtual void undo() = 0;
  /// Shows a place and puts the focus in it.
  virtual void go_to(Stage place) = 0;
  /// Shows the place where reading number `row` of the content stands, with the focus on it.
  virtual void go_to_reading(std::size_t row) = 0;
  /// Puts a setup of the record on the bench. False, and told, when it could not be.
  virtual bool put_setup(const record::Id& setup) = 0;
  /// The record, the setup on the bench or its state in force changed: everything is shown anew.
  virtual void bench_changed() = 0;
  /// A sentence for the status line.
  virtual void say(const std::string& sentence) = 0;
};

/// What every place answers to. Defaults do nothing.
class PlacePanel : public wxPanel {
 public:
  PlacePanel(wxWindow* parent, PlaceHost& host) : wxPanel(parent), host_(host) {}

  /// Another setup is on the bench, or the record says something new of it. content_changed() follows.
  virtual void bench_changed() {}
  /// Another content is on the bench, or the same one changed.
  virtual void content_changed() {}
  /// A fresh view was computed.
  virtual void view_changed() {}
  /// An edit could not be made; `problem` says why. Empty: the last one was made.
  virtual void refused(const std::string& problem) { host_.say(problem); }
  /// Puts the focus where the work of this place is done.
  virtual void take_focus() { SetFocus(); }
  /// Does a menu action that belongs to this place; false when it is none of its own.
  virtual bool do_action(int) { return false; }
  /// Enables, checks or renames a menu item of its own; false when it is none.
  virtual bool update_action(wxUpdateUIEvent&) { return false; }

 protected:
  PlaceHost& host_;
};

}  // namespace fitwright
