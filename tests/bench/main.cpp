// fw_bench: how long an estimate, a coupon and the record take on this machine. Prints a table; asserts nothing.

#include <CLI/CLI.hpp>
#include <Eigen/QR>
#include <iostream>
#include <stdexcept>

#include "base/number.hpp"
#include "bench/record_rows.hpp"
#include "bench/stopwatch.hpp"
#include "design/design.hpp"
#include "mesh/mesh.hpp"
#include "model/estimate.hpp"
#include "practice/simulate.hpp"
#include "practice/stream.hpp"
#include "reading/csv.hpp"

namespace {

using namespace fitwright;
using bench::time_of;
using bench::Timing;

constexpr std::uint64_t seed = 1;
constexpr double missing_share = 0.3;

/// Four outsides and three slots along X and Y each.
ReadingSet lengths_read(int copies, int repeats) {
  Truth truth = default_truth();
  std::erase_if(truth.features, [](const TrueFeature& f) {
    return (f.kind != Kind::outer && f.kind != Kind::inner) || f.axis == Axis::z;
  });
  truth.copies = copies;
  truth.repeats = repeats;
  return simulate(truth, seed);
}

/// Leaves out the same share of places on copies (whole cells), drawn at random.
ReadingSet with_missing(ReadingSet set) {
  std::erase_if(set.rows, [](const Reading& r) {
    return stream_uniform(seed, "missing|" + r.feature.id + '|' + std::to_string(r.copy)) < missing_share;
  });
  return set;
}

/// The plain least-squares problem of the same readings: scales, edge growth and zero, one row a reading.
double qr_ms(const ReadingSet& set, double budget_s) {
  const auto n = static_cast<Eigen::Index>(set.rows.size());
  Eigen::MatrixXd x = Eigen::MatrixXd::Zero(n, 4);
  Eigen::VectorXd y(n);
  for (Eigen::Index i = 0; i < n; ++i) {
    const Reading& r = set.rows[static_cast<std::size_t>(i)];
    x(i, r.feature.axis == Axis::x ? 0 : 1) = r.feature.nominal_mm;
    x(i, 2) = r.feature.kind == Kind::outer ? 2 : -2;
    x(i, 3) = 1;
    y[i] = r.reading_mm - r.feature.nominal_mm;
  }
  double sum = 0;
  const double ms =
      time_of([&] { sum += Eigen::ColPivHouseholderQR<Eigen::MatrixXd>(x).solve(y).sum(); }, budget_s).median_ms;
  if (!(sum == sum)) throw std::logic_error("the reference went wrong");
  return ms;
}

std::string in_words(double ms) { return fixed(ms, ms < 1 ? 4 : ms < 100 ? 2 : 0); }

void estimates(double budget_s) {
  std::cout << "| estimate of | readings | cells | method | ms | ms of a plain QR | ratio | reading the CSV, ms |\n"
               "| --- | ---: | ---: | --- | ---: | ---: | ---: | ---: |\n";
  struct Case {
    const char* what;
    ReadingSet set;
  };
  const Case cases[] = {
      {"14 lengths, 3 copies, 3 readings", lengths_read(3, 3)},
      {"the same, 30 % of the cells missing", with_missing(lengths_read(3, 3))},
      {"14 lengths, 3 copies, 2381 readings", lengths_read(3, 2381)},
      {"the same, 3030 readings, 30 % of the cells missing", with_missing(lengths_read(3, 3030))},
      {"14 lengths, 100 copies, 72 readings", lengths_read(100, 72)},
      {"the same, 100 readings, 30 % of the cells missing", with_missing(lengths_read(100, 100))},
  };
  for (const Case& c : cases) {
    std::string method;
    std::size_t cells = 0;
    const Timing t = time_of(
        [&] {
          const auto e = estimate(c.set);
          if (!e) throw std::runtime_error(e.problems()[0].text());
          method = e->method;
          cells = e->cells.size();
        },
        budget_s);
    const double reference = qr_ms(c.set, budget_s / 10);
    const std::string csv = to_csv(c.set);
    const Timing parse = time_of(
        [&] {
          if (!parse_readings(csv, "bench")) throw std::runtime_error("what was written is not read back");
        },
        budget_s / 2);
    std::cout << "| " << c.what << " | " << c.set.rows.size() << " | " << cells << " | " << method << " | "
              << in_words(t.median_ms) << " | " << in_words(reference) << " | " << fixed(t.median_ms / reference, 0)
              << " | " << in_words(parse.median_ms) << " |" << std::endl;
  }
}

void coupons(double budget_s) {
  std::cout << "\n| coupon | triangles | design, ms | mesh, ms | STL, ms | together, ms | mesh over STL |\n"
               "| --- | ---: | ---: | ---: | ---: | ---: | ---: |\n";
  for (const DesignInfo& design : designs()) {
    const auto made = make_coupon(design.name);
    if (!made) throw std::runtime_error(made.problems()[0].text());
    const Mesh mesh = mesh_of(made->solid);
    std::size_t bytes = 0;
    const double drawn = time_of([&] { bytes += make_coupon(design.name)->features.size(); }, budget_s).median_ms;
    const double meshed = time_of([&] { bytes += mesh_of(made->solid).triangles.size(); }, budget_s).median_ms;
    const double written = time_of([&] { bytes += to_stl(mesh).size(); }, budget_s).median_ms;
    std::cout << "| " << design.name << " | " << mesh.triangles.size() << " | " << in_words(drawn) << " | "
              << in_words(meshed) << " | " << in_words(written) << " | " << in_words(drawn + meshed + written) << " | "
              << fixed(meshed / written, 0) << " |" << std::endl;
  }
}

}  // namespace

int main(int argc, char** argv) {
  double budget_s = 1;
  CLI::App app{"Times estimates, coupons and the record on this machine."};
  app.add_option("--budget", budget_s, "seconds for each figure")
      ->check(CLI::Range(0.01, 600.0))
      ->capture_default_str();
  CLI11_PARSE(app, argc, argv);
  estimates(budget_s);
  coupons(budget_s);
  bench::record_rows(budget_s);
  return 0;
}
