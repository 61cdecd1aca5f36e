#include "window/app.hpp"

#include <wx/fileconf.h>
#include <wx/stdpaths.h>

#include <filesystem>

#include "bench/keeping.hpp"
#include "record/record.hpp"
#include "record/store.hpp"
#include "window/language.hpp"

namespace fitwright {

namespace {

/// The bench on the record asked for, with a setup on it where there is one.
Bench bench_for(const Start& start) {
  std::vector<std::string> notes;
  std::string path = start.record;
  if (path.empty()) {
    if (auto usual = record::default_record_path()) path = *usual;
  }
  if (start.demo) return demo_bench();
  record::Opened opened = record::open_or_memory(path);
  for (const Problem& problem : opened.problems) notes.push_back(problem.text());
  for (const std::string& note : opened.record.notes()) notes.push_back(note);
  Bench bench(std::move(opened.record), std::move(notes));
  const auto setups = record::all<record::Setup>(bench.record());
  if (!setups || setups->empty()) {
    bench.put_loose(demo_document());
    return bench;
  }
  const std::string last = utf8(wxConfigBase::Get()->Read("/bench/setup", wxString()));
  const record::Kept<record::Setup>* chosen = &setups->back();
  for (const auto& setup : *setups)
    if (start.setup.empty() ? setup.thing.text == last : setup.value.name == start.setup) chosen = &setup;
  const auto calipers = record::all<record::Caliper>(bench.record());
  if (calipers && !calipers->empty()) {
    const std::string in_hand = utf8(wxConfigBase::Get()->Read("/bench/caliper", wxString()));
    const record::Kept<record::Caliper>* caliper = &calipers->back();
    for (const auto& known : *calipers)
      if (known.thing.text == in_hand) caliper = &known;
    (void)bench.choose_caliper(caliper->thing);
  }
  (void)bench.put_setup(chosen->thing);  // what is wrong with it is told where it is chosen
  return bench;
}

}  // namespace

bool App::OnInit() {
  SetAppName("fitwright");
  SetAppDisplayName("Fitwright");
  wxStandardPaths& paths = wxStandardPaths::Get();
  paths.SetFileLayout(wxStandardPaths::FileLayout_XDG);
  std::error_code ignored;  // without the folder the window's place is not remembered, nothing worse
  std::filesystem::create_directories(paths.GetUserConfigDir().utf8_string(), ignored);
  wxConfigBase::Set(
      new wxFileConfig("fitwright", {}, paths.GetUserConfigDir() + "/fitwright.conf", {}, wxCONFIG_USE_LOCAL_FILE));
  speak_chosen_language();
  frame_ = new Frame(bench_for(start_));
  frame_->Show();
  if (!start_.readings.empty())
    frame_->open(start_.readings);
  else if (!start_.demo && !frame_->bench().setup())
    frame_->go_to(Stage::setup);  // the first start
  return true;
}

}  // namespace fitwright
