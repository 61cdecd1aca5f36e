#include "window/fits_place.hpp"

#include <wx/sizer.h>
#include <wx/statline.h>
#include <wx/wrapsizer.h>

#include <array>

#include "base/words.hpp"
#include "window/access.hpp"
#include "window/form_panel.hpp"
#include "window/messages.hpp"
#include "window/splitter.hpp"

namespace fitwright {
namespace {

constexpr int part_dip = 150, chance_dip = 56;

constexpr std::array<const char*, 4> kinds{noted("hole"), noted("peg"), noted("slot"), noted("tab")};
constexpr std::array<const char*, 3> partners{noted("bought part or size"), noted("part read with this caliper"),
                                              noted("part printed too, of size")};
constexpr std::array<const char*, 4> fits{noted("press"), noted("snug"), noted("sliding"), noted("loose")};

template <std::size_t n>
wxChoice* choice_of(wxWindow* parent, const std::array<const char*, n>& labels, int chosen, const std::string& name) {
  auto* choice = new wxChoice(parent, wxID_ANY);
  for (const char* label : labels) choice->Append(wx(tr(label)));
  choice->SetSelection(chosen);
  set_accessible(*choice, name);
  return choice;
}

}  // namespace

FitsPlace::FitsPlace(wxWindow* parent, PlaceHost& host) : PlacePanel(parent, host), theme_(theme_of(*this)) {
  SetBackgroundColour(theme_.ground);
  const int s = theme_.space;
  auto* top = new wxBoxSizer(wxVERTICAL);
  top->Add(words(this, tr("What do you want to fit?"), theme_.title.Bold(), theme_.text));
  top->Add(build_sentence(), 0, wxEXPAND | wxTOP, 2 * s);
  auto* large = new wxBoxSizer(wxHORIZONTAL);
  size_ = words(this, " ", theme_.huge, theme_.text);
  large->Add(size_, 0, wxALIGN_BOTTOM | wxRIGHT, 5 * s);
  promise_ = words(this, " ", theme_.title, theme_.quiet);
  large->Add(promise_, 1, wxALIGN_BOTTOM | wxBOTTOM, 2 * s);
  top->Add(large, 0, wxEXPAND | wxTOP, 3 * s);

  auto* across = new wxBoxSizer(wxHORIZONTAL);
  trying_ = new TryingPanel(this);
  trying_->on_grade = [this](const Ladder& ladder, std::size_t place, Grade g) { grade(ladder, place, g); };
  across->Add(trying_, 0, wxEXPAND);
  across->Add(new wxStaticLine(this, wxID_ANY, wxDefaultPosition, wxDefaultSize, wxLI_VERTICAL), 0, wxEXPAND);
  auto* down = new Splitter(this);
  curves_ = new PlotPanel(down, tr("Chance of each grade over clearance"));
  below_ = new PassagesPage(down, tr("Why, and what the trials say"));
  down->SetMinimumPaneSize(30 * s);
  down->SplitHorizontally(curves_, below_);
  down->keep_at([](int whole) { return whole / 2; });
  across->Add(down, 1, wxEXPAND);

  auto* sizer = new wxBoxSizer(wxVERTICAL);
  sizer->Add(top, 0, wxEXPAND | wxALL, 4 * s);
  sizer->Add(new wxStaticLine(this), 0, wxEXPAND);
  sizer->Add(across, 1, wxEXPAND);
  SetSizer(sizer);
  // A sentence that wraps knows its height only once it has been laid out: what is below moves in a second go.
  Bind(wxEVT_SIZE, [this](wxSizeEvent& event) {
    event.Skip();
    CallAfter([this] { Layout(); });
  });
  Bind(wxEVT_CHAR_HOOK, &FitsPlace::on_key, this);
}

wxSizer* FitsPlace::build_sentence() {
  const int s = theme_.space;
  auto* row = new wxWrapSizer(wxHORIZONTAL);
  const auto put = [&](wxWindow* window) { row->Add(window, 0, wxALIGN_CENTRE_VERTICAL | wxRIGHT | wxBOTTOM, 2 * s); };
  kind_ = choice_of(this, kinds, 0, tr("What you draw"));
  put(kind_);
  put(words(this, tr("for a"), theme_.title, theme_.text));
  partner_ = choice_of(this, partners, 0, tr("What the other part is"));
  put(partner_);
  part_ = new wxTextCtrl(this, wxID_ANY, {}, wxDefaultPosition, FromDIP(wxSize(part_dip, -1)), wxTE_PROCESS_ENTER);
  part_->SetHint(wx(tr("bearing 608, or 8")));
  set_accessible(*part_, tr("The part, or its size in mm"), tr("Such as bearing 608, M4 nut, magnet 6x3, or 8"));
  put(part_);
  put(words(this, tr("as a"), theme_.title, theme_.text));
  fit_ = choice_of(this, fits, 0, tr("How it should go together"));
  put(fit_);
  put(words(this, tr("fit, sure to"), theme_.title, theme_.text));
  chance_ =
      new wxTextCtrl(this, wxID_ANY, "90", wxDefaultPosition, FromDIP(wxSize(chance_dip, -1)), wxTE_PROCESS_ENTER);
  set_accessible(*chance_, tr("Wanted chance, per cent"));
  put(chance_);
  put(words(this, "%", theme_.title, theme_.text));
  for (wxChoice* choice : {kind_, partner_, fit_}) choice->Bind(wxEVT_CHOICE, [this](wxCommandEvent&) { ask(); });
  for (wxTextCtrl* field : {part_, chance_}) field->Bind(wxEVT_TEXT, [this](wxCommandEvent&) { ask(); });
  return row;
}

/// Estimates take a moment: looked at only when somebody looks.
void FitsPlace::look_when_seen() {
  stale_ = true;
  if (IsShown()) look();
}

void FitsPlace::look(bool only_trials) {
  if (!stale_ && !only_trials) return;
  const bool take_over = only_trials && !stale_;
  stale_ = false;
  const auto& on = host_.bench().setup();
  auto view = std::make_shared<FitsView>();
  if (auto found =
          fits_view(host_.bench().record(), on ? on->setup.thing : record::Id{}, take_over ? view_.get() : nullptr))
    *view = *std::move(found);
  else
    view->empty = in_one_line(found.problems());
  view_ = std::move(view);
  PlotScene curves = view_->curves;
  if (!view_->empty.empty()) curves.empty = tr("The chances of the five grades will stand here.");
  curves_->show(curves);
  trying_->show(view_->ladders, view_->empty.empty()
                                    ? view_->no_ladder
                                    : tr("The places of a coupon to be tried will stand here, to be graded by keys."));
  show_below();
  Layout();
  ask();
}

FitQuestion FitsPlace::question() const {
  FitQuestion q;
  q.kind = static_cast<SizeKind>(kind_->GetSelection());
  q.partner = static_cast<Partner>(partner_->GetSelection());
  q.part = utf8(part_->GetValue());
  q.fit = static_cast<fitwright::Fit>(fit_->GetSelection());
  q.chance = utf8(chance_->GetValue());
  return q;
}

void FitsPlace::ask() {
  answering_.start([this, asked = ++asked_, view = view_, q = question()] {
    auto answer = std::make_shared<FitAnswer>(fit_answer(*view, q));
    CallAfter([this, asked, answer] {
      if (asked != asked_) return;  // stale: another one is on its way
      shown_ = asked;
      answer_ = std::move(*answer);
      show_answer();
    });
  });
}

void FitsPlace::show_answer() {
  const bool good = answer_.wrong.empty();
  size_->SetLabelText(wx(good ? answer_.size : "\u2013"));
  promise_->SetForegroundColour(good ? answer_.reached ? theme_.good : theme_.warn : theme_.quiet);
  const int width = std::max(FromDIP(200), GetClientSize().x - size_->GetBestSize().x - 14 * theme_.space);
  reword(*promise_,
         good ? answer_.chance + (answer_.reached ? "" : std::string(". ") + tr("No size is surer.")) : answer_.wrong,
         width);
  show_below();
  Layout();
}

void FitsPlace::show_below() {
  std::vector<Passage> passages;
  if (!answer_.size.empty()) {
    std::vector<std::string> lines{answer_.sentence};
    lines.insert(lines.end(), answer_.reasons.begin(), answer_.reasons.end());
    passages.push_back({tr("Why"), std::move(lines)});
    passages.push_back({tr("What makes it uncertain"), answer_.limits});
    if (!answer_.cautions.empty()) passages.push_back({tr("Take care"), answer_.cautions});
  }
  if (!view_->ladders.empty()) {
    const Ladder& newest = view_->ladders.front();
    std::vector<std::string> lines = newest.cautions;
    lines.insert(lines.end(), newest.before.begin(), newest.before.end());
    passages.push_back({tr("Take care while trying"), std::move(lines)});
  }
  if (!view_->told.empty()) passages.push_back({tr("What the trials say"), view_->told});
  below_->show(std::move(passages));
}

void FitsPlace::grade(const Ladder& ladder, std::size_t place, Grade grade) {
  const auto done = grade_place(host_.bench(), ladder, place, grade);
  if (!done) return host_.say(in_one_line(done.problems()));
  look(true);  // nothing else rests on trials: the other places stay as they are
  host_.say(said("{}: {}", ladder.places[place].id, tr(felt(grade))));
}

/// Digits grade, wherever the focus is but in a field that is typed in.
void FitsPlace::on_key(wxKeyEvent& event) {
  const int key = event.GetKeyCode();
  const int digit = key >= WXK_NUMPAD0 && key <= WXK_NUMPAD9 ? key - WXK_NUMPAD0 : key - '0';
  if (digit < 0 || digit >= grade_count || event.HasAnyModifiers() || !trying_->has_ladder() ||
      dynamic_cast<wxTextEntry*>(wxWindow::FindFocus()))
    return event.Skip();
  trying_->grade(static_cast<Grade>(digit));
}

void FitsPlace::take_focus() {
  look();
  if (trying_->has_ladder())
    trying_->list().SetFocus();
  else
    part_->SetFocus();
}

}  // namespace fitwright
