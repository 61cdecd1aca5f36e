#include "window/make_place.hpp"

#include <wx/config.h>
#include <wx/datetime.h>
#include <wx/filedlg.h>
#include <wx/sizer.h>
#include <wx/statline.h>
#include <wx/wrapsizer.h>

#include "base/file.hpp"
#include "base/words.hpp"
#include "bench/shown.hpp"
#include "sheet/sheet.hpp"
#include "window/access.hpp"
#include "window/actions.hpp"
#include "window/messages.hpp"
#include "window/print_pdf.hpp"
#include "window/unit.hpp"

namespace fitwright {
namespace {

constexpr int left_width_dip = 392;
constexpr int left_text_dip = 350;
constexpr int quarter_turn_deg = 90;

std::string today() { return utf8(wxDateTime::Today().FormatISODate()); }

std::string joined(const std::vector<std::string>& parts, const std::string& between) {
  std::string text;
  for (const std::string& part : parts) text += (text.empty() ? "" : between) + part;
  return text;
}

}  // namespace

struct MakePlace::Computed {
  std::uint64_t asked = 0;
  Made made;
  std::shared_ptr<const CouponScene> scene;
};

MakePlace::MakePlace(wxWindow* parent, PlaceHost& host) : PlacePanel(parent, host), theme_(theme_of(*this)) {
  SetBackgroundColour(theme_.ground);
  auto* across = new wxBoxSizer(wxHORIZONTAL);
  build_left(across);
  across->Add(new wxStaticLine(this, wxID_ANY, wxDefaultPosition, wxDefaultSize, wxLI_VERTICAL), 0, wxEXPAND);
  build_right(across);
  SetSizer(across);
}

void MakePlace::build_left(wxSizer* across) {
  const int s = theme_.space;
  left_ = new wxScrolledWindow(this, wxID_ANY, wxDefaultPosition, FromDIP(wxSize(left_width_dip, 300)), wxVSCROLL);
  left_->SetBackgroundColour(theme_.ground);
  left_->SetScrollRate(0, 5 * s);
  left_->SetMinSize(FromDIP(wxSize(left_width_dip, -1)));
  set_accessible(*left_, tr("What to make"));
  follow_focus(*left_);
  auto* down = new wxBoxSizer(wxVERTICAL);
  down->Add(words(left_, tr("What is wrong?"), theme_.title.Bold(), theme_.text), 0, wxBOTTOM, 2 * s);
  for (std::size_t i = 0; i < make_questions().size(); ++i) {
    const std::string symptom = tr(make_questions()[i].symptom.c_str());
    auto* radio =
        new wxRadioButton(left_, wxID_ANY, wx(symptom), wxDefaultPosition, wxDefaultSize, i == 0 ? wxRB_GROUP : 0);
    set_accessible(*radio, symptom);
    radio->Bind(wxEVT_RADIOBUTTON, [this, i](wxCommandEvent&) { choose(i); });
    questions_.push_back(radio);
    down->Add(radio, 0, wxTOP, s);
  }
  answer_ = words(left_, " ", theme_.body, theme_.quiet);
  down->Add(answer_, 0, wxTOP, 4 * s);
  down->Add(words(left_, tr("Sizes"), theme_.title.Bold(), theme_.text), 0, wxTOP | wxBOTTOM, 4 * s);
  form_ = new FormPanel(left_, "", true);
  form_->fields().on_typed = [this](const std::string& key, const std::string& typed) {
    wish_.typed[key] = typed;
    wish_.inches = in_inches();
    compute();
    return std::string();
  };
  form_->fields().on_layout = [this] { lay_out(); };
  down->Add(form_, 0, wxEXPAND);
  down->Add(words(left_, tr("Before printing"), theme_.title.Bold(), theme_.text), 0, wxTOP | wxBOTTOM, 4 * s);
  before_ = words(left_, " ", theme_.body, theme_.text);
  down->Add(before_, 0, wxEXPAND);
  auto* margin = new wxBoxSizer(wxVERTICAL);
  margin->Add(down, 0, wxALL | wxEXPAND, 4 * s);
  left_->SetSizer(margin);
  across->Add(left_, 0, wxEXPAND);
}

void MakePlace::build_right(wxSizer* across) {
  const int s = theme_.space;
  auto* down = new wxBoxSizer(wxVERTICAL);
  picture_ = &make_coupon_picture(this);
  picture_->on_feature = [this](const std::string&, const std::string& said) { host_.say(said); };
  down->Add(&picture_->window(), 1, wxEXPAND);
  below_ = new wxPanel(this);
  below_->SetBackgroundColour(theme_.ground);
  auto* lines = new wxBoxSizer(wxVERTICAL);
  facts_ = words(below_, " ", theme_.strong, theme_.text);
  lines->Add(facts_);
  auto* files = new wxWrapSizer(wxHORIZONTAL, wxREMOVE_LEADING_SPACES);  // where it is narrow: two lines
  const auto button = [&](const char* label, const std::string& name) {
    auto* made = new wxButton(below_, wxID_ANY, wx(label));
    set_accessible(*made, name);
    return made;
  };
  solid_ = button(tr("Save the &solid\u2026"), tr("Save the solid as STL or 3MF"));
  sheet_ = button(tr("Save the measuring shee&t\u2026"), tr("Save the measuring sheet as PDF"));
  files->Add(solid_, 0, wxRIGHT, 2 * s);
  print_ = button(tr("Print &it\u2026"), tr("Print the measuring sheet"));
  files->Add(sheet_, 0, wxRIGHT, 2 * s);
  files->Add(print_, 0, wxRIGHT, 2 * s);
  lines->Add(files, 0, wxEXPAND | wxTOP, 3 * s);
  reason_ = words(below_, " ", theme_.body, theme_.quiet);
  lines->Add(reason_, 0, wxTOP, 3 * s);
  auto* print = new wxWrapSizer(wxHORIZONTAL, wxREMOVE_LEADING_SPACES);
  print->Add(words(below_, tr("This copy lay"), theme_.body, theme_.text), 0, wxALIGN_CENTRE_VERTICAL | wxRIGHT, 2 * s);
  turned_ = new wxChoice(below_, wxID_ANY);
  turned_->Append(wx(tr("as drawn")));
  turned_->Append(wx(tr("turned by 90\u00b0")));
  turned_->SetSelection(0);
  set_accessible(*turned_, tr("How this copy lay on the bed"));
  turned_->Bind(wxEVT_CHOICE, [this](wxCommandEvent& event) {
    picture_->set_turned(event.GetSelection() == 1 ? quarter_turn_deg : 0);
  });
  printed_ = button(tr("It is printe&d: measure it"), tr("It is printed: measure it"));
  print->Add(turned_, 0, wxALIGN_CENTRE_VERTICAL | wxRIGHT, 3 * s);
  print->Add(printed_, 0, wxALIGN_CENTRE_VERTICAL);
  lines->Add(print, 0, wxEXPAND | wxTOP, 2 * s);
  told_ = words(below_, " ", theme_.body, theme_.quiet);
  lines->Add(told_, 0, wxTOP, 2 * s);
  caution_ = words(below_, " ", theme_.body, theme_.warn);
  lines->Add(caution_, 0, wxTOP, 2 * s);
  auto* margin = new wxBoxSizer(wxVERTICAL);
  margin->Add(lines, 0, wxALL | wxEXPAND, 4 * s);
  below_->SetSizer(margin);
  down->Add(below_, 0, wxEXPAND);
  across->Add(down, 1, wxEXPAND);
  solid_->Bind(wxEVT_BUTTON, [this](wxCommandEvent&) { ask_solid(); });
  sheet_->Bind(wxEVT_BUTTON, [this](wxCommandEvent&) { ask_sheet(); });
  printing = print_pdf;
  print_->Bind(wxEVT_BUTTON, [this](wxCommandEvent&) { print_sheet(); });
  printed_->Bind(wxEVT_BUTTON, [this](wxCommandEvent&) { to_measure(); });
  below_->Bind(wxEVT_SIZE, [this](wxSizeEvent& event) {
    event.Skip();
    if (below_->GetClientSize().x == wrapped_at_) return;  // only its width breaks lines anew
    CallAfter([this] { show_coupon(); });
  });
}

void MakePlace::bench_changed() {
  defaults_ = make_defaults(host_.bench().setup());
  const auto& on = host_.bench().setup();
  const record::Id setup = on ? on->setup.thing : record::Id{};
  if (setup != setup_) wish_.typed.clear();  // sizes of another bed
  setup_ = setup;
  if (on)
    picture_->set_bed(on->printer.value.bed_x_mm, on->printer.value.bed_y_mm);
  else
    picture_->set_bed(0, 0);
  compute();
}

void MakePlace::choose(std::size_t question) {
  const std::string& design = make_questions()[question].design;
  if (design != wish_.design) wish_.typed.clear();
  wish_.design = design;
  compute();
}

void MakePlace::compute() {
  form_->show(make_form(wish_, defaults_), true);
  for (const auto& [key, wrong] : made_.beside)
    if (form_->fields().has(key) && wish_.typed.contains(key)) form_->fields().show_wrong(key, wrong);
  for (const DesignInfo& info : designs())
    if (info.name == wish_.design)
      reword(*answer_, capitalised(tr(info.name.c_str())) + ": " + tr(info.question.c_str()), FromDIP(left_text_dip));
  lay_out();
  computing_.start([this, asked = ++asked_, wish = wish_, defaults = defaults_] {
    auto computed = std::make_shared<Computed>();
    computed->asked = asked;
    computed->made = make_from(wish, defaults);
    if (computed->made.coupon)
      computed->scene = std::make_shared<const CouponScene>(coupon_scene(computed->made.coupon));
    CallAfter([this, computed] { take(*computed); });
  });
}

void MakePlace::take(const Computed& computed) {
  if (computed.asked != asked_) return;  // stale: another one is on its way
  shown_ = computed.asked;
  made_ = computed.made;
  for (const FormField& field : make_form(wish_, defaults_).fields) {
    const auto wrong = made_.beside.find(field.key);
    form_->fields().show_wrong(field.key, wrong == made_.beside.end() ? std::string() : wrong->second);
  }
  if (computed.scene) picture_->set_scene(computed.scene);
  next_ = {};
  if (made_.coupon)
    if (auto next = next_copy(host_.bench(), *made_.coupon)) next_ = *std::move(next);
  turned_->SetSelection(next_.turned_deg ? 1 : 0);
  picture_->set_turned(next_.turned_deg);
  tell(made_.wrong, true);
  show_coupon();
}

void MakePlace::show_coupon() {
  const bool good = made_.coupon != nullptr;
  const bool setup = host_.bench().setup().has_value();
  const int width = std::max(FromDIP(200), below_->GetClientSize().x - 8 * theme_.space);
  wrapped_at_ = below_->GetClientSize().x;
  for (wxButton* button : {solid_, sheet_, print_}) button->Enable(good);
  printed_->Enable(good && setup);
  turned_->Enable(good && setup);
  if (good) {
    const MakeFacts facts = make_facts(*made_.coupon, host_.bench().setup());
    reword(*facts_, facts.title + ", " + joined(facts.facts, "  \u00b7  "), width);
    reword(*caution_, joined(facts.cautions, " "), width);
    reword(*before_, joined(facts.before, "\n\n"), FromDIP(left_text_dip));
  } else if (!made_.beside.empty()) {
    reword(*facts_, tr("Not like this: see beside the fields."), width);
  }
  reword(*reason_,
         setup ? next_.reason : tr("Put a setup on the bench first (Setup), so that the print is remembered."), width);
  reword(*told_, told_text_, width);
  told_->Show(!told_text_.empty());
  lay_out();
  Layout();
  below_->Layout();
}

void MakePlace::tell(const std::string& sentence, bool wrong) {
  told_text_ = sentence;
  told_->SetForegroundColour(wrong ? theme_.warn : theme_.good);
  show_coupon();
}

/// The coupon as its fields stand now, also before the picture has caught up.
std::shared_ptr<const Coupon> MakePlace::asked_coupon() const {
  return up_to_date() ? made_.coupon : make_from(wish_, defaults_).coupon;
}

bool MakePlace::save(const std::string& path) {
  const auto coupon = asked_coupon();
  if (!coupon) return false;
  const auto saved = save_solid(*coupon, path);
  if (saved)
    tell(said("Saved {}.", joined(*saved, tr(" and "))), false);
  else
    tell(capitalised(in_one_line(saved.problems())), true);
  return saved.ok();
}

bool MakePlace::save_sheet(const std::string& path) {
  const auto coupon = asked_coupon();
  if (!coupon) return false;
  const auto pdf = sheet_pdf(*coupon);
  const auto saved = pdf ? write_whole(path, *pdf) : Result<Done>(pdf.problems());
  if (saved)
    tell(tr("Saved the measuring sheet. Print it at full size."), false);
  else
    tell(capitalised(in_one_line(saved.problems())), true);
  return saved.ok();
}

void MakePlace::print_sheet() {
  const auto coupon = asked_coupon();
  if (!coupon) return;
  const auto pdf = sheet_pdf(*coupon);
  const auto sent = pdf ? printing(this, tr("Measuring sheet"), *pdf) : Result<bool>(pdf.problems());
  if (!sent)
    tell(capitalised(in_one_line(sent.problems())), true);
  else if (*sent)
    tell(tr("The measuring sheet is on its way to the printer."), false);
}

void MakePlace::to_measure() {
  if (!made_.coupon) return;
  const auto done = printed(host_.bench(), *made_.coupon, turned_->GetSelection() == 1 ? quarter_turn_deg : 0, today());
  if (!done) return tell(capitalised(in_one_line(done.problems())), true);
  host_.bench_changed();
  host_.say(tr("In the record: undo takes it back"));
  host_.go_to(Stage::measure);
}

void MakePlace::ask_solid() {
  wxFileDialog dialog(this, wx(tr("Save the solid")), {}, wx(wish_.design + ".stl"),
                      "STL (*.stl)|*.stl|3MF (*.3mf)|*.3mf", wxFD_SAVE | wxFD_OVERWRITE_PROMPT);
  if (dialog.ShowModal() != wxID_OK) return;
  wxString path = dialog.GetPath();
  if (path.AfterLast('/').Find('.') == wxNOT_FOUND) path += dialog.GetFilterIndex() == 1 ? ".3mf" : ".stl";
  save(utf8(path));
}

void MakePlace::ask_sheet() {
  wxFileDialog dialog(this, wx(tr("Save the measuring sheet")), {}, wx(wish_.design + "-sheet.pdf"),
                      "PDF (*.pdf)|*.pdf", wxFD_SAVE | wxFD_OVERWRITE_PROMPT);
  if (dialog.ShowModal() == wxID_OK) save_sheet(utf8(dialog.GetPath()));
}

void MakePlace::lay_out() {
  left_->Layout();
  left_->FitInside();
}

void MakePlace::take_focus() {
  for (wxRadioButton* radio : questions_)
    if (radio->GetValue()) return radio->SetFocus();
}

bool MakePlace::do_action(int id) { return id == act_undo && form_->fields().take_back_typing(); }

}  // namespace fitwright
