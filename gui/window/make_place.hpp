#pragma once
// Make: the coupon that answers a question, on the bed of this printer; its files; and that it was printed.

#include <wx/button.h>
#include <wx/choice.h>
#include <wx/radiobut.h>
#include <wx/scrolwin.h>

#include <cstdint>
#include <functional>
#include <map>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "bench/latest_job.hpp"
#include "bench/make_view.hpp"
#include "window/coupon_picture.hpp"
#include "window/form_panel.hpp"
#include "window/place_panel.hpp"

namespace fitwright {

class MakePlace : public PlacePanel {
 public:
  MakePlace(wxWindow* parent, PlaceHost& host);

  void bench_changed() override;
  void take_focus() override;
  bool do_action(int id) override;

  /// Saves the solid, and what is to be measured beside it. False, and told beside the buttons, when it could not be.
  bool save(const std::string& path);
  /// Saves the measuring sheet as PDF.
  bool save_sheet(const std::string& path);
  /// Prints the measuring sheet; what came of it is told beside the buttons.
  void print_sheet();
  /// What prints: the desktop's dialogue (print_pdf).
  std::function<Result<bool>(wxWindow*, const std::string& title, const std::string& pdf)> printing;
  /// It is printed: into the record, and on to measuring.
  void to_measure();

  // The parts.
  std::vector<wxRadioButton*>& questions() { return questions_; }
  FormPanel& form() { return *form_; }
  CouponPicture& picture() { return *picture_; }
  wxChoice& turned() { return *turned_; }
  wxButton& printed_button() { return *printed_; }
  /// What is shown belongs to what was asked.
  [[nodiscard]] bool up_to_date() const { return shown_ == asked_; }
  [[nodiscard]] const std::shared_ptr<const Coupon>& coupon() const { return made_.coupon; }
  [[nodiscard]] const std::string& told() const { return told_text_; }

 private:
  struct Computed;
  void build_left(wxSizer* across);
  void build_right(wxSizer* across);
  void choose(std::size_t question);
  void compute();
  void take(const Computed& computed);
  [[nodiscard]] std::shared_ptr<const Coupon> asked_coupon() const;
  void show_coupon();
  void tell(const std::string& sentence, bool wrong);
  void ask_solid();
  void ask_sheet();
  void lay_out();

  Theme theme_;
  MakeWish wish_;
  MakeDefaults defaults_;
  record::Id setup_;
  Made made_;
  NextCopy next_;
  std::string told_text_;
  int wrapped_at_ = 0;
  std::uint64_t asked_ = 0, shown_ = 0;

  wxScrolledWindow* left_ = nullptr;
  std::vector<wxRadioButton*> questions_;
  wxStaticText *answer_ = nullptr, *before_ = nullptr;
  FormPanel* form_ = nullptr;
  CouponPicture* picture_ = nullptr;
  wxPanel* below_ = nullptr;
  wxStaticText *facts_ = nullptr, *caution_ = nullptr, *reason_ = nullptr, *told_ = nullptr;
  wxChoice* turned_ = nullptr;
  wxButton *solid_ = nullptr, *sheet_ = nullptr, *print_ = nullptr, *printed_ = nullptr;

  LatestJob computing_;  // last: its job posts to this window
};

}  // namespace fitwright
