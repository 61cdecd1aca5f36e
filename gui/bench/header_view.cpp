#include "bench/header_view.hpp"

#include <filesystem>

#include "base/number.hpp"
#include "bench/shown.hpp"

namespace fitwright {
namespace {

std::string settings_in_words(const State& s) {
  return typeset("Printed with size factor " + shortest(s.size_factor) + ", outline offset " +
                 shortest(s.outline_offset_mm) + " mm, flow " + shortest(s.flow) + ", " + shortest(s.steps_per_mm.x) +
                 " / " + shortest(s.steps_per_mm.y) + " / " + shortest(s.steps_per_mm.z) + " steps per mm");
}

}  // namespace

HeaderView header_view(const Document& document, const std::string& product) {
  HeaderView view;
  const std::string& source = document.content().readings->source;
  if (!document.path().empty()) {
    view.name = std::filesystem::path(document.path()).stem().string();
  } else {
    view.name = source.empty() ? "New readings" : source;
  }
  view.settings = settings_in_words(document.content().state);
  view.window_title = (document.dirty() ? "\u2022 " : "") + view.name + " \u2013 " + product;
  return view;
}

}  // namespace fitwright
