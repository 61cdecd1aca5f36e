#include "sample.hpp"

#include <limits>

using namespace fitwright;

Sample sample() {
  Sample s;
  s.readings.source = "slate14.csv";
  Reading slip;
  slip.feature = {"X40", Kind::outer, Axis::x, 40, {}, {}, 0, "", "", ""};
  slip.copy = 2;
  slip.repeat = 1;
  slip.reading_mm = 4.01;
  slip.row = 17;
  Reading odd = slip;
  odd.repeat = 3;
  odd.reading_mm = 40.31;
  odd.row = 19;
  s.readings.rows = {slip, odd};

  Estimates& e = s.estimates;
  e.method = "two strata";
  e.counts = {31, 2, 125, 1};
  e.parameters = {
      {name::scale_x, -0.00351, 0.00048, 12.25, -0.00455, -0.00247, "1", true, false},
      {name::edge_growth, 0.0812, 0.0118, 9.5, 0.0547, 0.1077, "mm", true, false},
      {name::caliper_zero, 0.003, 0.02, std::numeric_limits<double>::infinity(), -0.0362, 0.0422, "mm", false, true},
  };
  e.covariance = Eigen::MatrixXd::Zero(3, 3);
  e.covariance(0, 0) = 0.00048 * 0.00048;
  e.covariance(0, 1) = e.covariance(1, 0) = -1.0 / 3.0 * 1e-6;
  e.combinations = {{"2*edge_growth_mm + caliper_zero_mm", 0.1654, 0.0211}};
  e.priors = {{name::caliper_zero, 0, 0.02, "typical zero of a caliper that was wiped and closed; common practice"}};
  e.not_separable = {{{name::edge_growth, name::caliper_zero},
                      "only outside lengths were read",
                      "slots, or the jaws closed and read"}};
  e.suspects = {{{0, Rule::entry, 40.1, "decimal point shifted"}, false}, {{1, Rule::repeat, {}, ""}, true}};
  e.scatter = {{"reading_mm", 0.0151}, {"copy_scale", 0.0003}};

  s.findings = {{"scale-axis", Severity::act, "X is 0.35 % short (± 0.05): 0.35 mm on 100 mm",
                 "measured on 8 outside lengths of 2 copies", "set the size factor"},
                {"zero", Severity::know, "the zero was assumed", "no zero was read", "close the jaws and read"}};
  return s;
}

Correction sample_correction() {
  Correction c;
  c.policy = Policy::shrink;
  c.after.size_factor = 1.00251;
  c.after.outline_offset_mm = -0.0812;
  c.changes = {{"size_factor",
                1,
                1.00251,
                0.0005,
                true,
                "both axes are short alike",
                {{20, 0.0502}, {100, 0.251}, {200, 0.502}}},
               {"outline_offset_mm",
                0,
                -0.0812,
                0.0118,
                true,
                "outside edges stand out",
                {{20, -0.1624}, {100, -0.1624}, {200, -0.1624}}}};
  c.left_alone = {{"steps_per_mm.z", "not established"}};
  c.remains_mm = {{"slot_x20", {0.001, 0.03, 7, -0.07, 0.072, 0.034, 0.08}},
                  {"x100", {0, 0.051, 12, -0.111, 0.111, 0.057, 0.122}},
                  {"y100", {-0.002, 0.052, 12, -0.115, 0.111, 0.058, 0.124}}};
  c.cautions = {"Note the old steps first."};
  c.commands = {"M92 X80.08 Y79.92"};
  return c;
}
