// Findings: each one when it should be there, not when it should not, and with numbers that are right.
#include "correct/finding.hpp"

#include <catch2/catch.hpp>
#include <set>

#include "hand_made.hpp"
#include "model/copy_prior.hpp"
#include "stats/intervals.hpp"

using namespace fitwright;
using namespace fitwright::testing;

namespace {

const ReadingSet nothing_read;

std::vector<Finding> found(const Estimates& e, const FindingOptions& options = {},
                           const ReadingSet& set = nothing_read) {
  return findings(e, set, options);
}

const Finding* with_id(const std::vector<Finding>& all, const std::string& id) {
  for (const Finding& f : all)
    if (f.id == id) return &f;
  return nullptr;
}

std::string text_of(const std::vector<Finding>& all, const std::string& id) {
  const Finding* f = with_id(all, id);
  return f ? f->text : std::string("(none)");
}

bool has(const std::string& text, const std::string& part) { return text.find(part) != std::string::npos; }

FindingOptions in_state(const State& s) {
  FindingOptions o;
  o.state = s;
  return o;
}

ReadingSet steel(Kind kind) {
  ReadingSet set;
  Reading r;
  r.feature.id = "S";
  r.feature.kind = kind;
  r.feature.axis = Axis::n;
  set.rows.push_back(r);
  return set;
}

}  // namespace

TEST_CASE("nothing estimated, nothing told") { CHECK(found({}).empty()); }

TEST_CASE("every finding is a sentence with a reason and one thing to do; the urgent ones come first") {
  Estimates e = hand_made({{name::scale_x, -0.0035, 0.0003},
                           {name::scale_y, -0.0010, 0.0003},
                           {name::edge_growth, 0.08, 0.01},
                           {name::z0, -0.09, 0.02},
                           {name::flare, 0.15, 0.02},
                           {name::skew_xy, 0.002, 0.0003},
                           {name::hole_c0, 0.06, 0.02},
                           {name::hole_c1, 0.15, 0.05},
                           {name::peg_p0, 0.12, 0.02}});
  add_lengths(e, 100);
  for (const double d : {3.0, 5.0, 8.0, 12.0}) {
    add_cell(e, "H" + std::to_string(static_cast<int>(d)), Kind::hole, Axis::z, d, d - 0.2);
    add_cell(e, "P" + std::to_string(static_cast<int>(d)), Kind::peg, Axis::z, d, d);
  }
  const auto all = found(e, in_state({}));
  REQUIRE(all.size() > 8);
  std::set<std::string> ids;
  Severity last = Severity::act;
  for (const Finding& f : all) {
    INFO(f.id << ": " << f.text);
    ids.insert(f.id);
    CHECK(f.text.back() == '.');
    CHECK(!f.because.empty());
    CHECK(!f.action.empty());
    CHECK(f.severity >= last);
    last = f.severity;
  }
  for (const char* id :
       {"scale-axis", "axes-differ", "edge-growth", "holes", "pegs", "height", "first-layers", "skew", "jaws"})
    CHECK(ids.contains(id));
  CHECK(all[0].id == "edge-growth");
}

TEST_CASE("scale of an axis") {
  SECTION("established and matters") {
    const auto all = found(lengths_of(-0.0035, -0.0035, 0.0, 0.0004));
    CHECK(has(text_of(all, "scale-axis"), "X is 0.35 % short (± 0.09 %): 0.35 mm on 100 mm"));
    CHECK(with_id(all, "scale-axis")->severity == Severity::act);
    CHECK(has(text_of(all, "axes-agree"), "short by the same 0.35 %"));
    CHECK_FALSE(with_id(all, "axes-differ"));
  }
  SECTION("on the user's own length and tolerance") {
    FindingOptions o;
    o.length_mm = 20;
    CHECK_FALSE(with_id(found(lengths_of(-0.0035, -0.0035, 0.0, 0.0004), o), "scale-axis"));
    o.tolerance_mm = 0.05;
    CHECK(has(text_of(found(lengths_of(-0.0035, -0.0035, 0.0, 0.0004), o), "scale-axis"), "0.07 mm on 20 mm"));
  }
  SECTION("not established, but would matter") {
    const auto all = found(lengths_of(-0.002, 0.0001, 0.0, 0.0012));
    CHECK(has(text_of(all, "scale-likely"), "X may be 0.20 % short (± 0.27 %)"));
    CHECK_FALSE(with_id(all, "scale-axis"));
  }
  SECTION("no error seen, but it could hide") {
    const auto all = found(lengths_of(0.0001, 0.0001, 0.0, 0.0008));
    CHECK(has(text_of(all, "scale-likely"), "would go unseen"));
  }
  SECTION("axes differ") {
    const auto all = found(lengths_of(-0.003, -0.001, 0.0, 0.0003));
    CHECK(has(text_of(all, "axes-differ"), "differ by 0.20 %"));
    CHECK(has(with_id(all, "axes-differ")->action, "difference only"));
    const auto small = found(lengths_of(-0.003, -0.001, 0.0, 0.0003, 0.01, 80));
    CHECK(has(with_id(small, "axes-differ")->action, "measure a length of 100 mm"));
  }
  SECTION("theory") {
    const auto all = found(lengths_of(-0.008, -0.001, 0.0, 0.0003), in_state({}));
    CHECK(has(text_of(all, "theory"), "80.00 steps per mm on X"));
    CHECK(has(text_of(all, "theory"), "80.65"));
    CHECK_FALSE(with_id(found(lengths_of(-0.004, -0.001, 0.0, 0.0003), in_state({})), "theory"));
  }
}

TEST_CASE("one length cannot tell scale from edge growth") {
  Estimates e;
  add_cell(e, "X20", Kind::outer, Axis::x, 20, 20.16);
  add_cell(e, "Y20", Kind::outer, Axis::y, 20, 20.15);
  const auto all = found(e);
  CHECK(has(text_of(all, "one-length"), "on X and Y"));
  CHECK(with_id(all, "one-length")->severity == Severity::act);
  CHECK_FALSE(with_id(found(lengths_of(-0.003, -0.003, 0.0)), "one-length"));
}

TEST_CASE("edge growth, and when it is taken care of") {
  const auto all = found(lengths_of(0, 0, 0.08));
  CHECK(has(text_of(all, "edge-growth"),
            "0.08 mm outside its drawn place (± 0.02 mm): outsides +0.16 mm, slots -0.16 mm"));
  CHECK(has(with_id(all, "edge-growth")->action, "not the steps"));
  CHECK_FALSE(with_id(found(lengths_of(0, 0, 0.01)), "edge-growth"));
  State s;
  s.outline_offset_mm = -0.08;
  CHECK(has(text_of(found(lengths_of(0, 0, 0.01), in_state(s)), "double"),
            "taken out by the outline offset of -0.08 mm"));
  CHECK_FALSE(with_id(found(lengths_of(0, 0, 0.08), in_state(s)), "double"));
  s = {};
  s.size_factor = 1.004;
  CHECK(has(text_of(found(lengths_of(0.0001, -0.0001, 0.0), in_state(s)), "double"), "size factor of +0.40 %"));
}

TEST_CASE("flow from walls") {
  Estimates e = hand_made({{name::wall, 0.47, 0.0135}});
  add_cell(e, "W45", Kind::wall, Axis::n, 0.45, 0.47);
  const auto one = found(e, in_state({}));
  CHECK(has(text_of(one, "flow"), "4.91 % more plastic"));
  CHECK(has(text_of(one, "flow"), "not sure enough"));
  CHECK(has(with_id(one, "flow")->action, "another bead width"));
  for (const char* side : {"a", "b", "c", "d"}) {
    add_cell(e, std::string("W45") + side, Kind::wall, Axis::n, 0.45, 0.48);
    add_cell(e, std::string("W90") + side, Kind::wall, Axis::n, 0.9, 0.97);
  }
  CHECK(with_id(found(e, in_state({})), "flow")->severity == Severity::act);
}

TEST_CASE("first layers, heights, squareness") {
  CHECK(has(text_of(found(hand_made({{name::flare, 0.15, 0.02}})), "first-layers"), "stand out by 0.15 mm"));
  CHECK_FALSE(with_id(found(hand_made({{name::flare, 0.03, 0.02}})), "first-layers"));
  const auto high = found(hand_made({{name::z0, 0.08, 0.02}, {name::scale_z, 0.0003, 0.001}}));
  CHECK(has(text_of(high, "height"), "0.08 mm high"));
  CHECK(has(with_id(high, "height")->action, "lower the nozzle"));
  CHECK(has(with_id(high, "height")->action, "never set Z steps"));
  const auto off = found(hand_made({{name::skew_xy, 0.0018, 0.0003}}));
  CHECK(has(text_of(off, "skew"), "0.10°: 0.18 mm on 100 mm (± 0.07 mm)"));
  CHECK(with_id(off, "skew")->severity == Severity::act);
  const auto square = found(hand_made({{name::skew_xy, 0.0002, 0.0003}}));
  CHECK(with_id(square, "skew")->severity == Severity::fine);
}

TEST_CASE("holes, pegs and facets") {
  Estimates e = hand_made({{name::scale_x, -0.002, 0.0005},
                           {name::scale_y, -0.002, 0.0005},
                           {name::edge_growth, 0.05, 0.005},
                           {name::hole_c0, 0.06, 0.01},
                           {name::hole_c1, 0.15, 0.05},
                           {name::peg_p0, 0.25, 0.03}});
  add_lengths(e, 100);
  for (const double d : {3.0, 5.0, 10.0}) {
    add_cell(e, "H" + std::to_string(static_cast<int>(d)), Kind::hole, Axis::z, d, d - 0.2).feature.facets = 32;
    add_cell(e, "P" + std::to_string(static_cast<int>(d)), Kind::peg, Axis::z, d, d - 0.1);
  }
  const auto all = found(e);
  // 5 - 0.01 (scale) - 0.1 (edges) - 0.06 - 0.03 - 0.024 (32 facets)
  CHECK(has(text_of(all, "holes"), "A hole drawn 5 mm comes out 4.78 mm (± 0.04 mm)"));
  CHECK(has(with_id(all, "holes")->action, "3 as 3.23"));
  // 8 - 0.016 + 0.1 - 0.25
  CHECK(has(text_of(all, "pegs"), "pulls in by 0.25 mm"));
  CHECK(has(text_of(all, "pegs"), "a peg drawn 8 mm comes out 7.83 mm"));
  CHECK(has(text_of(all, "pegs"), "although flat sides stand out"));
  CHECK(has(text_of(all, "facets"), "0.05 mm of what H10 loses is the drawing: a circle of 32 sides"));
  CHECK(has(text_of(all, "jaws"), "at Ø 3"));
  CHECK_FALSE(with_id(found(e, {}, steel(Kind::ring)), "jaws"));
  SECTION("pegs that do as flats do are not told") {
    e.parameters.back().value = 0.02;
    e.parameters.back().established = false;
    CHECK_FALSE(with_id(found(e), "pegs"));
  }
  SECTION("holes without lengths are told as read") {
    Estimates alone = hand_made({{name::hole_c1, 0.15, 0.05}});
    add_cell(alone, "H5", Kind::hole, Axis::z, 5, 4.77);
    CHECK(has(text_of(found(alone), "holes"), "reads 4.77 mm"));
  }
}

TEST_CASE("holes that do not follow the law") {
  const double diameters[] = {2, 3, 4, 5, 6, 8, 10, 12};
  const double scatter[] = {0.003, -0.004, 0.002, 0.004, -0.003, -0.002, 0.003, -0.001};
  const auto with_residual = [&](auto residual) {
    Estimates e = hand_made({{name::hole_c0, 0.06, 0.01}, {name::hole_c1, 0.15, 0.05}});
    for (int i = 0; i < 8; ++i)
      add_cell(e, "H", Kind::hole, Axis::z, diameters[i], diameters[i], 1, scatter[i] + residual(diameters[i]));
    return e;
  };
  CHECK_FALSE(with_id(found(with_residual([](double) { return 0.0; })), "hole-law"));
  const auto bent = found(with_residual([](double d) { return d < 4.5 ? -0.06 * (4.5 - d) : 0.0; }));
  CHECK(has(text_of(bent, "hole-law"), "at Ø 2"));
  CHECK(has(text_of(bent, "hole-law"), "smaller"));
  const auto held = found(with_residual([](double d) { return 0.05 - 0.3 / d; }));
  CHECK(has(with_id(held, "hole-law")->because, "still rises and falls with 1/d"));
  SECTION("or far more steeply than assumed") {
    Estimates e = with_residual([](double) { return 0.0; });
    e.parameters[1].value = 0.94;
    e.priors.push_back({name::hole_c1, 0.1, 0.15, "assumed"});
    CHECK(has(text_of(found(e), "hole-law"), "far more steeply towards small ones than usual: by 0.94/d"));
  }
}

TEST_CASE("the caliper") {
  Estimates e = lengths_of(0, 0, 0.0);
  e.scatter["reading_mm"] = 0.01;
  CHECK(has(text_of(found(e), "caliper-capability"), "can just judge"));
  FindingOptions fine;
  fine.tolerance_mm = 0.03;
  CHECK(has(text_of(found(e, fine), "caliper-capability"), "cannot judge"));
  Estimates zeroed = hand_made({{name::caliper_zero, 0.02, 0.003}});
  add_lengths(zeroed, 100);
  zeroed.scatter["reading_mm"] = 0.005;
  const auto all = found(zeroed, {}, steel(Kind::zero));
  CHECK(has(text_of(all, "zero"), "reads +0.02 mm"));
  CHECK(with_id(all, "caliper-capability")->severity == Severity::fine);
  zeroed.priors.push_back({name::caliper_zero, 0, 0.02, "assumed"});
  CHECK(has(text_of(found(zeroed), "zero"), "was not read"));
}

TEST_CASE("slips, one by one, then in number") {
  ReadingSet set;
  Estimates e = lengths_of(0, 0, 0.0);
  for (int i = 0; i < 8; ++i) {
    Reading r;
    r.feature.id = "X40";
    r.feature.nominal_mm = 40;
    r.reading_mm = 4.01;
    r.repeat = 2;
    r.row = 7 + i;
    set.rows.push_back(r);
  }
  SuspectReading s;
  s.suspect.proposal_mm = 40.1;
  s.suspect.slip = "decimal point shifted";
  e.suspects.push_back(s);
  const auto one = found(e, {}, set);
  CHECK(one[0].text == "4.01 at X40, copy 1, repeat 2 looks like 40.1: decimal point shifted.");
  CHECK(has(one[0].because, "line 7"));
  CHECK(has(one[0].because, "set aside"));
  for (std::size_t i = 1; i < 8; ++i) {
    SuspectReading more;
    more.suspect.index = i;
    more.suspect.rule = i % 2 ? Rule::repeat : Rule::residual;
    e.suspects.push_back(more);
  }
  e.suspects.push_back({{99, Rule::entry, {}, {}}, false});  // a row that is not there
  int slips = 0;
  for (const Finding& f : found(e, {}, set)) slips += f.id == "slip";
  CHECK(slips == 6);
}

TEST_CASE("copies: too few, too different, or the same fault on all") {
  Estimates e = lengths_of(-0.003, -0.003, 0.08);
  CHECK_FALSE(with_id(found(e), "few"));
  e.counts.copies = 1;
  CHECK(text_of(found(e), "few") ==
        "One copy cannot show how much copies differ, and nothing is assumed of it: the uncertainties leave it out.");
  e.priors = {{"copy_edge_mm", 0, 0.015, CopyPrior{}.source}, {"copy_scale", 0, 0.0006, CopyPrior{}.source}};
  CHECK(text_of(found(e), "few") ==
        "One copy cannot show how much copies differ; typical values are assumed: 0.015 mm in edge growth, 0.06 mm on "
        "100 mm in scale.");
  e.priors = {{"copy_edge_mm", 0, 0.022, "pooled"}, {"copy_scale", 0, 0.0003, "pooled"}};
  CHECK(text_of(found(e), "few") ==
        "One copy cannot show how much copies differ; what this printer's earlier copies show is assumed: 0.022 mm in "
        "edge growth, 0.03 mm on 100 mm in scale.");
  e.priors.clear();
  e.counts.copies = 2;
  for (Parameter& p : e.parameters) {
    p.df = 1.5;
    const double half = coverage_factor(0.95, p.df) * p.u;
    p.lower = p.value - half;
    p.upper = p.value + half;
  }
  CHECK(has(text_of(found(e), "few"), "too few"));
  e.scatter["copy_edge_mm"] = 0.02;
  CHECK_FALSE(with_id(found(e), "copies-differ"));
  e.scatter["copy_edge_mm"] = 0.04;
  CHECK(has(text_of(found(e), "copies-differ"), "0.04 mm in edge growth"));

  Estimates same = hand_made({{name::scale_x, 0, 0.0003}, {name::scale_y, 0, 0.0003}, {name::edge_growth, 0, 0.01}});
  Estimates noise = same;
  const double bound[] = {0.05, -0.03, 0.02, -0.04, 0.03, -0.03};
  for (int f = 0; f < 6; ++f)
    for (int copy = 1; copy <= 3; ++copy) {
      const double own = 0.004 * (copy - 2) * (f % 2 ? 1 : -1);
      const std::string id = "X" + std::to_string(f);
      add_cell(same, id, Kind::outer, Axis::x, 10.0 * (f + 1), 0, copy, bound[f] + own);
      add_cell(noise, id, Kind::outer, Axis::x, 10.0 * (f + 1), 0, copy, bound[(f + copy) % 6]);
    }
  CHECK(has(text_of(found(same), "seam"), "+0.05 mm at X0"));
  CHECK_FALSE(with_id(found(noise), "seam"));
}

TEST_CASE("when to stop") {
  const auto all = found(lengths_of(0.0001, -0.0002, 0.005, 0.0001, 0.005));
  CHECK(has(text_of(all, "done"), "This setup is good to ± 0.05 mm up to 100 mm"));
  CHECK_FALSE(with_id(found(lengths_of(0.0001, -0.0002, 0.005, 0.0008, 0.005)), "done"));
  CHECK_FALSE(with_id(found(lengths_of(0.003, -0.0002, 0.005, 0.0001, 0.005)), "done"));
}

TEST_CASE("words of the severities") {
  CHECK(word(Severity::act) == "act");
  CHECK(word(Severity::know) == "know");
  CHECK(word(Severity::fine) == "fine");
}
