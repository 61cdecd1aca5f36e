#include "bench/guide.hpp"

#include <cmark.h>

#include <cstdlib>
#include <filesystem>
#include <memory>
#include <sstream>

namespace fitwright {

std::string guide_page_of(Stage place) {
  switch (place) {
    case Stage::setup:
      return "setup.md";
    case Stage::make:
      return "make.md";
    case Stage::measure:
      return "measure.md";
    case Stage::understand:
      return "understand.md";
    case Stage::correct:
      return "correct.md";
    case Stage::history:
      return "history.md";
    case Stage::fits:
      return "fits.md";
  }
  return guide_contents();
}

std::string guide_contents() { return "README.md"; }

std::string guide_among(const std::vector<std::string>& folders) {
  for (const std::string& folder : folders) {
    std::error_code ignored;
    if (!folder.empty() && std::filesystem::is_regular_file(folder + "/" + guide_contents(), ignored)) return folder;
  }
  return {};
}

std::string page_html(const std::string& common_mark, const PageColours& colours) {
  const std::unique_ptr<char, decltype(&std::free)> made(
      cmark_markdown_to_html(common_mark.data(), common_mark.size(), CMARK_OPT_DEFAULT), &std::free);
  std::string body = made.get();
  const std::string plain = "<img src=", fitted = "<img width=\"100%\" src=";
  for (std::size_t at = body.find(plain); at != std::string::npos; at = body.find(plain, at + fitted.size()))
    body.replace(at, plain.size(), fitted);
  return "<html><body bgcolor=\"" + colours.ground + "\" text=\"" + colours.text + "\" link=\"" + colours.link +
         "\">\n" + body + "</body></html>\n";
}

std::string page_title(const std::string& common_mark) {
  std::istringstream lines(common_mark);
  for (std::string line; std::getline(lines, line);)
    if (line.rfind("# ", 0) == 0) return line.substr(2);
  return {};
}

}  // namespace fitwright
