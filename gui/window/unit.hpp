#pragma once
// The unit that the caliper in the hand shows, as it is remembered.

#include <wx/config.h>

namespace fitwright {

inline constexpr const char* inches_key = "/unit/inches";

inline bool in_inches() { return wxConfigBase::Get()->ReadBool(inches_key, false); }
inline void remember_inches(bool inches) {
  wxConfigBase::Get()->Write(inches_key, inches);
  wxConfigBase::Get()->Flush();
}

}  // namespace fitwright
