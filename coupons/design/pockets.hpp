#pragma once
// Names of the parameters of the design pockets, for those who fill them in from a table of hardware.

namespace fitwright::pockets_param {

inline constexpr const char* size = "size_mm";    ///< of the part: diameter, or width over the flats
inline constexpr const char* depth = "depth_mm";  ///< of each pocket
inline constexpr const char* sides = "sides";     ///< 0 round, 4 square, 6 hexagonal

}  // namespace fitwright::pockets_param
