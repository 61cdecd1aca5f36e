#pragma once
// What this program is: version, licence, and the libraries it is made with.

#include "window/messages.hpp"

namespace fitwright {

/// Libraries that the two programs link, with the versions they were built with and their licences
/// (docs/dependencies.md says more, and why each is there).
TableShown about_table();

}  // namespace fitwright
