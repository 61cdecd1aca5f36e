#pragma once
// Fits and grades: how two parts go together, and the words for it.

#include <array>
#include <optional>
#include <string_view>

namespace fitwright {

/// How a place of a fit ladder felt. Higher is looser.
enum class Grade { will_not_enter, press, push, slides, rattles };
inline constexpr int grade_count = 5;
inline constexpr int threshold_count = grade_count - 1;

/// A fit that is wanted: the grade that it should come out as.
enum class Fit { press, snug, sliding, loose };
inline constexpr std::array<Fit, 4> all_fits{Fit::press, Fit::snug, Fit::sliding, Fit::loose};

/// "press", "snug", "sliding", "loose", and back; empty when it is none.
std::string_view word(Fit fit);
std::optional<Fit> fit_from(std::string_view text);
constexpr Grade grade_of(Fit fit) { return static_cast<Grade>(static_cast<int>(fit) + 1); }

/// What a person feels, for people: "will not enter", "goes in with a tool", "pushed in by hand", "slides", "rattles".
/// Say tr() at its use.
const char* felt(Grade grade);

}  // namespace fitwright
