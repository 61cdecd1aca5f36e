#include "window/app.hpp"

#include <wx/fileconf.h>
#include <wx/stdpaths.h>

#include <filesystem>

#include "bench/keeping.hpp"
#include "record/record.hpp"
#include "window/bench_start.hpp"
#include "window/language.hpp"

namespace fitwright {

namespace {

/// The bench on the record asked for, with a setup on it where there is one.
Bench bench_for(const Start& start) {
  if (start.demo) return demo_bench();
  std::string path = start.record;
  if (path.empty())
    if (auto usual = record::default_record_path()) path = *usual;
  return bench_on(record::open_or_memory(path), start.setup);
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
