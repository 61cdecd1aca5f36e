// Whether there is a screen to open windows on, asked before the window library starts: without one it would not say so
// but stop with an internal error.
#pragma once

namespace fitwright {

/// True when windows can be opened here.
bool display_found();

}  // namespace fitwright
