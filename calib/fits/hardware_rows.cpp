// The built-in hardware: sizes by standard number. Read from public fastener lists that agree with each other; what
// only one list has, or none (from memory), says so in its note.

#include "fits/hardware_rows.hpp"

namespace fitwright::hardware {

// ISO 15 (boundary dimensions); limits by ISO 492, class Normal, in hardware.cpp.
const std::vector<Bearing> bearings{
    {"623", 3, 10, 4, Sure::two_lists},   {"624", 4, 13, 5, Sure::two_lists},   {"625", 5, 16, 5, Sure::two_lists},
    {"626", 6, 19, 6, Sure::two_lists},   {"607", 7, 19, 6, Sure::two_lists},   {"608", 8, 22, 7, Sure::two_lists},
    {"609", 9, 24, 7, Sure::two_lists},   {"627", 7, 22, 7, Sure::two_lists},   {"634", 4, 16, 5, Sure::two_lists},
    {"635", 5, 19, 6, Sure::two_lists},   {"629", 9, 26, 8, Sure::two_lists},   {"6000", 10, 26, 8, Sure::two_lists},
    {"6001", 12, 28, 8, Sure::one_list},  {"6002", 15, 32, 9, Sure::one_list},  {"6003", 17, 35, 10, Sure::one_list},
    {"6004", 20, 42, 12, Sure::one_list}, {"6200", 10, 30, 9, Sure::two_lists}, {"6201", 12, 32, 10, Sure::two_lists},
    {"6202", 15, 35, 11, Sure::one_list}, {"6203", 17, 40, 12, Sure::one_list}, {"6800", 10, 19, 5, Sure::one_list},
    {"6801", 12, 21, 5, Sure::memory},    {"6802", 15, 24, 5, Sure::memory},    {"6803", 17, 26, 5, Sure::memory},
    {"6804", 20, 32, 7, Sure::memory},    {"6805", 25, 37, 7, Sure::memory},    {"6806", 30, 42, 7, Sure::memory},
    {"6900", 10, 22, 6, Sure::one_list},  {"6901", 12, 24, 6, Sure::memory},    {"6808", 40, 52, 7, Sure::one_list},
    {"693ZZ", 3, 8, 4, Sure::memory},     {"683ZZ", 3, 7, 3, Sure::memory},     {"684ZZ", 4, 9, 4, Sure::one_list},
    {"685ZZ", 5, 11, 5, Sure::one_list},  {"686ZZ", 6, 13, 5, Sure::two_lists}, {"688ZZ", 8, 16, 5, Sure::one_list},
    {"618/8", 8, 16, 4, Sure::one_list},  {"694", 4, 11, 4, Sure::one_list},    {"695", 5, 13, 4, Sure::two_lists},
    {"696", 6, 15, 5, Sure::one_list},    {"MR105", 5, 10, 4, Sure::memory},    {"MR115", 5, 11, 4, Sure::one_list},
    {"MR63", 3, 6, 2.5, Sure::one_list},  {"MR83", 3, 8, 3, Sure::one_list},    {"MR85", 5, 8, 2.5, Sure::one_list},
    {"MR95", 5, 9, 3, Sure::one_list},
};

// ISO 2338 and ISO 8734: diameters of dowel pins; limits by ISO 286.
const std::vector<double> pins_2338_mm{0.6, 0.8, 1, 1.2, 1.5, 2, 2.5, 3, 4, 5, 6, 8, 10, 12, 16, 20};
const std::vector<double> pins_8734_mm{1, 1.5, 2, 2.5, 3, 4, 5, 6, 8, 10, 12, 16, 20};

// ISO 4762 (head diameter: least by h13, plain, knurled; head height), ISO 4017 (across flats, head height), ISO 4032
// (across flats, height), ISO 7089 (hole, outside diameter, thickness), mm.
const std::vector<Thread> threads{
    {"M1.6",
     1.6,
     {2.86, 3, 3.14},
     1.6,
     {3.02, 3.2},
     1.1,
     {3.02, 3.2},
     {1.05, 1.3},
     {1.7, 1.84},
     {3.7, 4},
     {0.25, 0.35}},
    {"M2", 2, {3.62, 3.8, 3.98}, 2, {3.82, 4}, 1.4, {3.82, 4}, {1.35, 1.6}, {2.2, 2.34}, {4.7, 5}, {0.25, 0.35}},
    {"M2.5", 2.5, {4.32, 4.5, 4.68}, 2.5, {4.82, 5}, 1.7, {4.82, 5}, {1.75, 2}, {2.7, 2.84}, {5.7, 6}, {0.45, 0.55}},
    {"M3", 3, {5.32, 5.5, 5.68}, 3, {5.32, 5.5}, 2, {5.32, 5.5}, {2.15, 2.4}, {3.2, 3.38}, {6.64, 7}, {0.45, 0.55}},
    {"M4", 4, {6.78, 7, 7.22}, 4, {6.78, 7}, 2.8, {6.78, 7}, {2.9, 3.2}, {4.3, 4.48}, {8.64, 9}, {0.7, 0.9}},
    {"M5", 5, {8.28, 8.5, 8.72}, 5, {7.78, 8}, 3.5, {7.78, 8}, {4.4, 4.7}, {5.3, 5.48}, {9.64, 10}, {0.9, 1.1}},
    {"M6", 6, {9.78, 10, 10.22}, 6, {9.78, 10}, 4, {9.78, 10}, {4.9, 5.2}, {6.4, 6.62}, {11.57, 12}, {1.4, 1.8}},
    {"M8", 8, {12.73, 13, 13.27}, 8, {12.73, 13}, 5.3, {12.73, 13}, {6.44, 6.8}, {8.4, 8.62}, {15.57, 16}, {1.4, 1.8}},
    {"M10",
     10,
     {15.73, 16, 16.27},
     10,
     {15.73, 16},
     6.4,
     {15.73, 16},
     {8.04, 8.4},
     {10.5, 10.77},
     {19.48, 20},
     {1.8, 2.2}},
    {"M12",
     12,
     {17.73, 18, 18.27},
     12,
     {17.73, 18},
     7.5,
     {17.73, 18},
     {10.37, 10.8},
     {13, 13.27},
     {23.48, 24},
     {2.3, 2.7}},
};

// ISO 273: clearance holes, fine (H12), medium (H13), coarse (H14), mm.
const std::vector<ClearanceHole> clearance_holes{
    {"M1.6", 1.6, 1.7, 1.8, 2.0}, {"M2", 2, 2.2, 2.4, 2.6}, {"M2.5", 2.5, 2.7, 2.9, 3.1}, {"M3", 3, 3.2, 3.4, 3.6},
    {"M3.5", 3.5, 3.7, 3.9, 4.2}, {"M4", 4, 4.3, 4.5, 4.8}, {"M5", 5, 5.3, 5.5, 5.8},     {"M6", 6, 6.4, 6.6, 7},
    {"M7", 7, 7.4, 7.6, 8},       {"M8", 8, 8.4, 9, 10},    {"M10", 10, 10.5, 11, 12},    {"M12", 12, 13, 13.5, 14.5},
};

// Disc magnets, diameter and height in mm: common practice, no source.
const std::vector<Magnet> magnets{{3, 1},  {3, 2},  {4, 2},  {5, 1},  {5, 2},  {5, 3},  {6, 1},  {6, 2},
                                  {6, 3},  {8, 1},  {8, 2},  {8, 3},  {10, 1}, {10, 2}, {10, 3}, {10, 5},
                                  {12, 2}, {12, 3}, {15, 3}, {20, 2}, {20, 3}, {20, 5}};

}  // namespace fitwright::hardware
