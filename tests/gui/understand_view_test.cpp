// What Understand shows beside the findings: residuals, the corner, what cannot be told apart, and what a reading
// decides.

#include <catch2/catch.hpp>
#include <cmath>
#include <numbers>
#include <set>

#include "base/number.hpp"
#include "bench/bench_view.hpp"
#include "bench/keeping.hpp"
#include "bench/plots.hpp"
#include "bench/shown.hpp"
#include "model/estimate.hpp"
#include "reading/csv.hpp"
#include "record/kept_estimate.hpp"
#include "record/store.hpp"
#include "report/wording.hpp"

using namespace fitwright;

namespace {

Content content_of(const std::string& text) {
  Content content;
  content.readings = std::make_shared<const ReadingSet>(parse_readings(text, "test").value());
  return content;
}

Content demo() { return demo_document().content(); }

const SuspectReading& first_suspect(const Analysis& a, bool used) {
  for (const SuspectReading& s : a.estimates->suspects)
    if (s.used == used) return s;
  throw std::logic_error("the demo has no such reading");
}

}  // namespace

TEST_CASE("residuals stand in the order typed, one mark a reading, and are readings minus what fits") {
  const Content content = demo();
  const Analysis a = analyse(content, 1);
  const PlotScene scene = order_plot(a);
  std::size_t printed = 0;
  for (const Cell& cell : a.estimates->cells)
    if (cell.kind != Kind::zero && cell.kind != Kind::gauge && cell.kind != Kind::ring) printed += cell.rows.size();
  std::size_t aside = 0;
  for (const SuspectReading& s : a.estimates->suspects) aside += !s.used;
  CHECK(scene.marks.size() >= printed);
  CHECK(scene.marks.size() <= printed + aside);
  double before = 0;
  for (const PlotMark& mark : scene.marks) {
    REQUIRE(mark.rows.size() == 1);
    CHECK(mark.at.x > before);  // each reading once, in order
    before = mark.at.x;
    CHECK(a.row_of[static_cast<std::size_t>(mark.at.x) - 1] == mark.rows.front());
    CHECK_FALSE(mark.said.empty());
  }
  for (const Cell& cell : a.estimates->cells)
    for (const std::size_t row : cell.rows)
      for (const PlotMark& mark : scene.marks)
        if (mark.rows.front() == a.row_of[row])
          CHECK(mark.at.y == Approx(a.read.rows[row].reading_mm - cell.fitted_mm).margin(1e-12));
  CHECK_FALSE(scene.said.empty());
  REQUIRE(scene.bands.size() == 1);
  CHECK(scene.bands[0].upper[0].y == Approx(-scene.bands[0].lower[0].y));
}

TEST_CASE("residuals by feature: every copy of a feature above the same name, with their mean") {
  const Analysis a = analyse(demo(), 1);
  const PlotScene scene = features_plot(a);
  std::map<double, std::vector<double>> by_place;
  for (const PlotMark& mark : scene.marks) by_place[mark.at.x].push_back(mark.at.y);
  CHECK(by_place.size() == scene.x.ticks.size());
  REQUIRE(scene.lines.size() == by_place.size());
  for (const PlotLine& line : scene.lines) {
    const double at = (line.points[0].x + line.points[1].x) / 2;
    double sum = 0;
    for (const double y : by_place[at]) sum += y;
    CHECK(line.points[0].y == Approx(sum / static_cast<double>(by_place[at].size())).margin(1e-12));
  }
  std::set<Shape> shapes;
  for (const PlotMark& mark : scene.marks) shapes.insert(mark.shape);
  CHECK(shapes.size() == 2);  // two copies, told apart by shape
}

TEST_CASE("the corner is drawn with its shear times the factor that its title names") {
  const Analysis a = analyse(demo(), 1);
  const Parameter* skew = a.estimates->find(name::skew_xy);
  REQUIRE(skew);
  const PlotScene scene = corner_plot(a);
  CHECK(scene.drawing);
  CHECK(scene.empty.empty());
  // Y's edge: from the corner upwards, aside by the shear times the factor.
  const auto edge =
      std::find_if(scene.lines.begin(), scene.lines.end(), [](const PlotLine& l) { return l.ink == Ink::y; });
  REQUIRE(edge != scene.lines.end());
  const double factor = edge->points[1].x / edge->points[1].y / skew->value;
  CHECK(scene.title.find("drawn " + shown_exact(std::round(factor)) + " times") != std::string::npos);
  CHECK(factor == Approx(std::round(factor)));
  // In degrees, at no more decimals than its uncertainty carries.
  const double degrees = 180 / std::numbers::pi;
  const ValueAndU told = value_and_u(std::abs(skew->value) * degrees, skew->u * degrees);
  CHECK(scene.title.find(told.value + "\u00b0") != std::string::npos);
  CHECK_FALSE(scene.marks.empty());
  for (const PlotMark& mark : scene.marks) CHECK_FALSE(mark.rows.empty());
  for (const PlotMark& mark : scene.marks) {
    CHECK(mark.at.x >= scene.x.from);
    CHECK(mark.at.x <= scene.x.to);
  }
}

TEST_CASE("what the window estimates for a setup of the record is what the record's own estimate says") {
  Bench bench = demo_bench();
  const auto setups = record::all<record::Setup>(bench.record());
  REQUIRE(setups);
  std::size_t compared = 0;
  for (const auto& setup : *setups) {
    INFO(setup.value.name);
    REQUIRE(bench.put_setup(setup.thing));
    const Analysis a = analyse(bench.document().content(), 1);
    const auto expected = record::estimate_setup(bench.record(), setup.thing);
    REQUIRE(expected.ok() == a.estimates.has_value());
    if (!expected) continue;
    CHECK(a.estimates->counts.readings == expected->estimates.counts.readings);
    REQUIRE(a.estimates->parameters.size() == expected->estimates.parameters.size());
    for (const Parameter& p : expected->estimates.parameters) {
      const Parameter* shown_one = a.estimates->find(p.name);
      REQUIRE(shown_one);
      INFO(p.name);
      // The same numbers added up in another order.
      CHECK(shown_one->value == Approx(p.value).epsilon(1e-9).margin(1e-12));
      CHECK(shown_one->u == Approx(p.u).epsilon(1e-9));
    }
    ++compared;
  }
  CHECK(compared >= 3);
}

TEST_CASE("heights are lettered Z and have a colour of their own") {
  const Content content = content_of(
      "feature_id,kind,axis,nominal_mm,copy,repeat,reading_mm\n"
      "Z5,outer,z,5,1,1,5.08\nZ5,outer,z,5,1,2,5.09\nZ40,outer,z,40,1,1,40.10\nZ40,outer,z,40,1,2,40.11\n"
      "X40,outer,x,40,1,1,40.05\nX40,outer,x,40,1,2,40.06\nX10,outer,x,10,1,1,10.08\nX10,outer,x,10,1,2,10.07\n"
      "S20,inner,x,20,1,1,19.80\nS20,inner,x,20,1,2,19.81\nP30,pitch,x,30,1,1,29.95\nP30,pitch,x,30,1,2,29.96\n");
  const PlotScene scene = lengths_plot(analyse(content, 1));
  const auto label =
      std::find_if(scene.labels.begin(), scene.labels.end(), [](const PlotLabel& l) { return l.ink == Ink::z; });
  REQUIRE(label != scene.labels.end());
  CHECK(label->text.starts_with("Z"));
  std::map<Ink, std::set<Shape>> shapes;
  for (const PlotMark& mark : scene.marks) shapes[mark.ink].insert(mark.shape);
  CHECK(shapes[Ink::z].size() == 1);
  CHECK(shapes[Ink::x].size() == 3);  // outer, slot and pitch by shape
}

TEST_CASE("what cannot be told apart is said with the coupon that would tell") {
  const Content content = content_of(
      "feature_id,kind,axis,nominal_mm,copy,repeat,reading_mm\n"
      "X20,outer,x,20,1,1,20.16\nX20,outer,x,20,1,2,20.15\n");
  const BenchView view = bench_view(content, analyse(content, 1));
  REQUIRE_FALSE(view.not_known.empty());
  CHECK(view.not_known[0].text.find("frame") != std::string::npos);
  CHECK(view.corner.empty.find("diagonals") != std::string::npos);
}

TEST_CASE("every effect on the part says whether it matters, and follows what the user says matters") {
  Content content = demo();
  content.wishes.tolerance_mm = 0.01;
  const EstimatesView strict = estimates_view(content, analyse(content, 1));
  content.wishes.tolerance_mm = 2;
  const EstimatesView loose = estimates_view(content, analyse(content, 1));
  bool matters = false;
  for (const EstimateRow& row : strict.rows) {
    CHECK(row.relevance.empty() == !row.on_part.has_value());
    matters = matters || row.relevance == "matters";
  }
  CHECK(matters);
  for (const EstimateRow& row : loose.rows)
    if (row.on_part) CHECK(row.relevance == "does not matter");
  REQUIRE_FALSE(loose.beyond.empty());
  const Analysis a = analyse(content, 1);
  CHECK(typeset(beyond_in_words(beyond_readings(*a.estimates, a.read))).find("temperature of the part") !=
        std::string::npos);
  CHECK(loose.beyond[0].find(typeset(beyond_in_words(a.beyond))) != std::string::npos);
}

TEST_CASE("a reading that is tried stands beside the estimate that holds, and nothing else changes") {
  Content content = demo();
  const Analysis before = analyse(content, 1);
  const SuspectReading& slip = first_suspect(before, false);
  CHECK_FALSE(bench_view(content, before).trial.shown);
  content.wishes.tried = {key_of(before.read.rows[slip.suspect.index])};
  const Analysis after = analyse(content, 2);
  REQUIRE(after.trial);
  CHECK(after.trial->with_them);  // it is set aside as things stand
  for (const Parameter& p : before.estimates->parameters) {
    REQUIRE(after.estimates->find(p.name));
    CHECK(after.estimates->find(p.name)->value == p.value);
  }
  CHECK(after.trial->estimates->counts.readings == before.estimates->counts.readings + 1);
  const TriedView view = tried_view(content, after);
  CHECK(view.shown);
  CHECK(view.chosen < view.choices.size());
  REQUIRE_FALSE(view.rows.empty());
  for (const TriedRow& row : view.rows) CHECK((row.as_is != row.tried || row.as_is_half != row.tried_half));
  CHECK_FALSE(view.changes.empty());
  CHECK(view.title.find(before.read.rows[slip.suspect.index].feature.id) != std::string::npos);
  CHECK(content.readings->rows.size() == demo().readings->rows.size());
}

TEST_CASE("without a reading that counts: as if it had never been typed") {
  Content content = demo();
  const Analysis before = analyse(content, 1);
  std::size_t row = 0;
  for (const Cell& cell : before.estimates->cells)
    if (cell.kind == Kind::outer && cell.rows.size() > 1) row = cell.rows.front();
  content.wishes.tried = {key_of(before.read.rows[row])};
  const Analysis after = analyse(content, 2);
  REQUIRE(after.trial);
  CHECK_FALSE(after.trial->with_them);
  ReadingSet without = before.read;
  without.rows.erase(without.rows.begin() + static_cast<std::ptrdiff_t>(row));
  const Estimates expected = estimate(without).value();
  for (const Parameter& p : expected.parameters) {
    REQUIRE(after.trial->estimates->find(p.name));
    CHECK(after.trial->estimates->find(p.name)->value == p.value);
    CHECK(after.trial->estimates->find(p.name)->u == p.u);
  }
  // The table shows both values as the estimates have them.
  const TriedView view = tried_view(content, after);
  for (const TriedRow& shown_row : view.rows) {
    const auto p = std::find_if(expected.parameters.begin(), expected.parameters.end(), [&](const Parameter& q) {
      return capitalised(wording(q.name).name) == shown_row.name;
    });
    if (p == expected.parameters.end()) continue;
    const double per_unit = wording(p->name).per_unit;
    const int decimals = static_cast<int>(shown_row.tried.size() - shown_row.tried.find('.') - 1);
    CHECK(shown_row.tried == shown_signed(p->value * per_unit, decimals));
  }
}

TEST_CASE("a reading that is gone is no longer tried") {
  Content content = demo();
  content.wishes.tried = {{1, "no such place", 1}};
  const Analysis a = analyse(content, 1);
  CHECK_FALSE(a.trial.has_value());
  CHECK_FALSE(tried_view(content, a).shown);
}
