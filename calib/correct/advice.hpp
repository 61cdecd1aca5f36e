#pragma once
// What to type where after a correction, and the cautions that belong to it.

#include <string>
#include <vector>

#include "correct/correction.hpp"

namespace fitwright {

/// Cautions for the changes of a correction: steps, Z, theory, travel that contradicts the prints.
std::vector<std::string> cautions_for(const Correction& correction, const Estimates& estimates,
                                      const CorrectOptions& options);

/// Those of them that belong to the changed steps themselves, for the place where the steps are shown; empty when no
/// steps change. They stand first in cautions_for().
std::vector<std::string> steps_cautions(const Correction& correction);

/// Machine code for new steps with the other convention beside it, and what else has to be done, in words.
/// `other_materials`: also what new steps mean for every other material of the machine; false where it is known which
/// ones there are, and each is told by itself.
std::vector<std::string> commands_for(const Correction& correction, bool other_materials = true);

}  // namespace fitwright
