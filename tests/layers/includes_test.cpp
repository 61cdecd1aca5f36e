// Layers point one way: calib <- coupons <- cli, gui; within calib and coupons by part; a window library in one folder.

#include <catch2/catch.hpp>
#include <map>
#include <set>

#include "layers/tree.hpp"

namespace {

using layers::Breach;
using layers::SourceFile;

/// What each part may include besides itself. A new part is added here, on purpose, together with its link line.
const std::map<std::string, std::set<std::string>>& calib_parts() {
  static const std::map<std::string, std::set<std::string>> table{
      {"base", {}},
      {"reading", {"base"}},
      {"stats", {"base"}},
      {"model", {"base", "reading", "stats"}},
      {"correct", {"base", "reading", "stats", "model"}},
      {"learn", {"base", "reading", "stats", "model"}},
      {"record", {"base", "reading", "stats", "model", "correct", "learn"}},
      {"fits", {"base", "reading", "stats", "model", "correct", "learn", "record"}},
      {"practice", {"base", "reading"}},
      {"report", {"base", "reading", "stats", "model", "correct", "practice"}},
  };
  return table;
}

const std::map<std::string, std::set<std::string>>& coupon_parts() {
  static const std::map<std::string, std::set<std::string>> table{
      {"solid", {"base"}},
      {"mesh", {"base", "solid"}},
      {"design", {"base", "reading", "solid"}},
      {"sheet", {"base", "reading", "solid", "design"}},
  };
  return table;
}

/// "calib/model/x.cpp" -> "model"; empty when the file is not in a part of `layer`.
std::string part_of(const std::string& path, const std::string& layer) {
  if (!path.starts_with(layer + '/')) return {};
  const std::size_t start = layer.size() + 1;
  const std::size_t end = path.find('/', start);
  return end == std::string::npos ? std::string() : path.substr(start, end - start);
}

std::string first_folder(const std::string& header) {
  const std::size_t slash = header.find('/');
  return slash == std::string::npos ? std::string() : header.substr(0, slash);
}

bool is_code(const std::string& path) {
  return path.ends_with(".cpp") || path.ends_with(".hpp") || path.ends_with(".h") || path.ends_with(".cc");
}

bool is_ours(const std::string& folder) {
  return calib_parts().contains(folder) || coupon_parts().contains(folder) || folder == "bench" || folder == "window";
}

/// What is wrong with `path` including `header`; empty when it may.
std::string objection(const std::string& path, const std::string& header) {
  const std::string folder = first_folder(header);
  if (folder == "wx" && !path.starts_with("gui/window/") && !path.starts_with("tests/window/") &&
      !path.starts_with("tests/bench/window/"))
    return "<" + header + "> outside gui/window: only the window's own folder knows the window library";
  if (header.starts_with("../")) return "\"" + header + "\": name headers from their layer's root, not by a way back";

  const bool calib = path.starts_with("calib/");
  const bool coupons = path.starts_with("coupons/");
  if (calib || coupons || path.starts_with("cli/"))
    if (folder == "bench" || folder == "window" || folder == "gui")
      return "\"" + header + "\": the gui is above this layer";
  if (path.starts_with("gui/bench/") && folder == "window") return "\"" + header + "\": view models know no window";

  if (calib) {
    for (const char* drawing : {"cairo", "pango", "GL", "CGAL", "lib3mf", "polyclipping"})
      if (folder == drawing || header.starts_with(std::string(drawing) + '.'))
        return "<" + header + "> in calib: it has no mesh and draws nothing";
    if (coupon_parts().contains(folder)) return "\"" + header + "\" in calib: coupons are above it";
    const std::string part = part_of(path, "calib");
    const auto row = calib_parts().find(part);
    if (row == calib_parts().end()) return "calib/" + part + " is a part that tests/layers does not know: add it there";
    if (is_ours(folder) && folder != part && !row->second.contains(folder))
      return "\"" + header + "\": calib/" + part + " may not know " + folder;
  }
  if (coupons) {
    const std::string part = part_of(path, "coupons");
    const auto row = coupon_parts().find(part);
    if (row == coupon_parts().end())
      return "coupons/" + part + " is a part that tests/layers does not know: add it there";
    if (is_ours(folder) && folder != part && !row->second.contains(folder))
      return "\"" + header + "\": coupons/" + part + " may not know " + folder;
  }
  if ((calib || coupons || path.starts_with("gui/")) && path.ends_with(".hpp") && folder == "nlohmann" &&
      path != "calib/report/json_text.hpp")
    return "<" + header + "> in a header: JSON takes seconds to compile, keep it in .cpp files";
  return {};
}

std::vector<Breach> breaches(const std::vector<SourceFile>& files) {
  std::vector<Breach> found;
  for (const SourceFile& file : files) {
    if (!is_code(file.path)) continue;
    for (std::size_t i = 0; i < file.lines.size(); ++i) {
      const std::string header = layers::included(file.lines[i]);
      if (header.empty()) continue;
      const std::string what = objection(file.path, header);
      if (!what.empty()) found.push_back({file.path, i + 1, what});
    }
  }
  return found;
}

}  // namespace

TEST_CASE("includes point down the layers") {
  const auto found = breaches(layers::project_files());
  INFO(layers::listing(found));
  CHECK(found.empty());
}

TEST_CASE("the guard sees what it should, and lets pass what it should") {
  const auto told = [](const std::string& path, const std::string& line) {
    return !breaches({SourceFile{path, {"// first", line}}}).empty();
  };
  CHECK(told("calib/base/a.cpp", "#include <wx/frame.h>"));
  CHECK(told("gui/bench/a.hpp", "  #  include \"wx/frame.h\""));
  CHECK(told("cli/a.cpp", "#include <wx/string.h>"));
  CHECK(told("calib/model/a.cpp", "#include \"mesh/mesh.hpp\""));
  CHECK(told("calib/model/a.cpp", "#include \"design/design.hpp\""));
  CHECK(told("calib/base/a.cpp", "#include \"reading/reading.hpp\""));
  CHECK(told("calib/stats/a.cpp", "#include \"model/estimates.hpp\""));
  CHECK(told("calib/model/a.cpp", "#include \"correct/state.hpp\""));
  CHECK(told("calib/practice/a.cpp", "#include \"model/estimate.hpp\""));
  CHECK(told("calib/correct/a.cpp", "#include \"report/layout.hpp\""));
  CHECK(told("calib/model/a.cpp", "#include \"../correct/state.hpp\""));
  CHECK(told("calib/elsewhere/a.cpp", "#include <vector>"));
  CHECK(told("coupons/solid/a.cpp", "#include \"mesh/mesh.hpp\""));
  CHECK(told("coupons/design/a.cpp", "#include \"bench/document.hpp\""));
  CHECK(told("cli/a.cpp", "#include \"bench/document.hpp\""));
  CHECK(told("calib/correct/a.hpp", "#include <nlohmann/json.hpp>"));

  CHECK_FALSE(told("gui/window/a.cpp", "#include <wx/frame.h>"));
  CHECK_FALSE(told("tests/window/a.cpp", "#include <wx/frame.h>"));
  CHECK_FALSE(told("calib/model/a.cpp", "#include \"reading/reading.hpp\""));
  CHECK_FALSE(told("calib/model/a.cpp", "#include <Eigen/Core>"));
  CHECK_FALSE(told("calib/correct/a.cpp", "#include <nlohmann/json.hpp>"));
  CHECK_FALSE(told("coupons/sheet/a.cpp", "#include <cairo/cairo-pdf.h>"));
  CHECK_FALSE(told("gui/window/a.cpp", "#include \"bench/document.hpp\""));
  CHECK_FALSE(told("calib/base/a.cpp", "// #include <wx/frame.h>"));

  const auto place = breaches({SourceFile{"calib/base/a.cpp", {"", "", "#include <wx/frame.h>"}}});
  REQUIRE(place.size() == 1);
  CHECK(place[0].path == "calib/base/a.cpp");
  CHECK(place[0].line == 3);
}

TEST_CASE("public headers have a test") {  // a list to look at, not a failure
  const auto files = layers::project_files();
  std::string without;
  for (const SourceFile& header : files) {
    if (!header.path.ends_with(".hpp")) continue;
    if (!header.path.starts_with("calib/") && !header.path.starts_with("coupons/")) continue;
    const std::size_t slash = header.path.rfind('/');
    const std::string stem = header.path.substr(slash + 1, header.path.size() - slash - 5);
    const std::string name = header.path.substr(header.path.find('/') + 1);
    bool tested = false;
    for (const SourceFile& test : files) {
      if (!test.path.starts_with("tests/") || !test.path.ends_with(".cpp")) continue;
      tested = tested || test.path.ends_with('/' + stem + ".cpp") || test.path.ends_with('/' + stem + "_test.cpp");
      for (const std::string& line : test.lines) tested = tested || layers::included(line) == name;
    }
    if (!tested) without += '\n' + header.path;
  }
  if (!without.empty()) WARN("headers that no test names or includes:" << without);
  SUCCEED();
}
