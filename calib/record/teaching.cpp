#include "record/teaching.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <numbers>

#include "correct/algebra.hpp"
#include "correct/correction.hpp"
#include "correct/phrase.hpp"
#include "record/state_in_force.hpp"

namespace fitwright::record {
namespace {

/// The surest set of a setup that has what `of` takes from it.
template <class Of>
const BareErrors* surest(const std::vector<BareErrors>& sets, Of of) {
  const BareErrors* best = nullptr;
  for (const BareErrors& set : sets)
    if (of(set) && of(set)->u > 0 && (!best || of(set)->u < of(*best)->u)) best = &set;
  return best;
}

std::optional<BareValue> shrink_of(const BareErrors& set) { return set.shrink; }

/// Steps in force on a printer at a date.
Result<StepsPerMm> steps_at(Record& record, const Id& printer, const std::string& at) {
  const auto history = settings_history(record, printer);
  if (!history) return history.problems();
  const auto states = replay(*history, at);
  return states.empty() ? history->steps : states.begin()->second.state.steps_per_mm;
}

double steps_of(const StepsPerMm& steps, char axis) { return axis == 'x' ? steps.x : axis == 'y' ? steps.y : steps.z; }

/// The newest travel of each axis of every printer, relative to the steps it was entered with.
Result<std::vector<TravelScale>> travels(Record& record) {
  const auto printers = all<Printer>(record);
  if (!printers) return printers.problems();
  std::vector<TravelScale> out;
  for (const auto& printer : *printers) {
    const auto measured = all_of<Travelled>(record, "printer", printer.thing);
    if (!measured) return measured.problems();
    const Printer& p = printer.value;
    const StepsPerMm entered{p.steps_x, p.steps_y, p.steps_z, p.steps_e};
    std::map<char, TravelScale> newest;
    for (const auto& t : *measured) {
      if (t.value.axis.size() != 1 || !(t.value.commanded_mm > 0)) continue;
      const char axis = t.value.axis.front();
      const auto then = steps_at(record, printer.thing, t.at);
      if (!then) return then.problems();
      const double gain = t.value.travelled_mm / t.value.commanded_mm * steps_of(entered, axis) / steps_of(*then, axis);
      newest[axis] = {p.name, axis, gain - 1, t.value.u_mm.value_or(default_travel_u_mm) / t.value.commanded_mm};
    }
    for (const auto& [axis, travel] : newest) out.push_back(travel);
  }
  return out;
}

/// Cells of the table of printers and spools with their covariance.
struct Cells {
  std::vector<SplitCell> cells;
  std::vector<Eigen::MatrixXd> blocks;

  void add(const BareErrors& set) {
    std::vector<Eigen::Index> axes;
    const std::array<const std::optional<BareValue>*, 3> scales{&set.scale_x, &set.scale_y, &set.scale_z};
    for (std::size_t i = 0; i < scales.size(); ++i) {
      const auto& value = *scales[i];
      if (!value || !(value->u > 0) || !std::isfinite(value->u)) continue;
      axes.push_back(static_cast<Eigen::Index>(i));
      cells.push_back({set.printer, set.spool, static_cast<char>('x' + static_cast<char>(i)), value->value, value->u});
    }
    blocks.emplace_back(set.covariance(axes, axes));
  }

  [[nodiscard]] Eigen::MatrixXd covariance() const {
    const auto n = static_cast<Eigen::Index>(cells.size());
    Eigen::MatrixXd out = Eigen::MatrixXd::Zero(n, n);
    Eigen::Index at = 0;
    for (const Eigen::MatrixXd& block : blocks) {
      out.block(at, at, block.rows(), block.cols()) = block;
      at += block.rows();
    }
    return out;
  }
};

/// The coupon file of a setup that was printed most often, print by print.
Result<std::vector<std::vector<Id>>> prints_of_one_file(Record& record, const Id& setup) {
  const auto copies = all_of<Copy>(record, "setup", setup);
  if (!copies) return copies.problems();
  std::map<std::string, std::map<int, std::vector<Id>>> files;  // features -> print -> copies
  for (const auto& copy : *copies) {
    const auto coupon = one<MadeCoupon>(record, copy.value.coupon);
    if (!coupon) return coupon.problems();
    files[coupon->value.features][copy.value.print].push_back(copy.thing);
  }
  std::vector<std::vector<Id>> out;
  for (const auto& [features, prints] : files) {
    if (prints.size() <= out.size()) continue;
    out.clear();
    for (const auto& [print, ids] : prints) out.push_back(ids);
  }
  return out;
}

/// A chart, or a note why there is none.
std::optional<Chart> charted(const std::vector<ChartPoint>& points, const ChartOptions& options, const char* what,
                             std::vector<std::string>& notes) {
  auto chart = ewma_chart_of(points, options);
  if (chart) return std::move(*chart);
  for (const Problem& p : chart.problems()) notes.push_back(std::string(what) + ": " + p.what);
  return std::nullopt;
}

}  // namespace

Result<ExpectedOfSpool> expected_of_spool(Record& record, const Id& setup) {
  return guarded(record, [&]() -> Result<ExpectedOfSpool> {
    const auto mine = one<Setup>(record, setup);
    if (!mine) return mine.problems();
    const auto spool = one<Spool>(record, mine->value.spool);
    if (!spool) return spool.problems();
    const auto material = one<Material>(record, spool->value.material);
    if (!material) return material.problems();
    const auto setups = all<Setup>(record);
    if (!setups) return setups.problems();

    ExpectedOfSpool out;
    std::map<Id, SpoolValue> surest_of;  // by spool
    for (const auto& other : *setups) {
      if (other.value.spool == mine->value.spool) continue;
      const auto its = one<Spool>(record, other.value.spool);
      if (!its) return its.problems();
      if (its->value.material != spool->value.material) continue;
      const auto bare = bare_errors(record, other.thing, Together::state);
      if (!bare) return bare.problems();
      const BareErrors* best = surest(bare->sets, shrink_of);
      if (!best) continue;
      SpoolValue value{its->value.name, best->shrink->value, best->shrink->u};
      const bool elsewhere = other.value.printer != mine->value.printer;
      if (elsewhere) value.u = std::hypot(value.u, std::numbers::sqrt2 * theory_scale_sd);  // two machines' own scales
      const auto [known, is_new] = surest_of.emplace(other.value.spool, value);
      if (is_new && elsewhere)
        out.notes.push_back(value.spool + " was measured on " + best->printer +
                            ": what two machines differ by (0.05 % each, assumed) is in its uncertainty.");
      if (!is_new && value.u < known->second.u) known->second = value;
    }
    for (const auto& [id, value] : surest_of) out.earlier.push_back(value);
    auto forecast = next_spool(material->value.name, out.earlier);
    if (!forecast) return forecast.problems();
    out.forecast = std::move(*forecast);

    const auto now = state_in_force(record, setup);
    if (!now) return now.problems();
    const auto printer = one<Printer>(record, mine->value.printer);
    if (!printer) return printer.problems();
    const StepsPerMm& steps = now->state.steps_per_mm;
    const double mu =
        std::sqrt(steps_ratio(printer->value.steps_x, steps.x) * steps_ratio(printer->value.steps_y, steps.y));
    out.size_factor = 1 / ((1 - out.forecast.value) * mu);
    out.size_factor_lower = 1 / ((1 - out.forecast.lower) * mu);
    out.size_factor_upper = 1 / ((1 - out.forecast.upper) * mu);
    return out;
  });
}

Result<Split> machine_and_material(Record& record, const SplitOptions& options) {
  return guarded(record, [&]() -> Result<Split> {
    const auto setups = all<Setup>(record);
    if (!setups) return setups.problems();
    Cells cells;
    for (const auto& setup : *setups) {
      const auto bare = bare_errors(record, setup.thing, Together::state);
      if (!bare) return bare.problems();
      const BareErrors* best = surest(bare->sets, shrink_of);
      if (!best) best = surest(bare->sets, [](const BareErrors& b) { return b.scale_x ? b.scale_x : b.scale_y; });
      if (best) cells.add(*best);
    }
    SplitOptions with = options;
    with.covariance = cells.covariance();
    const auto measured = travels(record);
    if (!measured) return measured.problems();
    for (const TravelScale& t : *measured) {
      const bool asked = std::any_of(cells.cells.begin(), cells.cells.end(),
                                     [&](const SplitCell& c) { return c.printer == t.printer && c.axis == t.axis; });
      const bool given = std::any_of(with.travel.begin(), with.travel.end(),
                                     [&](const TravelScale& g) { return g.printer == t.printer && g.axis == t.axis; });
      if (asked && !given) with.travel.push_back(t);
    }
    return split_scales(cells.cells, with);
  });
}

Result<SetupCharts> setup_charts(Record& record, const Id& setup) {
  return guarded(record, [&]() -> Result<SetupCharts> {
    const auto prints = prints_of_one_file(record, setup);
    if (!prints) return prints.problems();
    SetupCharts out;
    std::vector<ChartPoint> shrink, edge;
    for (const auto& copies : *prints) {
      const auto bare = bare_errors_of(record, setup, copies);
      if (!bare) {
        for (const Problem& p : bare.problems()) out.notes.push_back(p.what);
        continue;
      }
      if (bare->shrink) shrink.push_back({bare->printed_on, bare->shrink->value});
      if (bare->edge_mm) edge.push_back({bare->printed_on, bare->edge_mm->value});
    }
    out.shrink = charted(shrink, shrink_chart(), "shrink factor", out.notes);
    out.edge = charted(edge, edge_chart(), "edge growth", out.notes);
    return out;
  });
}

Result<CaliperState> caliper_log(Record& record, const Id& caliper) {
  return guarded(record, [&]() -> Result<CaliperState> {
    const auto kept = one<Caliper>(record, caliper);
    if (!kept) return kept.problems();
    std::vector<fitwright::SteelReading> log;
    const auto sessions = all_of<Session>(record, "caliper", caliper);
    if (!sessions) return sessions.problems();
    std::map<Id, int> days;
    for (const auto& session : *sessions) days[session.thing] = day_number(session.value.began).value_or(0);
    const auto steel = all_of<SteelReading>(record, "caliper", caliper);
    if (!steel) return steel.problems();
    for (const auto& s : *steel) {
      const auto kind = kind_from(s.value.kind);
      if (!kind) continue;
      const auto day = days.find(s.value.session);
      log.push_back({day == days.end() ? day_number(s.at).value_or(0) : day->second, *kind,
                     *kind == Kind::zero ? "" : s.value.feature_id, s.value.true_mm, s.value.reading_mm});
    }
    CaliperOptions options;
    options.resolution_mm = kept->value.resolution_mm;
    return caliper_state(log, options);
  });
}

}  // namespace fitwright::record
