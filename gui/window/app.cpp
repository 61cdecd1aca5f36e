#include "window/app.hpp"

#include <wx/fileconf.h>
#include <wx/stdpaths.h>

#include <filesystem>

#include "bench/keeping.hpp"

namespace fitwright {

bool App::OnInit() {
  SetAppName("fitwright");
  SetAppDisplayName("Fitwright");
  wxStandardPaths& paths = wxStandardPaths::Get();
  paths.SetFileLayout(wxStandardPaths::FileLayout_XDG);
  std::error_code ignored;  // without the folder the window's place is not remembered, nothing worse
  std::filesystem::create_directories(paths.GetUserConfigDir().utf8_string(), ignored);
  wxConfigBase::Set(
      new wxFileConfig("fitwright", {}, paths.GetUserConfigDir() + "/fitwright.conf", {}, wxCONFIG_USE_LOCAL_FILE));
  frame_ = new Frame(demo_document());
  frame_->Show();
  if (!path_.empty()) frame_->open(path_);
  return true;
}

}  // namespace fitwright
