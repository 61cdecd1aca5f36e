// Findings on round features: how holes close, how pegs pull in, what the drawn polygon loses.
#include <algorithm>
#include <cmath>
#include <optional>

#include "base/number.hpp"
#include "base/words.hpp"
#include "correct/finding_parts.hpp"
#include "correct/phrase.hpp"

namespace fitwright {
namespace {

constexpr double usual_hole_mm = 5;  // told when it was in the measured range
constexpr double usual_peg_mm = 8;
constexpr double smallest_told_mm = 2;  // below it c1/d is not to be trusted (docs/mathematics.md)

struct RoundCells {
  double smallest_mm = 0, largest_mm = 0;
  int facets = 0;  ///< of the feature nearest to the diameter asked for
};

std::optional<RoundCells> round_cells(const Estimates& e, bool pegs, double near_mm) {
  std::optional<RoundCells> out;
  double nearest = 0;
  for (const Cell& c : e.cells) {
    const bool wanted = pegs ? c.kind == Kind::peg : c.kind == Kind::hole || c.kind == Kind::pin;
    if (!wanted) continue;
    const double d = c.feature.nominal_mm;
    if (!out) out = RoundCells{d, d, c.feature.facets}, nearest = d;
    out->smallest_mm = std::min(out->smallest_mm, d);
    out->largest_mm = std::max(out->largest_mm, d);
    if (std::abs(d - near_mm) < std::abs(nearest - near_mm)) {
      nearest = d;
      out->facets = c.feature.facets;
    }
  }
  return out;
}

PlanarOutcome lengths_now(const FindingInput& in) {
  const State s = in.state();
  const Estimates& e = in.estimates;
  return outcome(s, s, {e.value_or(name::scale_x, 0), e.value_or(name::scale_y, 0), e.value_or(name::edge_growth, 0)});
}

/// Deviation of a round feature drawn d from d, with its uncertainty; facets not included.
Evidence deviation(const Estimates& e, double d, bool peg) {
  return weighted_sum(e, {{name::scale_x, d / 2},
                          {name::scale_y, d / 2},
                          {name::edge_growth, peg ? 2.0 : -2.0},
                          {peg ? name::peg_p0 : name::hole_c0, -1},
                          {peg ? name::peg_p1 : name::hole_c1, -1 / d}});
}

RoundLaw law(const Estimates& e, bool peg, int facets) {
  return {e.value_or(peg ? name::peg_p0 : name::hole_c0, 0), e.value_or(peg ? name::peg_p1 : name::hole_c1, 0), facets};
}

/// "3 → draw 3.25, 5 → 5.21, ..." for usual sizes in the measured range.
std::string sizes_to_draw(const FindingInput& in, const RoundCells& cells, bool peg) {
  std::string out;
  for (const double target : {3.0, 5.0, 8.0, 12.0, 20.0}) {
    if (target < std::max(cells.smallest_mm, smallest_told_mm) || target > cells.largest_mm) continue;
    const RoundLaw l = law(in.estimates, peg, cells.facets);
    const auto drawn = peg ? peg_to_draw(target, lengths_now(in), l) : hole_to_draw(target, lengths_now(in), l);
    if (drawn)
      out += (out.empty()             ? ""
              : decimal_sign() == ',' ? "; "
                                      : ", ") +
             said("{} as {}", said_shortest(target), said_fixed(*drawn, 2));
  }
  return out;
}

double told_diameter(const RoundCells& cells, double usual_mm) {
  return std::clamp(usual_mm, std::max(cells.smallest_mm, smallest_told_mm),
                    std::max(cells.largest_mm, smallest_told_mm));
}

/// Without lengths of the same print nothing tells closing from edge growth and caliper: told as read.
void holes_as_read(const FindingInput& in, Findings& out) {
  const Cell* nearest = nullptr;
  for (const Cell& c : in.estimates.cells)
    if (c.kind == Kind::hole && c.readings > 0 &&
        (!nearest ||
         std::abs(c.feature.nominal_mm - usual_hole_mm) < std::abs(nearest->feature.nominal_mm - usual_hole_mm)))
      nearest = &c;
  if (!nearest) return;
  const double small_by = nearest->feature.nominal_mm - nearest->mean_mm;
  out.push_back(
      {"holes", in.matters(small_by) ? Severity::act : Severity::know,
       said("A hole drawn {} reads {} mm; how much of that is the hole's own closing cannot be told.",
            length(nearest->feature.nominal_mm), said_fixed(nearest->mean_mm, 2)),
       said("edge growth, scale and the caliper's own errors are in it: {}", why_unknown(in.estimates, name::hole_c0)),
       tr("read outsides and slots of the same print too; until then draw each hole larger by what it read "
          "small")});
}

void holes_finding(const FindingInput& in, Findings& out) {
  const auto cells = round_cells(in.estimates, false, usual_hole_mm);
  const Evidence c0 = in.of(name::hole_c0);
  const Evidence c1 = in.of(name::hole_c1);
  if (!cells) return;
  if (!c0.known) return holes_as_read(in, out);
  const double d = told_diameter(*cells, usual_hole_mm);
  const Evidence dev = deviation(in.estimates, d, false);
  const double facets_mm = d * facet_loss(cells->facets);
  const double printed = d + dev.value - facets_mm;
  const double closing = d - printed;
  const bool acts = in.matters(closing) && dev.established;
  const std::string because =
      c1.known ? said("beyond edge growth and scale a hole loses {} {} and {}/d mm (± {}); holes of {} to {}",
                      signed_mm(c0.value), within_mm(c0), said_fixed(c1.value, 2), said_fixed(c1.half_width(), 2),
                      length(cells->smallest_mm), length(cells->largest_mm))
               : said("beyond edge growth and scale a hole loses {} {}", signed_mm(c0.value), within_mm(c0));
  const std::string draw = sizes_to_draw(in, *cells, false);
  out.push_back({"holes", acts ? Severity::act : Severity::know,
                 filled(c1.known && c1.value > 0 ? tr("A hole drawn {} comes out {} mm {}; small ones close most.")
                                                 : tr("A hole drawn {} comes out {} mm {}."),
                        length(d), said_fixed(printed, 2), within_mm(dev)),
                 because,
                 draw.empty() ? tr("draw holes larger by what they lose")
                              : said("with the settings as they are, draw (mm): {}", draw)});
}

void pegs_finding(const FindingInput& in, Findings& out) {
  const auto cells = round_cells(in.estimates, true, usual_peg_mm);
  const Evidence p0 = in.of(name::peg_p0);
  if (!cells || !p0.known) return;
  const double d = told_diameter(*cells, usual_peg_mm);
  const Evidence pull = weighted_sum(in.estimates, {{name::peg_p0, 1}, {name::peg_p1, 1 / d}});
  if (!p0.established || !pull.established || pull.value < 0) return;
  const Evidence dev = deviation(in.estimates, d, true);
  const double printed = d + dev.value - d * facet_loss(cells->facets);
  const Evidence e = in.of(name::edge_growth);
  const char* const sentence =
      e.known && e.established && e.value > 0
          ? tr("Pegs come small although flat sides stand out: a curved outside pulls in by {} {}; a peg drawn {} "
               "comes "
               "out {} mm {}.")
          : tr("Pegs come smaller than flat sides: a curved outside pulls in by {} {}; a peg drawn {} comes out {} mm "
               "{}.");
  const std::string draw = sizes_to_draw(in, *cells, true);
  out.push_back({"pegs", in.matters(pull.value) ? Severity::act : Severity::know,
                 filled(sentence, mm(pull.value), within_mm(pull), length(d), said_fixed(printed, 2), within_mm(dev)),
                 said("pegs of {} to {} against the flat sides' edge growth", length(cells->smallest_mm),
                      length(cells->largest_mm)),
                 draw.empty() ? tr("give pegs an allowance of their own; the flat sides' number does not hold for pins")
                              : said("give pegs an allowance of their own, draw (mm): {}; the flat sides' number does "
                                     "not hold for pins",
                                     draw)});
}

void facets_finding(const FindingInput& in, Findings& out) {
  constexpr double worth_telling_mm = 0.01;  // the caliper's display
  const Cell* worst = nullptr;
  double most = worth_telling_mm;
  for (const Cell& c : in.estimates.cells) {
    const bool round = c.kind == Kind::hole || c.kind == Kind::peg || c.kind == Kind::hole_h || c.kind == Kind::pin;
    const double loss = c.feature.nominal_mm * facet_loss(c.feature.facets);
    if (!round || loss <= most) continue;
    most = loss;
    worst = &c;
  }
  if (!worst) return;
  out.push_back({"facets", Severity::know,
                 said("{} of what {} loses is the drawing: a circle of {} sides is that much smaller over its flats.",
                      mm(most), worst->feature.id, worst->feature.facets),
                 said("d (1 - cos(180°/N)) with d = {}; already taken off here", length(worst->feature.nominal_mm)),
                 tr("export with more facets, or draw such circles larger")});
}

}  // namespace

void round_findings(const FindingInput& in, Findings& out) {
  holes_finding(in, out);
  pegs_finding(in, out);
  facets_finding(in, out);
}

}  // namespace fitwright
