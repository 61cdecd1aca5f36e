#pragma once
// The main window: the header, the list of places, the place that is shown. Decides nothing about the readings.

#include <wx/filehistory.h>
#include <wx/frame.h>
#include <wx/infobar.h>
#include <wx/simplebook.h>
#include <wx/weakref.h>

#include <functional>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "bench/bench.hpp"
#include "bench/bench_view.hpp"
#include "bench/latest_job.hpp"
#include "window/correct_place.hpp"
#include "window/fits_place.hpp"
#include "window/guide_window.hpp"
#include "window/history_place.hpp"
#include "window/make_place.hpp"
#include "window/measure_place.hpp"
#include "window/setup_place.hpp"
#include "window/side_list.hpp"
#include "window/strip.hpp"
#include "window/understand_place.hpp"

namespace fitwright {

class Frame : public wxFrame, public PlaceHost {
 public:
  explicit Frame(Bench bench);
  ~Frame() override;

  Bench& bench() override { return bench_; }
  [[nodiscard]] const Document& document() const override { return bench_.document(); }
  [[nodiscard]] const BenchView& view() const override { return view_; }
  bool make(Result<Edit> edit) override;
  void go_to(Stage place) override;
  void go_to_reading(std::size_t row) override;
  void bench_changed() override;
  void say(const std::string& sentence) override;

  /// What is shown belongs to the document.
  [[nodiscard]] bool up_to_date() const { return view_.revision == document().revision(); }
  [[nodiscard]] Stage place() const { return place_; }

  /// Puts a setup of the record on the bench. False (and told) when it could not be.
  bool put_setup(const record::Id& setup) override;
  /// Puts readings of a file on the bench, and offers what an earlier run left unsaved of it.
  void put_on_bench(Document document);
  /// Puts the demo on the bench, in a record of its own in memory.
  void put_demo();
  /// Opens a file; what is wrong with it is told in a dialog. False when nothing was opened.
  bool open(const std::string& path);
  /// Opens another record; what is wrong with it is told in a dialog, and the present one stays.
  bool open_record(const std::string& path);
  /// A file from outside. A record is opened; of readings, with a setup on the bench, it is shown what they would add,
  /// else they are put on it.
  void take_file(const std::string& path);
  /// Saves to `path`. False (and told) when it could not be written.
  bool save_to(const std::string& path);
  /// Why the last edit was not made; empty when it was.
  [[nodiscard]] const std::string& problem() const { return problem_; }
  void undo() override;
  void redo();

  SetupPlace& setting_up() { return *setup_; }
  MakePlace& making() { return *make_; }
  MeasurePlace& measuring() { return *measure_; }
  UnderstandPlace& understanding() { return *understand_; }
  CorrectPlace& correcting() { return *correct_; }
  HistoryPlace& history() { return *history_; }
  FitsPlace& fits() { return *fits_; }
  SideList& side() { return *side_; }
  Strip& header() { return *header_; }
  wxFileHistory& recent() { return recent_; }
  wxInfoBar& offer() { return *offer_; }
  /// Opens the guide at a page of it, or takes the window that is open there.
  GuideWindow& open_guide(const std::string& page);

 private:
  struct Shown {
    Stage place;
    PlacePanel* panel;
  };

  void build();
  void lay_header(Sheet& sheet) const;
  [[nodiscard]] PlacePanel& panel() const;

  void document_changed();
  void show_header();
  void step(const char* sentence, const std::string& label, const std::function<Result<Done>()>& take);
  void recompute();
  void take(std::shared_ptr<const BenchView> view);
  void show_places();
  void keep_side_file();
  void offer_left_behind();
  void on_offer(wxCommandEvent& event);

  void on_action(wxCommandEvent& event);
  void on_char_hook(wxKeyEvent& event);
  void on_update(wxUpdateUIEvent& event);
  void on_close(wxCloseEvent& event);
  void do_action(int id);
  bool may_leave();
  void ask_open();
  void ask_record();
  bool ask_save_as();
  bool save();
  void ask_settings();
  void restore_place();
  void remember_place();
  void remember_bench();

  Bench bench_;
  BenchView view_;
  std::string data_folder_;  // empty: nowhere to keep unsaved readings
  std::string problem_;
  bool side_file_kept_ = false;
  std::optional<ReadingSet> left_behind_;
  wxFileHistory recent_;

  Stage place_ = Stage::measure;
  std::vector<Shown> shown_;
  SetupPlace* setup_ = nullptr;
  MakePlace* make_ = nullptr;
  MeasurePlace* measure_ = nullptr;
  UnderstandPlace* understand_ = nullptr;
  CorrectPlace* correct_ = nullptr;
  HistoryPlace* history_ = nullptr;
  FitsPlace* fits_ = nullptr;
  SideList* side_ = nullptr;
  wxSimplebook* book_ = nullptr;
  Strip* header_ = nullptr;
  wxInfoBar* offer_ = nullptr;
  wxWeakRef<GuideWindow> guide_;  ///< gone when it was closed

  // Last, so that they end first: their jobs post to this window.
  LatestJob computing_;
  LatestJob keeping_;
};

}  // namespace fitwright
