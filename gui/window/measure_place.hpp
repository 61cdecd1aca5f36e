#pragma once
// Measure: the reading in hand with the field it is typed into, the part with the jaws on it, and all readings.

#include <memory>
#include <string>
#include <variant>

#include "bench/measuring/measure_paste.hpp"
#include "bench/measuring/measure_steps.hpp"
#include "window/coupon_picture.hpp"
#include "window/coupon_scenes.hpp"
#include "window/hand_sheet.hpp"
#include "window/place_panel.hpp"
#include "window/preview_panel.hpp"
#include "window/readings_table.hpp"
#include "window/splitter.hpp"

namespace fitwright {

/// A cabled caliper may end its line with two keys: the second is no empty line of its own when it comes this soon
/// after the first. A hand is slower (common practice, no source).
inline constexpr long line_end_ms = 60;

class MeasurePlace : public PlacePanel {
 public:
  MeasurePlace(wxWindow* parent, PlaceHost& host);

  void bench_changed() override;
  void content_changed() override;
  void view_changed() override;
  void refused(const std::string& problem) override;
  void take_focus() override;
  bool do_action(int id) override;
  bool update_action(wxUpdateUIEvent& event) override;
  /// Shows reading number `row` of the content in the table, with the focus on it.
  void go_to(std::size_t row);

  /// What the readings file at `path` would change stands beside the table until it is taken or left. False (and told)
  /// when the file cannot be read.
  bool offer_file(const std::string& path);
  /// The same for pasted text.
  bool offer_paste(const std::string& text);

  /// What Enter does with the text of the field; `stamp_ms` is when the key was pressed, 0: not known.
  void enter(long stamp_ms = 0);

  HandSheet& hand() { return *hand_; }
  wxTextCtrl& field() { return hand_->field(); }
  ReadingsTable& table() { return *table_; }
  PreviewPanel& preview() { return *preview_; }
  CouponPicture& picture() { return *picture_; }

 private:
  [[nodiscard]] const Measuring& measuring() const { return host_.document().content().measuring; }
  [[nodiscard]] const std::vector<DoubtLine>& doubts() const { return hand_->view().doubts; }
  bool make(Result<MeasureStep> step);
  void show_hand();
  void show_table();
  void show_picture();
  void arrange();
  void end_preview();
  void take_preview(bool replace);

  void on_key(wxKeyEvent& event);
  [[nodiscard]] bool empty_field() const;
  void read_again_or_clear();
  void step_place(int by);
  void go_to_key(const ReadingKey& key);
  void take_proposal_of_hand();
  void next_doubt();
  void copy();
  void paste();

  Splitter* across_;
  HandSheet* hand_;
  wxPanel* right_;
  CouponPicture* picture_;
  ReadingsTable* table_;
  PreviewPanel* preview_;
  bool table_wanted_ = false;
  long last_enter_ms_ = 0;
  std::shared_ptr<const MeasurePlan> plan_;
  std::shared_ptr<const Coupon> shown_coupon_;
  std::variant<std::monostate, PastePreview, ImportPreview> offered_;
  CouponScenes scenes_;  // last: what it makes is shown above
};

}  // namespace fitwright
