#pragma once
// The tables of tests/reference/engineering.

#include <string>

#include "reference/stats/lre.hpp"

inline fitwright::reference::Table engineering_table(const std::string& name) {
  return fitwright::reference::read_table("../engineering/" + name);
}
