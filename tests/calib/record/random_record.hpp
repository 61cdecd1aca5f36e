#pragma once
// Records full of odd things, made through the store as the program would: for laws that must hold of any record.

#include <cstdint>
#include <random>

#include "record/record.hpp"

namespace fitwright_test {

/// A record in memory with things of every kind, several amended, some ended: texts with quotes, line ends, control
/// characters and many scripts, numbers at the ends of their range, empty options. Ids are new ones every time; all
/// else follows from the seed.
fitwright::record::Record random_record(std::uint64_t seed, int steps = 120);

/// `steps` more: additions, amendments, ends. `names` > 0 draws names from so few that some come twice.
void change_randomly(fitwright::record::Record& record, std::uint64_t seed, int steps, int names = 0);

/// A record in memory with the rows of another.
fitwright::record::Record copy_of(fitwright::record::Record& record);

/// The JSON document of a record.
std::string exported(fitwright::record::Record& record);

}  // namespace fitwright_test
