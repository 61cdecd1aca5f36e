#include "fits/fit.hpp"

#include "base/words.hpp"

namespace fitwright {
namespace {

constexpr std::array<std::string_view, 4> fit_words{"press", "snug", "sliding", "loose"};
constexpr std::array<const char*, grade_count> felt_words{noted("will not enter"), noted("goes in with a tool"),
                                                          noted("is pushed in by hand"), noted("slides"),
                                                          noted("rattles")};

}  // namespace

std::string_view word(Fit fit) { return fit_words[static_cast<std::size_t>(fit)]; }

std::optional<Fit> fit_from(std::string_view text) {
  for (const Fit fit : all_fits)
    if (text == word(fit)) return fit;
  return std::nullopt;
}

const char* felt(Grade grade) { return felt_words[static_cast<std::size_t>(grade)]; }

}  // namespace fitwright
