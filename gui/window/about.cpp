#include "window/about.hpp"

#include <wx/version.h>

#include <polyclipping/clipper.hpp>

#include "base/words.hpp"

namespace fitwright {
namespace {

// Versions come from the build: wx tells its own, the others through FW_VERSION_... (gui/CMakeLists.txt).
struct Library {
  const char *name, *version, *licence, *what_for;
};

constexpr Library libraries[] = {
    {"wxWidgets", wxVERSION_NUM_DOT_STRING, "wxWindows", noted("the window")},
    {"GTK", FW_VERSION_GTK, "LGPL 2.1+", noted("controls, and names for screen readers")},
    {"cmark", FW_VERSION_CMARK, "BSD 2-clause", noted("pages of the guide")},
    {"Eigen", FW_VERSION_EIGEN, "MPL 2.0", noted("linear algebra")},
    {"Boost.Math", FW_VERSION_BOOST, "Boost 1.0", noted("distributions")},
    {"SQLite", FW_VERSION_SQLITE, "public domain", noted("the record")},
    {"JSON for Modern C++", FW_VERSION_JSON, "MIT", noted("settings and exchange files")},
    {"{fmt}", FW_VERSION_FMT, "MIT", noted("text from numbers")},
    {"CLI11", FW_VERSION_CLI11, "BSD 3-clause", noted("the command line")},
    {"Clipper", CLIPPER_VERSION, "Boost 1.0", noted("plane outlines")},
    {"Cairo", FW_VERSION_CAIRO, "LGPL 2.1 / MPL 1.1", noted("drawings")},
    {"Pango", FW_VERSION_PANGO, "LGPL 2+", noted("text on measuring sheets")},
    {"lib3mf", FW_VERSION_LIB3MF, "BSD 2-clause", noted("3MF files")},
    {"libzip", FW_VERSION_LIBZIP, "BSD 3-clause", noted("container of 3MF files")},
    {"GLU", FW_VERSION_GLU, "SGI B 2.0", noted("triangles of outlines")},
};

}  // namespace

TableShown about_table() {
  TableShown table;
  table.title = tr("About Fitwright");
  table.heading = said("Fitwright {}", FITWRIGHT_VERSION);
  table.intro =
      tr("Turns caliper readings of small printed coupons into what to change, and says how sure it is.\n"
         "MIT licence, \u00a9 2026 The Fitwright developers; without any warranty. The whole text is in the file "
         "LICENSE.");
  table.columns = {tr("library"), tr("version"), tr("licence"), tr("what for")};
  for (const Library& library : libraries)
    table.rows.push_back({library.name, library.version, library.licence, tr(library.what_for)});
  return table;
}

}  // namespace fitwright
