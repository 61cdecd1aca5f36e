#pragma once
// A step forward on the bench: the next content, and how to call the step.

#include <string>

#include "bench/content.hpp"

namespace fitwright {

struct Edit {
  Content next;
  std::string label;  ///< names the step for undo: "reading of X40"
  std::string said;   ///< for the status line; empty when what is shown says it all
};

/// The same readings under other wishes, or another state of the printer.
Edit with_wishes(const Content& content, const Wishes& wishes, std::string label);
Edit with_state(const Content& content, const State& state);

}  // namespace fitwright
