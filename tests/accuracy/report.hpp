#pragma once
// The study as a page for people.

#include <string>

#include "accuracy/study.hpp"

namespace fitwright::accuracy {

/// Markdown; the same bytes for the same study. Parts of the page that nothing was run for are left out.
std::string report(const Study& study);

}  // namespace fitwright::accuracy
