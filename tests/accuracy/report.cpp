#include "accuracy/report.hpp"

#include "accuracy/report_tables.hpp"
#include "base/number.hpp"

namespace fitwright::accuracy {
namespace {

std::string list(const std::vector<std::string>& lines) {
  std::string out;
  for (const std::string& line : lines) out += "- " + line + '\n';
  return out;
}

std::string how_it_was_found() {
  const Truth t = default_truth();
  return "## How this was found\n\n"
         "The practice printer makes readings from a known truth, the estimator gets the readings only, and its "
         "answers are\n"
         "held against the truth. Scatter in all runs unless a table says otherwise (standard deviations): " +
         shortest(t.sd_feature_mm) +
         " mm bound to each\nfeature (for features with named faces, half of its variance to each face), " +
         shortest(t.sd_feature_copy_mm) + " mm by feature and copy, " + shortest(t.sd_copy_edge_mm) +
         " mm edge\ngrowth and " + shortest(t.sd_copy_scale * 100) + " % scale from copy to copy, " +
         shortest(t.sd_reading_mm) + " mm a reading, shown to " + shortest(t.resolution_mm) +
         " mm. Each place is read three times. These\nare typical "
         "values by common practice, not measured on a printer.\n\n"
         "- *coupons*: every feature of the coupons frame, bores and stair as they are drawn, with the faces that "
         "features share.\n"
         "- *list*: the practice printer's own list of lengths, slots, heights, pegs, holes, a wall and diagonals, "
         "each with\n"
         "  faces of its own.\n"
         "- *alike*: copies lie the same way, so that scatter bound to features repeats. *turned*: 0, 90, 0 degrees.\n"
         "- *steel read*: closed jaws, an outside gauge of 10 mm and a ring of 3 mm, each off by the 0.002 mm allowed "
         "for.\n"
         "- *slips*: 2 % of the readings mistyped; suspects are set aside as the program does by default.\n"
         "- *fixed truth*: the practice printer's default in every run. *drawn truths*: each run its own:\n\n" +
         list(drawn_ranges()) +
         "\n- *drawn copy scatter*: the scatter between copies is drawn too, from the prior that intervals from one "
         "and two\n"
         "  copies rest on (scaled inverse chi-squared, 4 degrees of freedom, 0.015 mm and 0.06 %).\n\n"
         "Run k of a scenario has the seed *first + k* (k from 0) for everything in it; the first seeds stand at the "
         "tables.\n\n"
         "**The optimum** is generalised least squares on the same readings before any slip, with every variance and "
         "the weak\n"
         "priors known. It is built from the practice printer's forward model alone, so that it shares no equation "
         "with the\n"
         "estimator. Lengths are judged by lengths and steel; heights, round features, diagonals and walls by lengths "
         "and\ntheir own kind; the caliper's zero by steel, where steel was read: the readings that are meant to bear "
         "on them.\nIts own 95 % intervals hold the truth as often as the summary says, which checks this "
         "program.\n\n";
}

std::string how_to_read(const Study& study) {
  const double margin = margin_of_95(study.options.runs) * 100;
  return "A cell holds three figures: coverage of the 95 % interval in %, half-width over that of the known-noise "
         "interval\n"
         "(median), root mean square error over the optimum's. With " +
         std::to_string(study.options.runs) + " runs a coverage of 95 % is known to " + fixed(margin, 1) +
         " % (95 % margin).\nMarks: `~` outside what is asked, within the 99 % margin of chance; `!` missed; in "
         "brackets: not judged: a\n"
         "parameter of which weak priors make up more than a tenth of the variance, at a truth fixed at their middle. "
         "There\nintervals must hold more, and any pull to the middle looks like skill; the drawn truths judge it.\n"
         "*Not estimated in n*: in n runs the gate at entry had set aside every reading that tells the parameter.\n\n";
}

}  // namespace

std::string report(const Study& study) {
  std::string out =
      "# How accurate the estimates are\n\n"
      "Written by `fw_accuracy --runs " +
      std::to_string(study.options.runs) +
      "`; to repeat it: `cmake --build --preset release --target fw_accuracy` and run\n"
      "`build/tests/fw_accuracy --out docs/accuracy.md`. A short version runs with the tests.\n\n";
  if (!study.coverage.empty())
    out += expected_half_widths(study) + summary(study) + pooled_tables(study) + how_it_was_found();
  if (!study.coverage.empty()) out += "## Coverage, width and error\n\n" + how_to_read(study) + coverage_tables(study);
  if (!study.coverage.empty()) out += cost_of_rule(study);
  if (!study.loops.empty()) out += loop_tables(study);
  if (!study.slips.empty()) out += slip_tables(study);
  return out + study.fits + strd_table();
}

}  // namespace fitwright::accuracy
