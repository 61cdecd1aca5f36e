#pragma once
// The guide's pages: which belongs to which place, and how one becomes what the help window shows.

#include <string>
#include <vector>

#include "bench/places.hpp"

namespace fitwright {

/// File of the guide that tells of a place: "measure.md".
std::string guide_page_of(Stage place);
/// File of its contents: "README.md".
std::string guide_contents();

/// The first of `folders` that holds the guide's contents; empty when none does.
std::string guide_among(const std::vector<std::string>& folders);

/// Colours of a page, each as "#rrggbb".
struct PageColours {
  std::string ground = "#ffffff", text = "#000000", link = "#0000ee";
};

/// HTML of a page written in CommonMark. Pictures are as wide as the page lets them be.
std::string page_html(const std::string& common_mark, const PageColours& colours);
/// Its first heading, without its marks; empty when it has none.
std::string page_title(const std::string& common_mark);

}  // namespace fitwright
