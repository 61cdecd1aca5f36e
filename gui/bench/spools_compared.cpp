// Spools of one material side by side, in sentences.

#include <cmath>

#include "base/number.hpp"
#include "base/words.hpp"
#include "bench/history_view.hpp"
#include "bench/shown.hpp"
#include "record/store.hpp"
#include "record/teaching.hpp"

namespace fitwright {
namespace {

using record::BareErrors;
using record::Id;
using record::Record;

constexpr double percent = 100;
constexpr double normal_95 = 1.959963984540054;  // two-sided 95 % point of the normal distribution
constexpr double told_length_mm = 100;           // what a difference comes to is told on this length

/// The set of a setup whose shrinkage is surest.
Result<std::optional<BareErrors>> surest(Record& record, const Id& setup) {
  auto bare = record::bare_errors(record, setup, record::Together::state);
  if (!bare) return bare.problems();
  std::optional<BareErrors> best;
  for (BareErrors& set : bare->sets)
    if (set.shrink && set.shrink->u > 0 && (!best || set.shrink->u < best->shrink->u)) best = std::move(set);
  return best;
}

std::string as_percent(double value, double half) {
  return shown(percent * value, 2) + " \u00b1 " + said_fixed(percent * half, 2) + " %";
}

std::string shrinks(const BareErrors& set) {
  return said("{} shrinks by {} on {}", set.spool, as_percent(set.shrink->value, normal_95 * set.shrink->u),
              set.printer);
}

std::string compared(const BareErrors& mine, const BareErrors& other) {
  const double difference = mine.shrink->value - other.shrink->value;
  const double half = normal_95 * std::hypot(mine.shrink->u, other.shrink->u);
  std::string text = shrinks(other) + ". ";
  if (std::abs(difference) > half)
    text += fmt::format(
        fmt::runtime(difference > 0
                         ? tr("{} shrinks more by {}: {} mm on {} mm. Do not print the one with the settings "
                              "of the other.")
                         : tr("{} shrinks less by {}: {} mm on {} mm. Do not print the one with the settings "
                              "of the other.")),
        mine.spool, as_percent(std::abs(difference), half), shown(told_length_mm * std::abs(difference), 2),
        said_shortest(told_length_mm));
  else
    text += said("No difference shows: {}, which is less than measuring can tell.", as_percent(difference, half));
  if (mine.printer != other.printer)
    text += std::string(" ") + tr("The printers differ too, and their own errors are in it.");
  return typeset(text);
}

}  // namespace

Result<std::vector<std::string>> spools_compared(Record& record, const Id& setup) {
  const auto mine = record::one<record::Setup>(record, setup);
  if (!mine) return mine.problems();
  const auto spool = record::one<record::Spool>(record, mine->value.spool);
  if (!spool) return spool.problems();
  const auto setups = record::all<record::Setup>(record);
  if (!setups) return setups.problems();
  std::vector<record::Kept<record::Setup>> others;  // of another spool of the material
  for (const auto& other : *setups) {
    if (other.value.spool == mine->value.spool) continue;
    const auto its = record::one<record::Spool>(record, other.value.spool);
    if (!its) return its.problems();
    if (its->value.material == spool->value.material) others.push_back(other);
  }
  std::vector<std::string> lines;
  if (others.empty()) {
    lines.emplace_back(tr("There is no other spool of this material in the record to compare with."));
    return lines;
  }
  const auto own = surest(record, setup);
  if (!own) return own.problems();
  if (*own) lines.push_back(typeset(said("{}, with the settings taken out.", shrinks(**own))));
  std::size_t unread = 0;
  for (const auto& other : others) {
    const auto its = surest(record, other.thing);
    if (!its) return its.problems();
    if (!*its)
      ++unread;
    else if (*own)
      lines.push_back(compared(**own, **its));
    else
      lines.push_back(typeset(shrinks(**its) + "."));
  }
  if (!*own) lines.emplace_back(tr("This spool was not measured yet: read a copy to compare it."));
  if (unread)
    lines.push_back(said_many(
        "{} further setup with another spool of the material has no readings that tell its shrinkage.",
        "{} further setups with another spool of the material has no readings that tell its shrinkage.", unread));
  return lines;
}

}  // namespace fitwright
