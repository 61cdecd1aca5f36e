#include "window/correct_place.hpp"

#include <wx/sizer.h>
#include <wx/statline.h>

#include "base/words.hpp"
#include "window/clipboard.hpp"
#include "window/messages.hpp"

namespace fitwright {

CorrectPlace::CorrectPlace(wxWindow* parent, PlaceHost& host) : PlacePanel(parent, host) {
  corrections_ = new CorrectionsPanel(this);
  life_ = new LifePanel(this);
  SetBackgroundColour(theme_of(*this).ground);
  auto* sizer = new wxBoxSizer(wxVERTICAL);
  sizer->Add(corrections_, 5, wxEXPAND);
  sizer->Add(new wxStaticLine(this), 0, wxEXPAND);
  sizer->Add(life_, 3, wxEXPAND);
  SetSizer(sizer);
  corrections_->on_policy = [this](Policy policy) {
    Wishes wishes = host_.document().content().wishes;
    wishes.policy = policy;
    host_.make(with_wishes(host_.document().content(), wishes, tr("choice of policy")));
  };
  corrections_->page().on_copy = [this](const std::string& text) {
    to_clipboard(text);
    host_.say(said("Copied: {}", text));
  };
  const auto show_applying = [this](const Result<Applying>& applying) {
    bench_changed();
    if (!applying)
      life_->tell({in_one_line(applying.problems())});
    else
      life_->ask(*applying);
  };
  life_->on_propose = [this, show_applying] {
    show_applying(
        prepare_applying(host_.bench(), host_.document().content().wishes.policy, "fitwright " FITWRIGHT_VERSION));
  };
  // Every knob is marked as it is set; when all are, the whole correction can count.
  corrections_->page().on_marked = [this](bool all) {
    if (all)
      life_->on_propose();
    else
      host_.say(said_many("{} of {} settings marked. The correction counts once all are set.",
                          "{} of {} settings marked. The correction counts once all are set.",
                          corrections_->page().marked(), host_.view().corrections.rows.size()));
  };
  life_->on_apply_chosen = [this, show_applying](const LifeRow& row) {
    show_applying(prepare_applying(host_.bench(), row.correction));
  };
  life_->on_apply = [this] {
    if (!life_->asked()) return;
    after(apply_now(host_.bench(), life_->asked()->correction),
          tr("Applied. Print the coupon once more, turned by 90\u00b0, to prove it."));
  };
  life_->on_withdraw = [this](const LifeRow& row) {
    after(withdraw_now(host_.bench(), row.correction, life_->reason()),
          tr("Withdrawn; the old values are in force again."));
  };
  life_->on_prove = [this](const LifeRow& row) {
    const auto proved = prove_now(host_.bench(), row.correction);
    bench_changed();
    if (proved)
      life_->show_proof(*proved);
    else
      life_->tell({in_one_line(proved.problems())});
  };
}

void CorrectPlace::after(const Result<Done>& done, const std::string& said) {
  if (!done) return life_->tell({in_one_line(done.problems())});
  host_.bench_changed();
  life_->tell({said});
}

void CorrectPlace::bench_changed() {
  const bool kept = host_.bench().setup().has_value();
  life_->Show(kept);
  corrections_->page().can_mark(kept);
  life_->done_asking();
  if (!kept) return;
  const auto rows = life_rows(host_.bench());
  if (rows)
    life_->show(*rows);
  else
    life_->tell({in_one_line(rows.problems())});
}

void CorrectPlace::view_changed() {
  corrections_->show(host_.view().corrections);
  life_->can_propose(!host_.view().corrections.rows.empty());
}
void CorrectPlace::refused(const std::string& problem) { host_.say(problem); }
void CorrectPlace::take_focus() { corrections_->choice().SetFocus(); }

}  // namespace fitwright
