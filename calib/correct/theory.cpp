#include "correct/theory.hpp"

#include "base/words.hpp"

namespace fitwright {

Result<double> theory_steps_per_mm(const Drive& drive) {
  const bool belt = drive.belt_pitch_mm && drive.pulley_teeth;
  const bool half_a_belt = drive.belt_pitch_mm.has_value() != drive.pulley_teeth.has_value();
  const bool screw = drive.screw_lead_mm.has_value();
  if (half_a_belt || belt == screw)
    return Problem{Code::usage,
                   {},
                   tr("an axis is driven by a belt or by a screw"),
                   tr("give belt pitch and pulley teeth, or the lead of the screw")};
  const double per_turn_mm = belt ? *drive.belt_pitch_mm * *drive.pulley_teeth : *drive.screw_lead_mm;
  const double steps_per_turn = drive.full_steps_per_turn * drive.microsteps * drive.reduction;
  if (!(per_turn_mm > 0) || !(steps_per_turn > 0) || !(drive.microsteps > 0) || !(drive.reduction > 0))
    return Problem{
        Code::usage, {}, tr("a drive's numbers must all be above 0"), tr("check motor, driver, belt or screw")};
  return steps_per_turn / per_turn_mm;
}

}  // namespace fitwright
