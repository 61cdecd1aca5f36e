// Printers and materials apart: worked cases, what is and is not known, and the words beside it.

#include "learn/split.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>

#include "calib/learn/learning.hpp"

using namespace fitwright;

namespace {

/// Two printers, three materials, one axis; every u 0.0004. Computed elsewhere (numpy) by penalised least squares.
std::vector<SplitCell> worked() {
  const double scale[2][3] = {{-0.0031, -0.0052, -0.0012}, {-0.0040, -0.0063, -0.0020}};
  const char* printers[] = {"Heron", "Wren"};
  const char* materials[] = {"PLA slate 14", "PLA slate 15", "PETG clear 3"};
  std::vector<SplitCell> cells;
  for (int p = 0; p < 2; ++p)
    for (int j = 0; j < 3; ++j) cells.push_back({printers[p], materials[j], 'x', scale[p][j], 0.0004});
  return cells;
}

/// So many printers with X and Y, so many materials, all u 0.0003 and all scales -0.004.
std::vector<SplitCell> full(int printers, int materials) {
  std::vector<SplitCell> cells;
  for (int p = 0; p < printers; ++p)
    for (const char axis : {'x', 'y'})
      for (int j = 0; j < materials; ++j)
        cells.push_back({"P" + std::to_string(p), "M" + std::to_string(j), axis, -0.004, 0.0003});
  return cells;
}

}  // namespace

TEST_CASE("split: two printers and three materials, worked elsewhere") {
  const Split s = split_scales(worked()).value();
  REQUIRE(s.machines.size() == 2);
  REQUIRE(s.materials.size() == 3);
  constexpr double digits = 1e-6;
  CHECK(s.machines[0].value == Approx(0.00038461538).epsilon(digits));
  CHECK(s.machines[1].value == Approx(-0.00038461538).epsilon(digits));
  const double k[] = {0.00355, 0.00575, 0.0016};
  for (std::size_t j = 0; j < 3; ++j) {
    CHECK(s.materials[j].value == Approx(k[j]).epsilon(digits));
    CHECK(s.materials[j].u == Approx(0.00045276926).epsilon(digits));
  }
  for (const PrinterScale& m : s.machines) CHECK(m.u == Approx(0.00038337713).epsilon(digits));
  const auto d = material_difference(s, "PLA slate 14", "PLA slate 15");
  REQUIRE(d);
  CHECK(d->value == Approx(-0.0022).epsilon(digits));
  CHECK(d->u == Approx(0.0004).epsilon(digits));
  CHECK_FALSE(d->rests_on_theory);
  CHECK(s.connected);
  CHECK(s.notes.empty());
  CHECK(s.df == 3);
}

TEST_CASE("split: the assumption stands beside every value") {
  const Split s = split_scales(worked()).value();
  const std::string words =
      "Printer and material are told apart by an assumption, that machines move as their steps say (belt pitch and "
      "teeth, lead of the screw) within 0.10 %; no reading shows it.";
  for (const PrinterScale& m : s.machines) CHECK(m.assumption == words);
  for (const MaterialShrink& m : s.materials) {
    CHECK(m.assumption == words);
    CHECK(m.level == Level::theory);
  }
  SplitOptions options;
  options.travel = {{"Heron", 'x', 0.0010, 0.0002}};
  const Split t = split_scales(worked(), options).value();
  CHECK(t.materials[0].level == Level::travel);
  CHECK(t.materials[0].assumption ==
        "Printer and material are told apart by measured travel: Heron X (± 0.04 %); for the axes not measured it is "
        "assumed that machines move as their steps say (belt pitch and teeth, lead of the screw) within 0.10 %.");
  options.use_theory = false;
  CHECK(split_scales(worked(), options).value().materials[0].assumption ==
        "Printer and material are told apart by measured travel: Heron X (± 0.04 %).");
}

TEST_CASE("split: how well the level is known") {
  // Closed form with theory alone: k has variance (0.0005^2 + 0.0003^2/materials...)/axes; for one material
  // sqrt((0.0005^2 + 0.0003^2)/(2 P)): 0.041 %, 0.029 %, 0.021 %, 0.015 % for 1, 2, 4, 8 printers.
  const double printed[] = {0.00041, 0.00029, 0.00021, 0.00015};
  int i = 0;
  for (const int printers : {1, 2, 4, 8}) {
    const double u = split_scales(full(printers, 1)).value().materials[0].u;
    CHECK(u == Approx(std::sqrt((0.0005 * 0.0005 + 0.0003 * 0.0003) / (2 * printers))).epsilon(1e-9));
    CHECK(u == Approx(printed[i++]).margin(0.000005));
  }
  // Travel of X alone, nothing assumed of Y; one printer, three materials: a two-way table of 2 x 3 has
  // (2 + 3 - 1)/(2 x 3) of a cell's variance in each fitted cell.
  const double measured[] = {0.0005, 0.0002, 0.0001}, told[] = {0.00056, 0.00032, 0.000265};
  SplitOptions options;
  options.use_theory = false;
  for (int j = 0; j < 3; ++j) {
    options.travel = {{"P0", 'x', 0, measured[j]}};
    const double u = split_scales(full(1, 3), options).value().materials[0].u;
    CHECK(u == Approx(std::sqrt(std::pow(measured[j], 2) + 4.0 / 6 * 0.0003 * 0.0003)).epsilon(1e-9));
    CHECK(u == Approx(told[j]).margin(0.000005));
  }
  options.travel = {{"P0", 'x', 0, 0.0002}, {"P0", 'y', 0, 0.0002}};
  CHECK(split_scales(full(1, 3), options).value().materials[0].u < 0.00026);
}

TEST_CASE("split: laws") {
  const Split s = split_scales(worked()).value();
  // Differences do not feel the theory's level; a constant on all scales goes to the materials and the machines' level.
  SplitOptions loose;
  loose.theory_sd = 10;
  const Split l = split_scales(worked(), loose).value();
  CHECK(material_difference(l, "PETG clear 3", "PLA slate 14")->value ==
        Approx(material_difference(s, "PETG clear 3", "PLA slate 14")->value).epsilon(1e-9));
  std::vector<SplitCell> longer = worked();
  for (SplitCell& c : longer) c.scale += 0.01;
  const Split m = split_scales(longer).value();
  for (std::size_t j = 0; j < 3; ++j) CHECK(m.materials[j].value == Approx(s.materials[j].value - 0.01).epsilon(1e-9));
  for (std::size_t p = 0; p < 2; ++p) CHECK(m.machines[p].value == Approx(s.machines[p].value).epsilon(1e-9));

  // Order of cells; a covariance given whole says the same as the uncertainties.
  std::vector<SplitCell> turned = worked();
  std::reverse(turned.begin(), turned.end());
  const Split r = split_scales(turned).value();
  CHECK(machine_difference(r, "Heron", 'x', "Wren", 'x')->value ==
        Approx(machine_difference(s, "Heron", 'x', "Wren", 'x')->value).epsilon(1e-9));
  SplitOptions whole;
  whole.covariance = 0.0004 * 0.0004 * Eigen::MatrixXd::Identity(6, 6);
  CHECK(split_scales(worked(), whole).value().materials[1].u == Approx(s.materials[1].u).epsilon(1e-12));
  whole.covariance = Eigen::MatrixXd::Identity(5, 5);
  CHECK_THROWS_AS(split_scales(worked(), whole), std::invalid_argument);

  // What all cells share is the level's and cannot be averaged away.
  whole.covariance = 0.0004 * 0.0004 * (0.5 * Eigen::MatrixXd::Identity(6, 6) + 0.5 * Eigen::MatrixXd::Ones(6, 6));
  const Split shared = split_scales(worked(), whole).value();
  CHECK(shared.materials[0].u > s.materials[0].u);
  CHECK(material_difference(shared, "PLA slate 14", "PLA slate 15")->u < 0.0004);
}

TEST_CASE("split: X and Y share a material's shrinkage, Z does not") {
  std::vector<SplitCell> cells{{"Heron", "PLA", 'x', -0.003, 0.0003},
                               {"Heron", "PLA", 'y', -0.005, 0.0003},
                               {"Heron", "PLA", 'z', -0.002, 0.001}};
  const Split s = split_scales(cells).value();
  REQUIRE(s.materials.size() == 2);
  CHECK(s.materials[0].in_plane);
  CHECK(s.materials[0].value == Approx(0.004));
  CHECK_FALSE(s.materials[1].in_plane);
  CHECK(s.materials[1].value == Approx(0.002));
  const auto d = machine_difference(s, "Heron", 'x', "Heron", 'y');
  REQUIRE(d);
  CHECK(d->value == Approx(0.002 * 25 / 34));  // theory, 0.05 % against readings' 0.03 %, pulls a little
  CHECK_FALSE(d->rests_on_theory);
  CHECK(s.connected);  // Z has no other printer to be compared with
  CHECK_FALSE(machine_difference(s, "Heron", 'x', "Wren", 'x'));
}

TEST_CASE("split: a table that does not hang together says so") {
  // Two printers, two materials, only the diagonal filled: rank 4 of 6 is told by the groups.
  const std::vector<SplitCell> diagonal{{"Heron", "PLA", 'x', -0.003, 0.0003}, {"Wren", "PETG", 'x', -0.005, 0.0003}};
  const Split s = split_scales(diagonal).value();
  CHECK_FALSE(s.connected);
  REQUIRE(s.notes.size() == 1);
  CHECK(s.notes[0].find("rest on the assumption alone") != std::string::npos);
  const auto d = material_difference(s, "PLA", "PETG");
  REQUIRE(d);
  CHECK(d->rests_on_theory);
  CHECK(d->u == Approx(std::sqrt(2 * (0.0005 * 0.0005 + 0.0003 * 0.0003))).epsilon(1e-9));

  SplitOptions nothing;
  nothing.use_theory = false;
  const Split n = split_scales(diagonal, nothing).value();
  CHECK(n.machines.empty());
  CHECK(n.materials.empty());
  CHECK_FALSE(material_difference(n, "PLA", "PETG"));
  CHECK(n.notes.size() == 2);

  // Connected, but no level: differences, and nothing else.
  const Split w = split_scales(worked(), nothing).value();
  CHECK(w.materials.empty());
  const auto k = material_difference(w, "PLA slate 14", "PLA slate 15");
  REQUIRE(k);
  CHECK(k->value == Approx(-0.0022).epsilon(1e-9));
  CHECK(k->u == Approx(0.0004).epsilon(1e-9));
  const auto m = machine_difference(w, "Heron", 'x', "Wren", 'x');
  REQUIRE(m);
  CHECK(m->value == Approx((0.0009 + 0.0011 + 0.0008) / 3).epsilon(1e-9));
  CHECK(m->u == Approx(0.0004 * std::sqrt(2.0 / 3)).epsilon(1e-9));
}

TEST_CASE("split: a table that does not add up says so") {
  std::vector<SplitCell> cells = worked();
  cells[4].scale += 0.004;
  const Split s = split_scales(cells).value();
  CHECK(s.chance < 0.01);
  REQUIRE(s.notes.size() == 1);
  CHECK(s.notes[0].find("does not add up") != std::string::npos);
}

TEST_CASE("split: what is wrong is said, all of it") {
  CHECK(split_scales({}).problems()[0].code == Code::unanswerable);
  SplitOptions options;
  options.travel = {{"Wren", 'y', 0, 0.0002}, {"Heron", 'x', 0, 0}};
  const Problems told =
      split_scales({{"Heron", "PLA", 'x', std::nan(""), 1}, {"Heron", "PLA", 'q', 0, 1}, {"Heron", "PETG", 'x', 0, -1}},
                   options)
          .problems();
  REQUIRE(told.size() == 5);
  CHECK(told[3].what == "travel of printer \"Wren\": no scale of its axis y is known");
}

TEST_CASE("split: uncertainties hold the truth as often as promised") {
  // Machines drawn from the theory's spread, materials anywhere, readings with their noise.
  constexpr int runs = 2000;
  learning::Random random(17);
  int held = 0, total = 0;
  for (int run = 0; run < runs; ++run) {
    const double k[] = {0.003, 0.006, 0.001};
    std::vector<SplitCell> cells;
    for (int p = 0; p < 2; ++p)
      for (const char axis : {'x', 'y'}) {
        const double m = theory_scale_sd * random.normal();
        for (int j = 0; j < 3; ++j) {
          if ((p + j + run) % 4 == 0) continue;  // some cells are empty
          const double u = 0.0003 + 0.0001 * j;
          cells.push_back({"P" + std::to_string(p), "M" + std::to_string(j), axis, m - k[j] + u * random.normal(), u});
        }
      }
    const Split split = split_scales(cells).value();
    for (const MaterialShrink& s : split.materials) {
      held += std::abs(s.value - k[s.material[1] - '0']) < 1.96 * s.u;
      ++total;
    }
  }
  const double share = static_cast<double>(held) / total;
  INFO(share);
  CHECK(std::abs(share - 0.95) < learning::margin(0.95, runs));
}
