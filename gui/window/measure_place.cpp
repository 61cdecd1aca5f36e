#include "window/measure_place.hpp"

#include <wx/sizer.h>

#include <algorithm>
#include <filesystem>

#include "base/file.hpp"
#include "base/number.hpp"
#include "base/words.hpp"
#include "window/access.hpp"
#include "window/actions.hpp"

namespace fitwright {
namespace {

constexpr const char* nothing_words = noted(
    "The readings due will stand here, one at a time, with the place for the jaws. Print a coupon of this setup "
    "first (Make), or open a file of readings (Ctrl+O).");

/// What the fit says of readings, where the check at the caliper did not.
TableRemarks remarks_of(const Content& content, const BenchView& view) {
  TableRemarks remarks;
  for (const auto& [row, mark] : view.marks)
    if (mark.proposal_mm || !mark.used)
      if (row < content.readings->rows.size()) remarks[key_of(content.readings->rows[row])] = mark.remark;
  return remarks;
}

}  // namespace

MeasurePlace::MeasurePlace(wxWindow* parent, PlaceHost& host) : PlacePanel(parent, host) {
  SetBackgroundColour(theme_of(*this).ground);
  across_ = new Splitter(this);
  hand_ = new HandSheet(across_);
  right_ = new wxPanel(across_, wxID_ANY, wxDefaultPosition, FromDIP(wxSize(500, 400)));
  right_->SetBackgroundColour(theme_of(*this).ground);
  picture_ = &make_coupon_picture(right_);
  preview_ = new PreviewPanel(right_);
  table_ = new ReadingsTable(right_);
  auto* down = new wxBoxSizer(wxVERTICAL);
  down->Add(&picture_->window(), 3, wxEXPAND);
  down->Add(preview_, 3, wxEXPAND);
  down->Add(table_, 2, wxEXPAND);
  right_->SetSizer(down);
  preview_->Hide();
  across_->SetMinimumPaneSize(FromDIP(240));
  across_->SplitVertically(hand_, right_);
  across_->keep_at([this](int whole) { return std::clamp(whole * 46 / 100, FromDIP(390), FromDIP(640)); });
  auto* sizer = new wxBoxSizer(wxVERTICAL);
  sizer->Add(across_, 1, wxEXPAND);
  SetSizer(sizer);

  field().Bind(wxEVT_KEY_DOWN, &MeasurePlace::on_key, this);
  field().Bind(wxEVT_TEXT_ENTER, [this](wxCommandEvent&) { enter(); });  // by an input method
  field().Bind(wxEVT_TEXT_PASTE, [this](wxClipboardTextEvent&) { paste(); });
  field().Bind(wxEVT_TEXT, [this](wxCommandEvent& event) {
    event.Skip();
    if (!field().IsEmpty()) hand_->refuse({});
  });
  table_->on_go = [this](const ReadingKey& key) {
    go_to_key(key);
    field().SetFocus();
  };
  table_->on_take_out = [this](const ReadingKey& key) { make(delete_reading(measuring(), key)); };
  preview_->on_take = [this](bool replace) { take_preview(replace); };
  preview_->on_leave = [this] { end_preview(); };
}

void MeasurePlace::bench_changed() {
  field().Clear();
  hand_->refuse({});
}

void MeasurePlace::content_changed() {
  if (measuring().plan != plan_) scenes_.clear();
  plan_ = measuring().plan;
  end_preview();  // it was made for another evening
  show_hand();
  show_picture();
  arrange();
  show_table();
}

void MeasurePlace::view_changed() { show_table(); }

void MeasurePlace::refused(const std::string& problem) {
  hand_->refuse(problem);
  if (problem.empty()) return;
  host_.say(problem);
  field().SelectAll();
}

void MeasurePlace::take_focus() {
  if (field().IsShown())
    field().SetFocus();
  else
    hand_->SetFocus();
}

bool MeasurePlace::make(Result<MeasureStep> step) {
  if (!step) return host_.make(step.problems());
  return host_.make(
      Edit{with_measuring(host_.document().content(), std::move(step->next)), std::move(step->label), step->said});
}

void MeasurePlace::show_hand() {
  if (measuring().plan)
    hand_->show(measure_view(measuring()));
  else
    hand_->show_nothing(nothing_words);
}

void MeasurePlace::show_table() {
  if (!table_->IsShown()) return;
  const Content& content = host_.document().content();
  const bool known = host_.view().revision == host_.document().revision();
  table_->show(measure_table(measuring(), known ? remarks_of(content, host_.view()) : TableRemarks()),
               host_.bench().inches());
}

void MeasurePlace::show_picture() {
  const ShownPlace& place = hand_->view().shown;
  // Steel has no drawing: the part measured next to it stays in sight, at rest.
  const bool has_parts = measuring().plan && !measuring().plan->parts.empty();
  const auto coupon = place.coupon ? place.coupon
                      : has_parts  ? measuring().plan->parts.front().coupon
                                   : std::shared_ptr<const Coupon>();
  scenes_.ask(coupon, [this, coupon](std::shared_ptr<const CouponScene> scene) {
    if (coupon != shown_coupon_) picture_->set_scene(scene);
    shown_coupon_ = coupon;
    const ShownPlace& now = hand_->view().shown;
    const std::string id = now.coupon == coupon && coupon ? now.feature_id : std::string();
    const int at = scene ? scene->find(id) : -1;
    const bool round = at >= 0 && scene->features[static_cast<std::size_t>(at)].is_round();
    picture_->show_feature(id, round && now.line == JawLine::along_y);
  });
}

/// What stands on the right: the part, the table, a preview.
void MeasurePlace::arrange() {
  const bool has_coupon =
      measuring().plan && std::any_of(measuring().plan->parts.begin(), measuring().plan->parts.end(),
                                      [](const PartCopy& part) { return part.coupon != nullptr; });
  const bool offering = offered_.index() != 0;
  const bool picture = has_coupon && !offering;
  const bool table = measuring().plan && (table_wanted_ || !picture);
  if (picture_->window().IsShown() == picture && table_->IsShown() == table && preview_->IsShown() == offering) return;
  picture_->window().Show(picture);
  table_->Show(table);
  preview_->Show(offering);
  right_->Layout();
}

void MeasurePlace::go_to(std::size_t row) {
  const auto& rows = host_.document().content().readings->rows;
  if (row >= rows.size()) return;
  table_wanted_ = true;
  arrange();
  show_table();
  table_->choose(key_of(rows[row]));
  table_->list().SetFocus();
}

bool MeasurePlace::offer_paste(const std::string& text) {
  if (!measuring().plan) {
    refused(tr("Nothing is due yet: print a coupon or open a file of readings first."));
    return false;
  }
  if (is_readings_text(text)) {
    ImportPreview preview = preview_import(measuring(), text, tr("Pasted"));
    preview_->show(preview_rows(preview, tr("Pasted")));
    offered_ = std::move(preview);
  } else {
    auto preview = preview_paste(measuring(), text);
    if (!preview) return host_.make(preview.problems());
    preview_->show(preview_rows(*preview));
    offered_ = *std::move(preview);
  }
  arrange();
  show_table();
  (preview_->take().IsEnabled() ? preview_->take() : preview_->leave()).SetFocus();
  return true;
}

bool MeasurePlace::offer_file(const std::string& path) {
  const auto bytes = read_whole(path);
  if (!bytes) return host_.make(bytes.problems());
  if (!measuring().plan) {
    refused(tr("Nothing is due yet: print a coupon of this setup first, then its readings can be taken from a file."));
    return false;
  }
  const std::string name = std::filesystem::path(path).filename().string();
  ImportPreview preview = preview_import(measuring(), *bytes, name);
  preview_->show(preview_rows(preview, name));
  offered_ = std::move(preview);
  arrange();
  show_table();
  (preview_->take().IsEnabled() ? preview_->take() : preview_->leave()).SetFocus();
  return true;
}

void MeasurePlace::take_preview(bool replace) {
  const auto offered = offered_;  // making the step ends the preview
  if (const auto* pasted = std::get_if<PastePreview>(&offered))
    make(take_paste(*pasted, true));
  else if (const auto* imported = std::get_if<ImportPreview>(&offered))
    make(take_import(measuring(), *imported, replace));
}

void MeasurePlace::end_preview() {
  if (offered_.index() == 0) return;
  const bool focused = preview_->IsShownOnScreen();
  offered_ = std::monostate();
  arrange();
  show_table();
  if (focused) take_focus();
}

}  // namespace fitwright
