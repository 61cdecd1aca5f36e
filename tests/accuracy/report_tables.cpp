#include "accuracy/report_tables.hpp"

#include <algorithm>
#include <cmath>
#include <map>

#include "base/number.hpp"
#include "model/estimates.hpp"
#include "reference/stats/strd.hpp"

namespace fitwright::accuracy {
namespace {

std::string row(const std::vector<std::string>& cells) {
  std::string out = "|";
  for (const std::string& cell : cells) out += ' ' + cell + " |";
  return out + '\n';
}

std::string header(const std::vector<std::string>& cells) {
  std::string rule = "|";
  for (std::size_t i = 0; i < cells.size(); ++i) rule += i == 0 ? " --- |" : " ---: |";
  return row(cells) + rule + '\n';
}

std::string percent(double share) { return fixed(100 * share, 1); }

/// Scales in %, the rest in their unit: figures that a person can read.
std::string shown(const std::string& parameter, double value) {
  if (parameter.starts_with("scale")) return fixed(100 * value, 3) + " %";
  if (parameter == name::skew_xy) return fixed(1000 * value, 2) + " mrad";
  if (parameter.ends_with("_mm2")) return fixed(value, 3) + " mm2";
  return fixed(value, 3) + " mm";
}

const Tally* find(const Coverage& c, const std::string& parameter) {
  for (const Tally& t : c.tallies)
    if (t.parameter == parameter) return &t;
  return nullptr;
}

std::vector<std::string> parameters_of(const std::vector<const Coverage*>& group) {
  std::vector<std::string> out;
  for (const Coverage* c : group)
    for (const Tally& t : c->tallies)
      if (std::find(out.begin(), out.end(), t.parameter) == out.end()) out.push_back(t.parameter);
  return out;
}

/// Scenarios that differ in the lay only, in the order of lays.
std::vector<const Coverage*> group(const Study& study, Places places, Truths truths, bool steel, bool slips) {
  std::vector<const Coverage*> out;
  for (const Coverage& c : study.coverage) {
    const Scenario& s = c.scenario;
    if (s.places == places && s.truths == truths && s.steel == steel && (s.typo_rate > 0) == slips) out.push_back(&c);
  }
  return out;
}

std::string cell(const Coverage& c, const std::string& parameter) {
  const Tally* t = find(c, parameter);
  if (!t || t->runs == 0) return "";
  std::string out = marked(percent(t->coverage), judge_coverage(c.scenario, *t)) + ' ' +
                    marked(fixed(t->width_ratio, 2), judge_width(*t)) + ' ' +
                    marked(fixed(t->rmse_ratio, 2), judge_rmse(c.scenario, *t));
  if (t->missing > 0) out += " (not estimated in " + std::to_string(t->missing) + ')';
  return out;
}

struct Tallied {
  int judged = 0, met = 0, within = 0;
  std::vector<std::string> missed;

  void add(Verdict v, const std::string& what) {
    if (v == Verdict::not_judged) return;
    ++judged;
    if (v == Verdict::met) ++met;
    if (v == Verdict::within_margin) ++within;
    if (v == Verdict::missed) missed.push_back(what);
  }
  [[nodiscard]] std::string as_row(const std::string& criterion) const {
    return row({criterion, std::to_string(judged), std::to_string(met), std::to_string(within),
                std::to_string(missed.size())});
  }
};

std::string where(const LoopScenario& s) {
  return std::string(s.places == Places::coupons ? "coupons, " : "list, ") + s.lay.name;
}

/// Share of all known-noise intervals that hold the truth, where no weak prior takes part.
double coverage_of_optimum(const Study& study) {
  double sum = 0, n = 0;
  for (const Coverage& c : study.coverage)
    for (const Tally& t : c.tallies) {
      if (rests_on_prior(t)) continue;
      sum += t.best_coverage * t.runs;
      n += t.runs;
    }
  return n > 0 ? sum / n : 0;
}

/// What the rule costs that steel stands first: the caliper's zero by all readings at once against by steel alone.
struct JointZero {
  double least_u = 0, most_u = 0;  ///< u by steel over u by all readings, over the scenarios
  double rmse = 0;                 ///< root mean square error of the estimates over that of the joint fit, all runs
};

JointZero joint_zero(const Study& study, Places places) {
  JointZero out;
  double top = 0, bottom = 0;
  for (const Coverage& c : study.coverage) {
    const Tally* t = find(c, name::caliper_zero);
    if (!c.scenario.steel || c.scenario.places != places || !t || t->runs == 0) continue;
    out.least_u = out.least_u == 0 ? t->rule_cost : std::min(out.least_u, t->rule_cost);
    out.most_u = std::max(out.most_u, t->rule_cost);
    top += t->square * t->runs;
    bottom += t->joint_square * t->runs;
  }
  out.rmse = bottom > 0 ? std::sqrt(top / bottom) : 0;
  return out;
}

std::string rule_of_zero(const Study& study) {
  std::string gains;
  for (const Places places : {Places::coupons, Places::list}) {
    const JointZero z = joint_zero(study, places);
    if (z.rmse == 0) continue;
    gains += std::string("- ") + (places == Places::coupons ? "coupons" : "list") +
             ": standard uncertainty by steel alone over that of the joint fit " + fixed(z.least_u, 2) + " to " +
             fixed(z.most_u, 2) + "; error of the estimates over its error " + fixed(z.rmse, 2) + '\n';
  }
  if (gains.empty()) return "";
  return "Where steel was read, `" + std::string(name::caliper_zero) +
         "` is judged by the steel alone: steel stands first by design, and no printed\nface moves it. What a joint "
         "fit "
         "of steel and print would gain:\n\n" +
         gains + '\n';
}

}  // namespace

std::string marked(const std::string& figure, Verdict verdict) {
  switch (verdict) {
    case Verdict::met:
      return figure;
    case Verdict::within_margin:
      return figure + '~';
    case Verdict::missed:
      return "**" + figure + "!**";
    case Verdict::not_judged:
      return '(' + figure + ')';
  }
  return figure;
}

std::string summary(const Study& study) {
  Tallied three, few, few_scatter, width, rmse, inside, mean_t, all_coverage, all_rmse;
  for (const Coverage& c : study.coverage)
    for (const Tally& t : c.tallies) {
      if (t.runs == 0) continue;
      const std::string at = t.parameter + " (" + text_of(c.scenario) + "): ";
      const bool bounded = coverage_band(c.scenario, t).high.has_value();
      Tallied& coverage = !bounded ? few : c.scenario.lay.copies >= 3 ? three : few_scatter;
      coverage.add(judge_coverage(c.scenario, t), at + "coverage " + percent(t.coverage) + " %");
      width.add(judge_width(t), at + "width ratio " + fixed(t.width_ratio, 2));
      rmse.add(judge_rmse(c.scenario, t), at + "error ratio " + fixed(t.rmse_ratio, 3));
    }
  for (const auto& [scenario, tallies] : study.loops)
    for (const LoopTally& t : tallies) {
      const std::string at = std::string(word(t.policy)) + ", " + t.length + " (" + where(scenario) + "): ";
      inside.add(judge_inside(t), at + percent(t.inside) + " % inside");
      mean_t.add(judge_mean_t(t), at + "mean |t| " + fixed(t.mean_t, 2));
    }
  for (const Pooled& p : pooled(study.coverage)) {
    const std::string at = p.parameter + " (" + (p.scenario.places == Places::coupons ? "coupons, " : "list, ") +
                           p.scenario.lay.name + ", all drawn truths): ";
    all_coverage.add(judge_pooled_coverage(p), at + "coverage " + percent(p.coverage) + " %");
    all_rmse.add(judge_pooled_rmse(p.rmse_clean), at + "error ratio without slips " + fixed(p.rmse_clean, 3));
    all_rmse.add(judge_pooled_rmse(p.rmse_slips), at + "error ratio with slips " + fixed(p.rmse_slips, 3));
  }
  std::string out = "## What is asked, and what is met\n\n" +
                    header({"asked", "figures", "met", "outside within chance `~`", "missed `!`"}) +
                    three.as_row("3 copies: 95 % intervals hold the truth in 93 to 97 %") +
                    few.as_row("1 and 2 copies, and parameters on a prior at its middle: in 93 % or more") +
                    few_scatter.as_row("1 and 2 copies, scatter between copies drawn from its prior: in 93 to 98 %") +
                    width.as_row("half-width at most 2.5 times the known-noise one") +
                    rmse.as_row("root mean square error at most 1.1 times the optimum's") +
                    all_coverage.as_row("coverage, all scenarios with drawn truths together") +
                    all_rmse.as_row("root mean square error, the same");
  if (!study.loops.empty())
    out += inside.as_row("closing the loop: what remains lies in its promised interval in 93 % or more") +
           mean_t.as_row("closing the loop, shrink and steps: mean of what remains over its u below 1.3");
  out += '\n';
  for (const Tallied* t : {&three, &few, &few_scatter, &width, &rmse, &all_coverage, &all_rmse, &inside, &mean_t})
    for (const std::string& what : t->missed) out += "- missed: " + what + '\n';
  out += "\nThe known-noise intervals of the optimum hold the truth in " + percent(coverage_of_optimum(study)) +
         " % of all cases.\n\n";
  return out + rule_of_zero(study);
}

std::string pooled_tables(const Study& study) {
  const std::vector<Pooled> all = pooled(study.coverage);
  if (all.empty()) return "";
  std::string out =
      "## All scenarios with drawn truths together\n\nSteel read or not, slips or none: what chance hides in a single "
      "scenario shows here. A cell holds coverage in %, the\nerror ratio without slips and with 2 % slips. The ratio "
      "gets no margin: a few large errors make it large.\n\n";
  for (const Places places : {Places::coupons, Places::list}) {
    std::vector<std::string> head{places == Places::coupons ? "coupons" : "list"}, parameters;
    for (const Lay& lay : lays()) head.push_back(lay.name);
    for (const Pooled& p : all)
      if (p.scenario.places == places &&
          std::find(parameters.begin(), parameters.end(), p.parameter) == parameters.end())
        parameters.push_back(p.parameter);
    if (parameters.empty()) continue;
    out += header(head);
    for (const std::string& parameter : parameters) {
      std::vector<std::string> cells{parameter};
      for (const Lay& lay : lays()) {
        cells.emplace_back();
        for (const Pooled& p : all)
          if (p.scenario.places == places && p.scenario.lay.name == lay.name && p.parameter == parameter)
            cells.back() = marked(percent(p.coverage), judge_pooled_coverage(p)) + ' ' +
                           marked(fixed(p.rmse_clean, 2), judge_pooled_rmse(p.rmse_clean)) + ' ' +
                           marked(fixed(p.rmse_slips, 2), judge_pooled_rmse(p.rmse_slips));
      }
      out += row(cells);
    }
    out += '\n';
  }
  return out;
}

std::string expected_half_widths(const Study& study) {
  const auto scenarios = group(study, Places::coupons, Truths::drawn, true, false);
  if (scenarios.empty()) return "";
  std::vector<std::string> head{"parameter"};
  for (const Coverage* c : scenarios) head.push_back(c->scenario.lay.name);
  std::string out =
      "## What to expect\n\nMedian half-width of the 95 % interval: frame, bores and stair, each place read three "
      "times, "
      "steel read.\n\n" +
      header(head);
  for (const std::string& p : parameters_of(scenarios)) {
    std::vector<std::string> cells{p};
    for (const Coverage* c : scenarios) {
      const Tally* t = find(*c, p);
      cells.push_back(t ? shown(p, t->half_width) : "");
    }
    out += row(cells);
  }
  return out + '\n';
}

std::string coverage_tables(const Study& study) {
  std::string out;
  for (const Places places : {Places::coupons, Places::list})
    for (const Truths truths : {Truths::drawn, Truths::drawn_scatter, Truths::fixed})
      for (const bool steel : {true, false})
        for (const bool slips : {false, true}) {
          const auto scenarios = group(study, places, truths, steel, slips);
          if (scenarios.empty()) continue;
          std::vector<std::string> head{"parameter"};
          std::string seeds;
          for (const Coverage* c : scenarios) {
            head.push_back(c->scenario.lay.name);
            seeds += (seeds.empty() ? "" : ", ") + std::to_string(c->scenario.first_seed);
          }
          std::string title = text_of(scenarios[0]->scenario);
          const std::string lay = ", " + scenarios[0]->scenario.lay.name;
          title.erase(title.find(lay), lay.size());
          title[0] = title[0] == 'c' ? 'C' : 'L';
          out += "### " + title + "\n\nFirst seeds " + seeds + ".\n\n" + header(head);
          for (const std::string& p : parameters_of(scenarios)) {
            std::vector<std::string> cells{p};
            for (const Coverage* c : scenarios) cells.push_back(cell(*c, p));
            out += row(cells);
          }
          out += '\n';
        }
  return out;
}

std::string cost_of_rule(const Study& study) {
  const auto scenarios = group(study, Places::coupons, Truths::drawn, true, false);
  if (scenarios.empty()) return "";
  std::vector<std::string> head{"parameter"};
  for (const Coverage* c : scenarios) head.push_back(c->scenario.lay.name);
  std::string out =
      "## What it costs that readings bear on their own parameters only\n\nHoles, pegs and diagonals never move scale "
      "and edge growth, so that a crooked hole law cannot bend a length; printed faces\nnever move a zero that steel "
      "tells, so that inside edges that grow unlike outside ones cannot bend it. Standard\nuncertainty of the optimum "
      "over that of the optimum from all readings at once (coupons, drawn truths, steel read):\n\n" +
      header(head);
  for (const std::string& p : parameters_of(scenarios)) {
    std::vector<std::string> cells{p};
    for (const Coverage* c : scenarios) {
      const Tally* t = find(*c, p);
      cells.push_back(t ? fixed(t->rule_cost, 2) : "");
    }
    out += row(cells);
  }
  return out + '\n';
}

std::string loop_tables(const Study& study) {
  std::string out =
      "## Closing the loop\n\nPrint and read, estimate, correct, and ask physics what the next print measures: "
      "(1-k)(1+m) mu (C L + 2 X) + 2 e(F)\noutside, with minus signs for a slot. Truths as above, and:\n\n";
  for (const std::string& line : loop_ranges()) out += "- " + line + '\n';
  out += '\n' + std::to_string(study.options.loop_runs) + " runs, margin " +
         percent(wide_margin(least_inside, study.options.loop_runs)) +
         " % (99 %). *Announced* is what the correction says will be left over; *mean t* is the mean of the distance "
         "between what remains "
         "and what was announced, over its standard uncertainty; errors are root mean squares.\n\n";
  for (const auto& [scenario, tallies] : study.loops) {
    out += "### " + std::string(scenario.places == Places::coupons ? "Coupons, " : "List with a wall, ") +
           scenario.lay.name + "\n\n" +
           header({"policy, length", "inside %", "mean t", "error before mm", "remaining mm", "announced mm"});
    for (const LoopTally& t : tallies)
      out += row({std::string(word(t.policy)) + ", " + t.length, marked(percent(t.inside), judge_inside(t)),
                  marked(fixed(t.mean_t, 2), judge_mean_t(t)), fixed(t.before_mm, 3), fixed(t.remaining_mm, 3),
                  fixed(t.announced_mm, 3)});
    out += '\n';
  }
  return out;
}

std::string slip_tables(const Study& study) {
  std::string out =
      "## Mistyped readings\n\nCoupons, 1 copy, drawn truths, steel read, 2 % slips, " +
      std::to_string(study.options.slip_runs) +
      " runs, seeds 7000001 and on. *Residual* tells a place that stands out, after the fit; it sets nothing "
      "aside.\n*Proposed* is the share of those found by gate or repeat check for which what was meant is "
      "proposed.\n\n";
  for (const SlipCheck& check : study.slips) {
    out += "### " + std::to_string(check.repeats) + (check.repeats == 1 ? " reading" : " readings") +
           " of each place\n\n" +
           header({"slip", "typed", "gate %", "gate or repeat %", "or residual %", "proposed %", "wrongly proposed %"});
    for (const SlipTally& t : check.by_kind)
      out += row({t.slip, std::to_string(t.typed), percent(t.by_gate), percent(t.by_repeat), percent(t.by_all),
                  percent(t.proposed), percent(t.wrongly)});
    out += "\nOf " + std::to_string(check.sound) + " sound readings " + std::to_string(check.suspected) +
           " were suspected by gate or repeat check (" + std::to_string(check.suspected_by_gate) +
           " of them by the gate, since their places really are that far off); " + std::to_string(check.by_residual) +
           " were told because their place stands out.\n\n";
  }
  return out;
}

std::string strd_table() {
  std::string out =
      "## Least squares against certified values\n\nDigits of agreement (log relative error, at most the 15 certified) "
      "with "
      "the NIST Statistical Reference Datasets for\nlinear regression: the least over all coefficients, and so "
      "on.\n\n" +
      header({"set", "columns given in", "coefficients", "their sd", "residual sd", "R2"});
  for (const bool rounded : {false, true})
    for (const auto& set : reference::strd_linear_sets()) {
      const auto d = reference::digits_of(set, reference::fit_of(set, rounded));
      out += row({set.name, rounded ? "double" : "extended", fixed(d.coefficients, 1), fixed(d.standard_errors, 1),
                  fixed(d.residual_sd, 1), fixed(d.r_squared, 1)});
    }
  return out + "\nFilip's tenth powers do not fit into doubles: rounding the columns alone costs its digits.\n";
}

}  // namespace fitwright::accuracy
