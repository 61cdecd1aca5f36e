#pragma once
// History: what happened to the setup along time, what was in force at any of these dates, and files to take away.

#include <wx/button.h>
#include <wx/dataview.h>

#include <string>
#include <vector>

#include "bench/history_view.hpp"
#include "window/page.hpp"
#include "window/place_panel.hpp"
#include "window/plot_panel.hpp"
#include "window/splitter.hpp"

namespace fitwright {

/// A heading with its sentences.
struct Passage {
  std::string heading;
  std::vector<std::string> sentences;
};

/// Passages one below the other.
class PassagesPage : public Page {
 public:
  PassagesPage(wxWindow* parent, const std::string& name) : Page(parent, name) {}
  void show(std::vector<Passage> passages);
  [[nodiscard]] std::string text() const { return as_text(); }

 protected:
  void lay(Sheet& sheet) override;
  [[nodiscard]] std::string as_text() const override;

 private:
  std::vector<Passage> passages_;
};

class HistoryPlace : public PlacePanel {
 public:
  HistoryPlace(wxWindow* parent, PlaceHost& host);

  void bench_changed() override { look_when_seen(); }
  void content_changed() override { look_when_seen(); }
  void take_focus() override;

  /// Writes a file; what came of it stands below the list.
  bool write(HistoryFile what, const std::string& path);

  // The parts.
  wxDataViewListCtrl& list() { return *list_; }
  PassagesPage& below() { return *below_; }
  PlotPanel& along() { return *along_; }
  [[nodiscard]] const HistoryView& shown() const { return view_; }
  [[nodiscard]] const std::vector<std::string>& told() const { return told_; }

 private:
  [[nodiscard]] record::Id setup() const;
  void look_when_seen();
  void look();
  void show_below();
  void choose(std::size_t event);
  void ask_where(HistoryFile what);

  HistoryView view_;
  bool stale_ = true;
  std::vector<std::string> told_;  // what came of the last file, or why there is nothing
  PlotPanel* along_ = nullptr;
  wxDataViewListCtrl* list_ = nullptr;
  PassagesPage *below_ = nullptr, *nothing_ = nullptr;
  Splitter* down_ = nullptr;
  std::vector<wxButton*> buttons_;
};

}  // namespace fitwright
