#pragma once
// The line over everything: which readings are on the bench, and which settings they were printed with.

#include <string>

#include "bench/document.hpp"

namespace fitwright {

struct HeaderView {
  std::string name;      ///< "heron-slate-14", or what it is when it has no file
  std::string settings;  ///< "printed with size factor 1, ..."
  std::string window_title;
};

/// Pure. `product` is the name in the title bar.
HeaderView header_view(const Document& document, const std::string& product);

}  // namespace fitwright
