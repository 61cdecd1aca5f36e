#pragma once
// Words that files, the record and the designs use as they are, and that people read in their own language: the
// catalogue must have them. Say tr(word.c_str()) where one is shown.

#include "base/words.hpp"

namespace fitwright {

inline constexpr const char* file_words[] = {
    // what happened to a correction, and where it stands
    noted("proposed"),
    noted("applied"),
    noted("proved"),
    noted("withdrawn"),
    // why a row of the record was written
    noted("typed in Setup"),
    noted("taken back"),
    noted("done again"),
    noted("taken back: it was not printed"),
    noted("typed again"),
    noted("proposal taken"),
    noted("graded anew"),
    noted("ended in Setup"),
    noted("imported"),
    noted("pasted"),
    // coupons
    noted("frame"),
    noted("bores"),
    noted("walls"),
    noted("stair"),
    // labels of features; a number in one stands as {}
    noted("block"),
    noted("slot"),
    noted("over both blocks"),
    noted("outside, at the high end"),
    noted("outside, at the low end"),
    noted("over the flats, front left to back right"),
    noted("over the flats, front right to back left"),
    noted("hole, first reading along X, second along Y"),
    noted("hole, largest graded shank that enters"),
    noted("peg, first reading along X, second along Y"),
    noted("height, {} layers"),
    noted("plinth above its first layers"),
    noted("plinth over its first layers"),
    noted("one-bead wall, bead width {} mm"),
    noted("two-bead wall less one-bead wall beside it: check of pitch, tells nothing of flow"),
    noted("groove"),
    noted("tongue"),
    noted("window"),
    noted("left arm, thickness near its root"),
    noted("pocket, between the flats"),
    noted("up"),
    noted("across"),
    // what a person may leave out
    noted("part damaged"),
    // steel
    noted("gauge"),
    noted("ring"),
};

}  // namespace fitwright
