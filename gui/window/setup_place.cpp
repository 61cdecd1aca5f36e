#include "window/setup_place.hpp"

#include <wx/config.h>
#include <wx/sizer.h>
#include <wx/statline.h>

#include "base/words.hpp"
#include "bench/shown.hpp"
#include "window/access.hpp"
#include "window/actions.hpp"
#include "window/messages.hpp"
#include "window/unit.hpp"

namespace fitwright {
namespace {

constexpr int text_width_dip = 680;

/// Sets one field of a thing in the record back to what it was, unless somebody set it otherwise meanwhile.
template <class T>
Result<Done> set_back(record::Record& record, const record::Id& thing, const std::string& key, const std::string& from,
                      const std::string& to) {
  const auto now = record::one<T>(record, thing);
  if (!now) return now.problems();
  if (field_of(now->value, key) != from)
    return Problem{
        Code::bad_input, {}, tr("it was changed elsewhere meanwhile"), tr("look at it in Setup and type it again")};
  const auto next = with_field(now->value, key, to);
  if (!next) return next.problems();
  if (const auto kept = record::amend(record, *now, *next, "taken back"); !kept) return kept.problems();
  return Done{};
}

/// Keeps a field as typed. Gives what is wrong, or nothing.
template <class T>
std::string amended(Bench& bench, const record::Kept<T>& seen, const std::string& name, const std::string& key,
                    const std::string& typed) {
  const auto next = with_field(seen.value, key, typed, {in_inches()});
  if (!next) return capitalised(in_one_line(next.problems()));
  const std::string from = field_of(seen.value, key), to = field_of(*next, key);
  const auto kept = record::amend(bench.record(), seen, *next, "typed in Setup");
  if (!kept) return capitalised(in_one_line(kept.problems()));
  if (from == to) return {};
  record::Record* record = &bench.record();
  const record::Id thing = seen.thing;
  bench.made({name, [=] { return set_back<T>(*record, thing, key, to, from); },
              [=] { return set_back<T>(*record, thing, key, from, to); }});
  return {};
}

}  // namespace

SetupPlace::SetupPlace(wxWindow* parent, PlaceHost& host) : PlacePanel(parent, host), theme_(theme_of(*this)) {
  SetBackgroundColour(theme_.ground);
  scrolled_ = new wxScrolledWindow(this, wxID_ANY, wxDefaultPosition, FromDIP(wxSize(600, 300)), wxVSCROLL);
  scrolled_->SetBackgroundColour(theme_.ground);
  scrolled_->SetScrollRate(0, 5 * theme_.space);
  set_accessible(*scrolled_, tr("Setup"));
  follow_focus(*scrolled_);
  questions_ = new StartPage(scrolled_);
  known_ = new wxPanel(scrolled_);
  known_->SetBackgroundColour(theme_.ground);
  auto* down = new wxBoxSizer(wxVERTICAL);
  build_top(down);
  build_forms(down);
  known_->SetSizer(down);
  auto* all = new wxBoxSizer(wxVERTICAL);
  all->Add(questions_, 0, wxALL, 6 * theme_.space);
  all->Add(known_, 0, wxALL | wxEXPAND, 6 * theme_.space);
  scrolled_->SetSizer(all);
  auto* sizer = new wxBoxSizer(wxVERTICAL);
  sizer->Add(scrolled_, 1, wxEXPAND);
  SetSizer(sizer);

  questions_->on_begin = [this] { begin(); };
  questions_->on_leave = [this] {
    asking_ = false;
    show();
    take_focus();
  };
  questions_->on_demo = [this] {
    wxCommandEvent demo(wxEVT_MENU, act_demo);
    wxGetTopLevelParent(this)->GetEventHandler()->ProcessEvent(demo);
    host_.go_to(Stage::understand);
  };
  questions_->on_layout = [this] { lay_out(); };
  setups_->Bind(wxEVT_CHOICE, [this](wxCommandEvent& event) {
    const auto at = static_cast<std::size_t>(event.GetSelection());
    if (at < view_.setups.size()) host_.put_setup(view_.setups[at].setup);
  });
  further_->Bind(wxEVT_BUTTON, [this](wxCommandEvent&) { ask(false); });
  calipers_->Bind(wxEVT_CHOICE, [this](wxCommandEvent& event) {
    const auto at = static_cast<std::size_t>(event.GetSelection());
    if (at >= view_.calipers.size()) return;
    if (const auto chosen = host_.bench().choose_caliper(view_.calipers[at].first); !chosen)
      host_.say(in_one_line(chosen.problems()));
    host_.bench_changed();
  });
}

void SetupPlace::build_top(wxSizer* down) {
  auto* row = new wxBoxSizer(wxHORIZONTAL);
  row->Add(words(known_, tr("On the bench"), theme_.title, theme_.quiet), 0, wxALIGN_CENTRE_VERTICAL | wxRIGHT,
           3 * theme_.space);
  setups_ = new wxChoice(known_, wxID_ANY, wxDefaultPosition, wxSize(GetCharWidth() * 44, -1));
  set_accessible(*setups_, tr("Setup on the bench"),
                 tr("Every setup of the record; choosing one puts it on the bench"));
  row->Add(setups_, 0, wxALIGN_CENTRE_VERTICAL | wxRIGHT, 3 * theme_.space);
  further_ = new wxButton(known_, wxID_ANY, wx(tr("&New setup\u2026")));
  set_accessible(*further_, tr("New setup"));
  row->Add(further_, 0, wxALIGN_CENTRE_VERTICAL | wxRIGHT, 2 * theme_.space);
  end_ = new wxButton(known_, wxID_ANY, wx(tr("End this &setup")));
  set_accessible(*end_, tr("End this setup"),
                 tr("It is no longer offered; all of it stays in the record, and undo brings it back"));
  end_->SetToolTip(wx(tr("It is no longer offered; all of it stays in the record, and undo brings it back")));
  end_->Bind(wxEVT_BUTTON, [this](wxCommandEvent&) {
    const auto ended = end_setup(host_.bench());
    host_.say(ended ? tr("Ended; undo takes it up again") : in_one_line(ended.problems()));
    host_.bench_changed();
    take_focus();
  });
  row->Add(end_, 0, wxALIGN_CENTRE_VERTICAL);
  down->Add(row);
  empty_ =
      words(known_,
            tr("These readings come from a file and belong to no setup. Choose a setup above, or begin a new one, and "
               "what is known of printer, spool and caliper stands here."),
            theme_.body, theme_.quiet, FromDIP(text_width_dip));
  down->Add(empty_, 0, wxTOP, 4 * theme_.space);
}

void SetupPlace::build_forms(wxSizer* down) {
  const auto section = [&](const std::string& title, const std::string& hint, std::vector<std::string> keys) {
    auto* head = new wxBoxSizer(wxHORIZONTAL);
    head->Add(words(known_, title, theme_.title.Bold(), theme_.text), 0, wxALIGN_BOTTOM | wxRIGHT, 3 * theme_.space);
    head->Add(words(known_, hint, theme_.body, theme_.quiet), 0, wxALIGN_BOTTOM);
    down->Add(head, 0, wxTOP, 7 * theme_.space);
    for (const std::string& key : keys) {
      auto* form = new FormPanel(known_, title);
      forms_[key] = form;
      form->fields().on_typed = [this, key](const std::string& field, const std::string& typed) {
        return take(key, field, typed);
      };
      form->fields().on_layout = [this] { lay_out(); };
      down->Add(form, 0, wxTOP | wxEXPAND, 3 * theme_.space);
    }
  };
  section(tr("Setup"), tr("what a calibration is valid for; with another nozzle or layer height, begin a new one"),
          {"setup"});
  section(tr("Printer"), "", {"printer"});
  build_axes(down);
  section(tr("Spool"), "", {"spool", "material"});
  section(tr("Caliper"), "", {});
  auto* row = new wxBoxSizer(wxHORIZONTAL);
  row->Add(words(known_, tr("In the hand"), theme_.body, theme_.text), 0, wxALIGN_CENTRE_VERTICAL | wxRIGHT,
           3 * theme_.space);
  calipers_ = new wxChoice(known_, wxID_ANY, wxDefaultPosition, wxSize(GetCharWidth() * 30, -1));
  set_accessible(*calipers_, tr("Caliper in the hand"));
  row->Add(calipers_, 0, wxALIGN_CENTRE_VERTICAL | wxRIGHT, 3 * theme_.space);
  auto* another = new wxButton(known_, wxID_ANY, wx(tr("Ne&w caliper")));
  set_accessible(*another, tr("New caliper"));
  another->Bind(wxEVT_BUTTON, [this](wxCommandEvent&) { add_caliper(); });
  row->Add(another, 0, wxALIGN_CENTRE_VERTICAL);
  down->Add(row, 0, wxTOP, 3 * theme_.space);
  auto* caliper = new FormPanel(known_, tr("Caliper"));
  forms_["caliper"] = caliper;
  caliper->fields().on_typed = [this](const std::string& field, const std::string& typed) {
    return take("caliper", field, typed);
  };
  caliper->fields().on_layout = [this] { lay_out(); };
  down->Add(caliper, 0, wxTOP | wxEXPAND, 3 * theme_.space);
  log_ = new CaliperLogPanel(known_);
  log_->on_add = [this](const SteelEntry& entry) {
    const auto logged = log_steel(host_.bench(), entry);
    if (!logged) return capitalised(in_one_line(logged.problems()));
    host_.bench_changed();
    return std::string();
  };
  log_->on_layout = [this] { lay_out(); };
  down->Add(log_, 0, wxTOP | wxEXPAND, 3 * theme_.space);
}

/// Another caliper, to be named in its form.
void SetupPlace::add_caliper() {
  record::Caliper caliper;
  caliper.name = said("Caliper {}", view_.calipers.size() + 1);
  const auto kept = record::add(host_.bench().record(), caliper);
  const auto chosen = kept ? host_.bench().choose_caliper(kept->thing) : Result<Done>(kept.problems());
  if (!chosen) return host_.say(in_one_line(chosen.problems()));
  host_.bench_changed();
  wxTextCtrl& name = forms_["caliper"]->fields().field("name");
  name.SetFocus();
  name.SelectAll();
}

void SetupPlace::build_axes(wxSizer* down) {
  axes_panel_ = new wxPanel(known_);
  axes_panel_->SetBackgroundColour(theme_.ground);
  const std::vector<AxisLine> lines = axis_lines({}, {});
  auto* grid = new wxFlexGridSizer(static_cast<int>(lines.front().fields.size()) + 2,
                                   wxSize(2 * theme_.space, 2 * theme_.space));
  grid->Add(words(axes_panel_, tr("Axis"), theme_.body, theme_.quiet));
  for (const FormField& field : lines.front().fields)
    grid->Add(words(axes_panel_, field.label, theme_.body, theme_.quiet));
  grid->Add(words(axes_panel_, tr("By theory"), theme_.body, theme_.quiet));
  for (const AxisLine& line : lines) {
    const std::string name(1, static_cast<char>(line.axis - 'x' + 'X'));
    grid->Add(words(axes_panel_, name, theme_.strong,
                    theme_.of(line.axis == 'x'   ? Ink::x
                              : line.axis == 'y' ? Ink::y
                                                 : Ink::z)),
              0, wxALIGN_CENTRE_VERTICAL);
    for (const FormField& field : line.fields)
      grid->Add(axes_.add(axes_panel_, field, name + ": " + field.label,
                          GetCharWidth() * (field.key.ends_with("steps") ? 16 : 11), nullptr),
                0, wxALIGN_CENTRE_VERTICAL);
    theory_[line.axis] = words(axes_panel_, "80.0000 steps/mm", theme_.body, theme_.text);
    grid->Add(theory_[line.axis], 0, wxALIGN_CENTRE_VERTICAL | wxLEFT, theme_.space);
  }
  axes_panel_->SetSizer(grid);
  down->Add(axes_panel_, 0, wxTOP, 3 * theme_.space);
  steps_said_ = words(known_, " ", theme_.body, theme_.quiet);
  down->Add(steps_said_, 0, wxTOP, 2 * theme_.space);
  steps_note_ = words(known_, " ", theme_.body, theme_.warn);
  down->Add(steps_note_, 0, wxTOP, 2 * theme_.space);
  axes_.on_typed = [this](const std::string& key, const std::string& typed) {
    const std::string wrong = take("printer", key, typed);
    if (!wrong.empty()) reword(*steps_note_, wrong, FromDIP(text_width_dip));
    steps_note_->Show(!wrong.empty() || !view_.steps_note.empty());
    lay_out();
    return wrong;
  };
}

void SetupPlace::bench_changed() {
  auto view = setup_view(host_.bench());
  if (!view) {
    host_.say(in_one_line(view.problems()));
    return;
  }
  view_ = *std::move(view);
  const record::Id now = host_.bench().setup() ? host_.bench().setup()->setup.thing : record::Id{};
  if (now != shown_setup_) asking_ = false;
  shown_setup_ = now;
  if (view_.setups.empty() && !asking_) return ask(true);
  show();
}

void SetupPlace::show() {
  questions_->Show(asking_);
  known_->Show(!asking_);
  setups_->Clear();
  for (const SetupLine& line : view_.setups) {
    setups_->Append(wx(line.name));
    if (line.on_bench) setups_->SetSelection(static_cast<int>(setups_->GetCount()) - 1);
  }
  empty_->Show(!view_.on_bench);
  end_->Enable(view_.on_bench);
  for (wxSizerItem* item : known_->GetSizer()->GetChildren())
    if (item != known_->GetSizer()->GetItem(std::size_t{0}) && item->GetWindow() != empty_) item->Show(view_.on_bench);
  if (view_.on_bench) {
    forms_["setup"]->show(view_.setup);
    Form printer = view_.printer;
    std::erase_if(printer.fields, [this](const FormField& f) { return axes_.has(f.key); });
    forms_["printer"]->show(printer);
    forms_["spool"]->show(view_.spool);
    forms_["material"]->show(view_.material);
    std::vector<std::string> said;
    for (const AxisLine& line : view_.axes) {
      for (const FormField& field : line.fields) axes_.show(field);
      theory_[line.axis]->SetLabelText(wx(line.theory.empty() ? "\u2013" : line.theory));
      theory_[line.axis]->SetForegroundColour(line.apart ? theme_.warn : theme_.text);
      said.push_back(line.said);
    }
    const int width = FromDIP(text_width_dip);
    reword(*steps_said_, in_lines(said), width);
    reword(*steps_note_, view_.steps_note, width);
    steps_note_->Show(!view_.steps_note.empty());
    calipers_->Clear();
    for (const auto& [id, name] : view_.calipers) calipers_->Append(wx(name));
    calipers_->SetSelection(view_.caliper_chosen);
    const bool caliper = view_.caliper_chosen >= 0;
    if (caliper) forms_["caliper"]->show(view_.caliper);
    forms_["caliper"]->Show(caliper);
    log_->Show(caliper);
    log_->show(view_.caliper_log, width);
  }
  lay_out();
}

void SetupPlace::lay_out() {
  known_->Layout();
  questions_->Layout();
  scrolled_->Layout();
  scrolled_->FitInside();
}

void SetupPlace::ask(bool first) {
  auto choices = setup_choices(host_.bench().record());
  if (!choices) return host_.say(in_one_line(choices.problems()));
  choices->first = first;
  asking_ = true;
  questions_->ask(*choices, in_inches());
  show();
  if (!first) take_focus();
}

void SetupPlace::begin() {
  const SetupAnswers answers = questions_->answers();
  const auto wrong = wrong_answers(answers);
  questions_->show_wrong(wrong);
  if (!wrong.empty()) return;
  const auto begun = begin_setup(host_.bench().record(), answers);
  if (!begun) return host_.say(in_one_line(begun.problems()));
  remember_inches(answers.inches);
  host_.bench().use_inches(answers.inches);
  asking_ = false;
  (void)host_.bench().choose_caliper(begun->caliper);
  if (host_.put_setup(begun->setup)) host_.go_to(Stage::make);
}

/// A field as typed into the record. Gives what is wrong.
std::string SetupPlace::take(const std::string& form, const std::string& key, const std::string& typed) {
  Bench& bench = host_.bench();
  if (!bench.setup()) return {};
  const SetupOnBench& on = *bench.setup();
  std::string wrong;
  if (form == "setup")
    wrong = amended(bench, on.setup, "setup", key, typed);
  else if (form == "printer")
    wrong = amended(bench, on.printer, "printer", key, typed);
  else if (form == "spool")
    wrong = amended(bench, on.spool, "spool", key, typed);
  else if (form == "material")
    wrong = amended(bench, on.material, "material", key, typed);
  else if (bench.caliper())
    wrong = amended(bench, *bench.caliper(), "caliper", key, typed);
  if (!wrong.empty()) return wrong;
  if (form == "caliper") (void)bench.choose_caliper(bench.caliper()->thing);
  if (const auto looked = bench.look_again(); !looked) return in_one_line(looked.problems());
  host_.bench_changed();
  return {};
}

void SetupPlace::take_focus() {
  if (asking_)
    questions_->take_focus();
  else
    setups_->SetFocus();
}

bool SetupPlace::do_action(int id) {
  if (id != act_undo) return false;
  if (axes_.take_back_typing()) return true;
  for (auto& [key, form] : forms_)
    if (form->fields().take_back_typing()) return true;
  return false;
}

}  // namespace fitwright
