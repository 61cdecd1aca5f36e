// The guide: a page for each place, and nothing in it that leads nowhere.

#include "bench/guide.hpp"

#include <catch2/catch.hpp>
#include <filesystem>
#include <regex>
#include <string>
#include <vector>

#include "base/file.hpp"

using namespace fitwright;

namespace {

namespace fs = std::filesystem;

const std::string folder = FW_SOURCE "/docs/guide";

std::vector<fs::path> pages() {
  std::vector<fs::path> all;
  for (const auto& entry : fs::directory_iterator(folder))
    if (entry.path().extension() == ".md") all.push_back(entry.path());
  return all;
}

/// Where the links and pictures of a page lead.
std::vector<std::string> targets(const std::string& text) {
  static const std::regex link(R"(\]\(([^)\s]+)\))");
  std::vector<std::string> all;
  for (std::sregex_iterator it(text.begin(), text.end(), link), end; it != end; ++it) all.push_back((*it)[1]);
  return all;
}

}  // namespace

TEST_CASE("every place has a page of the guide, and every page a title") {
  for (const Stage place : all_places()) CHECK(fs::is_regular_file(folder + "/" + guide_page_of(place)));
  CHECK(guide_among({"", folder + "/nowhere", folder}) == folder);
  CHECK(guide_among({folder + "/nowhere"}).empty());
  CHECK(pages().size() >= 10);
  for (const fs::path& page : pages()) CHECK_FALSE(page_title(read_whole(page.string()).value()).empty());
}

TEST_CASE("links and pictures of the guide lead somewhere") {
  int found = 0;
  for (const fs::path& page : pages())
    for (const std::string& target : targets(read_whole(page.string()).value())) {
      INFO(page.filename().string() << " -> " << target);
      ++found;
      CHECK(target.find("://") == std::string::npos);
      CHECK(fs::exists(page.parent_path() / target));
    }
  CHECK(found > 20);
}

TEST_CASE("a page becomes HTML with the window's colours, its pictures no wider than it") {
  const std::string html = page_html("# A *b*\n\n![what](p.png)\n\n- [to](q.md)\n", {"#101010", "#fafafa", "#77aaff"});
  CHECK(html.find("bgcolor=\"#101010\" text=\"#fafafa\" link=\"#77aaff\"") != std::string::npos);
  CHECK(html.find("<h1>A <em>b</em></h1>") != std::string::npos);
  CHECK(html.find("<img width=\"100%\" src=\"p.png\" alt=\"what\"") != std::string::npos);
  CHECK(html.find("<a href=\"q.md\">to</a>") != std::string::npos);
  CHECK(page_html("a <script>b</script>", {}).find("<script>") == std::string::npos);
  CHECK(page_title("\n# Measure\ntext") == "Measure");
  CHECK(page_title("text").empty());
}
