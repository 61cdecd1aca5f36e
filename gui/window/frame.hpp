#pragma once
// The main window: readings at the left, what they say at the right. Decides nothing about the readings.

#include <wx/frame.h>
#include <wx/infobar.h>
#include <wx/notebook.h>
#include <wx/spinctrl.h>

#include <memory>
#include <optional>
#include <string>

#include "bench/bench_view.hpp"
#include "bench/document.hpp"
#include "bench/edit.hpp"
#include "bench/latest_job.hpp"
#include "window/corrections_panel.hpp"
#include "window/estimates_page.hpp"
#include "window/findings_page.hpp"
#include "window/plots_panel.hpp"
#include "window/readings_grid.hpp"
#include "window/splitter.hpp"
#include "window/strip.hpp"

namespace fitwright {

class Frame : public wxFrame {
 public:
  explicit Frame(Document document);
  ~Frame() override;

  [[nodiscard]] const Document& document() const { return document_; }
  /// What is shown now; it belongs to the document when up_to_date().
  [[nodiscard]] const BenchView& view() const { return view_; }
  [[nodiscard]] bool up_to_date() const { return view_.revision == document_.revision(); }

  /// Puts another document on the bench, and offers what an earlier run left unsaved of it.
  void put_on_bench(Document document);
  /// Opens a file; what is wrong with it is told in a dialog. False when nothing was opened.
  bool open(const std::string& path);
  /// Saves to `path`. False (and told) when it could not be written.
  bool save_to(const std::string& path);
  /// Makes an edit, or says below the table why not. Tells whether it was made.
  bool make(Result<Edit> edit);
  /// Why the last edit was not made; empty when it was.
  [[nodiscard]] const std::string& problem() const { return problem_; }
  void undo();
  void redo();

  // The parts, by what they show.
  ReadingsGrid& grid() { return *grid_; }
  FindingsPage& findings() { return *findings_; }
  PlotPanel& lengths() { return plots_->lengths(); }
  PlotPanel& rounds() { return plots_->rounds(); }
  EstimatesPage& estimates() { return *estimates_; }
  CorrectionsPanel& corrections() { return *corrections_; }
  wxNotebook& tabs() { return *tabs_; }
  Strip& hand() { return *hand_; }
  Strip& header() { return *header_; }
  wxInfoBar& offer() { return *offer_; }

 private:
  void build();
  wxWindow* build_header();
  wxWindow* build_left(wxWindow* parent);
  wxWindow* build_right(wxWindow* parent);
  void lay_header(Sheet& sheet) const;
  void lay_hand(Sheet& sheet) const;

  void document_changed();
  void recompute();
  void take(std::shared_ptr<const BenchView> view);
  void show_hand();
  void keep_side_file();
  void offer_left_behind();
  void on_offer(wxCommandEvent& event);

  void on_action(wxCommandEvent& event);
  void on_update(wxUpdateUIEvent& event);
  void on_close(wxCloseEvent& event);
  void do_action(int id);
  bool may_leave();
  void ask_open();
  bool ask_save_as();
  bool save();
  void ask_settings();
  void copy();
  void paste();
  void clear_cells();
  void take_proposal();
  void next_doubt();
  void wishes_changed();
  void restore_place();
  void remember_place();

  Document document_;
  BenchView view_;
  std::string data_folder_;  // empty: nowhere to keep unsaved readings
  std::size_t hand_row_ = 0;
  std::string problem_;
  std::string typing_;  // the reading that is being typed, as far as it goes
  bool all_columns_ = false;
  bool side_file_kept_ = false;
  std::optional<ReadingSet> left_behind_;

  ReadingsGrid* grid_ = nullptr;
  FindingsPage* findings_ = nullptr;
  PlotsPanel* plots_ = nullptr;
  EstimatesPage* estimates_ = nullptr;
  CorrectionsPanel* corrections_ = nullptr;
  wxNotebook* tabs_ = nullptr;
  Strip* hand_ = nullptr;
  Strip* header_ = nullptr;
  wxInfoBar* offer_ = nullptr;
  Splitter* across_ = nullptr;
  Splitter* down_ = nullptr;
  wxSpinCtrlDouble* length_ = nullptr;
  wxSpinCtrlDouble* tolerance_ = nullptr;

  // Last, so that they end first: their jobs post to this window.
  LatestJob computing_;
  LatestJob keeping_;
};

}  // namespace fitwright
