#include "learn/split.hpp"

#include <Eigen/Cholesky>
#include <algorithm>
#include <cmath>
#include <map>
#include <numeric>
#include <stdexcept>

#include "base/text.hpp"
#include "learn/words.hpp"
#include "stats/intervals.hpp"

namespace fitwright {
namespace {

using Eigen::Index;
using Eigen::MatrixXd;
using Eigen::VectorXd;
using Unknown = Split::Unknown;

/// Below this chance the table does not add up.
constexpr double chance_limit = 0.01;
/// Standard uncertainties are told as 95 % half-widths of a normal.
constexpr double coverage = 2;

char plane_of(char axis) { return axis == 'z' ? 'z' : 'x'; }

Problems faults_of(const std::vector<SplitCell>& cells, const SplitOptions& options) {
  Problems out;
  const auto told = [&](const std::string& who, const std::string& what) {
    out.push_back({Code::bad_input, {}, who + ": " + what, "leave it out, or correct it"});
  };
  const auto check = [&](const std::string& who, char axis, double value, double u) {
    if (axis != 'x' && axis != 'y' && axis != 'z') told(who, "the axis must be x, y or z");
    if (!std::isfinite(value) || !std::isfinite(u) || !(u > 0))
      told(who, "scale and uncertainty must be numbers, the uncertainty above 0");
  };
  for (const SplitCell& c : cells)
    check("printer " + quote(c.printer) + " with material " + quote(c.material), c.axis, c.scale, c.u);
  for (const TravelScale& t : options.travel) {
    const std::string who = "travel of printer " + quote(t.printer);
    check(who, t.axis, t.scale, t.u);
    const bool found = std::any_of(cells.begin(), cells.end(),
                                   [&](const SplitCell& c) { return c.printer == t.printer && c.axis == t.axis; });
    if (!found)
      out.push_back({Code::unanswerable,
                     {},
                     who + ": no scale of its axis " + std::string(1, t.axis) + " is known",
                     "estimate that axis with some material first"});
  }
  if (!(options.theory_sd > 0) || !std::isfinite(options.theory_sd)) told("theory", "its deviation must be above 0");
  if (cells.empty())
    out.push_back({Code::unanswerable, {}, "there is no scale to split", "estimate a printer with a material first"});
  return out;
}

Index place_of(std::vector<Unknown>& all, bool machine, const std::string& name, char axis) {
  for (std::size_t i = 0; i < all.size(); ++i)
    if (all[i].machine == machine && all[i].name == name && all[i].axis == axis) return static_cast<Index>(i);
  all.push_back({machine, name, axis, static_cast<int>(all.size()), true});
  return static_cast<Index>(all.size()) - 1;
}

void unite(std::vector<Unknown>& all, Index a, Index b) {
  const int from = all[static_cast<std::size_t>(b)].group, to = all[static_cast<std::size_t>(a)].group;
  for (Unknown& u : all)
    if (u.group == from) u.group = to;
}

std::string axis_text(const Unknown& machine) {
  return machine.name + ' ' + static_cast<char>(machine.axis - 'x' + 'X');
}

/// The words beside every value of a group.
std::string assumption_of(const std::vector<Unknown>& all, int group, const SplitOptions& options, Level level) {
  const std::string theory = "that machines move as their steps say (belt pitch and teeth, lead of the screw) within " +
                             learn::percent_text(coverage * options.theory_sd);
  if (level == Level::theory)
    return "Printer and material are told apart by an assumption, " + theory + "; no reading shows it.";
  std::string measured;
  bool others = false;
  for (const Unknown& u : all) {
    if (!u.machine || u.group != group) continue;
    const auto t = std::find_if(options.travel.begin(), options.travel.end(),
                                [&](const TravelScale& s) { return s.printer == u.name && s.axis == u.axis; });
    if (t == options.travel.end()) {
      others = true;
      continue;
    }
    measured += (measured.empty() ? "" : ", ") + axis_text(u) + " (± " + learn::percent_text(coverage * t->u) + ")";
  }
  return "Printer and material are told apart by measured travel: " + measured +
         (others && options.use_theory ? "; for the axes not measured it is assumed " + theory + "." : ".");
}

/// Rows of the fit, whitened: cells, then travel and theory.
struct Equations {
  MatrixXd design;
  VectorXd y;
  Index unknown_count = 0;
};

Equations equations(const std::vector<SplitCell>& cells, const SplitOptions& options, std::vector<Unknown>& all,
                    std::map<int, Level>& level_of) {
  const auto n = static_cast<Index>(cells.size());
  std::vector<std::pair<Index, Index>> at;
  for (const SplitCell& c : cells) {
    const Index m = place_of(all, true, c.printer, c.axis);
    const Index k = place_of(all, false, c.material, plane_of(c.axis));
    unite(all, m, k);
    at.emplace_back(m, k);
  }
  const auto p = static_cast<Index>(all.size());
  MatrixXd x = MatrixXd::Zero(n, p);
  VectorXd y(n);
  MatrixXd v = options.covariance;
  if (v.size() == 0) {
    v = MatrixXd::Zero(n, n);
    for (Index i = 0; i < n; ++i) v(i, i) = std::pow(cells[static_cast<std::size_t>(i)].u, 2);
  } else if (v.rows() != n || v.cols() != n) {
    throw std::invalid_argument("split_scales: the covariance does not fit the cells");
  }
  for (Index i = 0; i < n; ++i) {
    x(i, at[static_cast<std::size_t>(i)].first) = 1;
    x(i, at[static_cast<std::size_t>(i)].second) = -1;
    y[i] = cells[static_cast<std::size_t>(i)].scale;
  }
  const Eigen::LLT<MatrixXd> llt(v);
  if (llt.info() != Eigen::Success) throw std::invalid_argument("split_scales: the covariance is not positive");
  llt.matrixL().solveInPlace(x);
  llt.matrixL().solveInPlace(y);

  std::vector<std::tuple<Index, double, double>> known;  // unknown, value, u
  for (const TravelScale& t : options.travel) {
    const Index m = place_of(all, true, t.printer, t.axis);
    known.emplace_back(m, t.scale, t.u);
    level_of[all[static_cast<std::size_t>(m)].group] = Level::travel;
  }
  for (Index m = 0; m < p && options.use_theory; ++m) {
    const Unknown& u = all[static_cast<std::size_t>(m)];
    const bool measured = std::any_of(known.begin(), known.end(), [&](const auto& k) { return std::get<0>(k) == m; });
    if (!u.machine || measured) continue;
    known.emplace_back(m, 0.0, options.theory_sd);
    level_of.try_emplace(u.group, Level::theory);
  }
  // A group without any known level: its first machine is held at 0, so that differences can be told.
  std::vector<Index> held;
  for (Index m = 0; m < p; ++m) {
    Unknown& u = all[static_cast<std::size_t>(m)];
    u.level_known = level_of.contains(u.group);
    const bool first = std::none_of(held.begin(), held.end(),
                                    [&](Index h) { return all[static_cast<std::size_t>(h)].group == u.group; });
    if (!u.level_known && u.machine && first) held.push_back(m);
  }
  Equations out;
  out.unknown_count = p - static_cast<Index>(held.size());
  const auto extra = static_cast<Index>(known.size());
  out.design = MatrixXd::Zero(n + extra, p);
  out.design.topRows(n) = x;
  for (const Index h : held) out.design.col(h).setZero();
  out.y.resize(n + extra);
  out.y.head(n) = y;
  for (Index i = 0; i < extra; ++i) {
    const auto& [m, value, u] = known[static_cast<std::size_t>(i)];
    out.design(n + i, m) = 1 / u;
    out.y[n + i] = value / u;
  }
  return out;
}

void add_values(const SplitOptions& options, const std::map<int, Level>& level_of, Split& out) {
  for (std::size_t i = 0; i < out.unknowns.size(); ++i) {
    const Unknown& u = out.unknowns[i];
    if (!u.level_known) continue;
    const auto k = static_cast<Index>(i);
    const Level level = level_of.at(u.group);
    const std::string assumption = assumption_of(out.unknowns, u.group, options, level);
    const double sd = std::sqrt(out.covariance(k, k));
    if (u.machine)
      out.machines.push_back({u.name, u.axis, out.values[k], sd, level, assumption});
    else
      out.materials.push_back({u.name, u.axis == 'x', out.values[k], sd, level, assumption});
  }
}

void add_notes(Split& out) {
  std::map<char, std::vector<int>> groups;  // by plane
  bool open = false;
  for (const Unknown& u : out.unknowns) {
    std::vector<int>& seen = groups[plane_of(u.axis)];
    if (std::find(seen.begin(), seen.end(), u.group) == seen.end()) seen.push_back(u.group);
    open = open || !u.level_known;
  }
  for (const auto& [plane, seen] : groups) out.connected = out.connected && seen.size() == 1;
  if (!out.connected)
    out.notes.push_back(
        "Not every printer is compared with every other: some share no material, directly or through others. Between "
        "those, differences rest on the assumption alone; one material read on both would tell.");
  if (open)
    out.notes.push_back(
        "Without theory or a measured travel only differences can be told: between printers, and between materials.");
  if (out.chance < chance_limit)
    out.notes.push_back(
        "The table does not add up: printers and materials explain the scales worse than their uncertainties allow. A "
        "scale may have been read wrong, or settings differed.");
}

const Unknown* find(const Split& split, bool machine, const std::string& name, char axis, Index& at) {
  for (std::size_t i = 0; i < split.unknowns.size(); ++i) {
    const Unknown& u = split.unknowns[i];
    if (u.machine != machine || u.name != name || u.axis != axis) continue;
    at = static_cast<Index>(i);
    return &u;
  }
  return nullptr;
}

std::optional<SplitDifference> difference(const Split& split, bool machine, const std::string& name_a, char axis_a,
                                          const std::string& name_b, char axis_b) {
  Index a = 0, b = 0;
  const Unknown* first = find(split, machine, name_a, axis_a, a);
  const Unknown* second = find(split, machine, name_b, axis_b, b);
  if (!first || !second) return std::nullopt;
  const bool connected = first->group == second->group;
  if (!connected && (!first->level_known || !second->level_known)) return std::nullopt;
  SplitDifference out;
  out.value = split.values[a] - split.values[b];
  const MatrixXd& c = split.covariance;
  out.u = std::sqrt(std::max(0.0, c(a, a) + c(b, b) - 2 * c(a, b)));
  out.rests_on_theory = !connected;
  return out;
}

}  // namespace

Result<Split> split_scales(const std::vector<SplitCell>& cells, const SplitOptions& options) {
  if (Problems faults = faults_of(cells, options); !faults.empty()) return faults;
  Split out;
  std::map<int, Level> level_of;
  const Equations e = equations(cells, options, out.unknowns, level_of);
  const auto p = static_cast<Index>(out.unknowns.size());
  MatrixXd normal = e.design.transpose() * e.design;
  VectorXd right = e.design.transpose() * e.y;
  for (Index i = 0; i < p; ++i)
    if (normal(i, i) == 0) normal(i, i) = 1;  // held at 0
  const VectorXd scale = normal.diagonal().cwiseSqrt().cwiseInverse();
  const Eigen::LDLT<MatrixXd> ldlt(MatrixXd(scale.asDiagonal() * normal * scale.asDiagonal()));
  out.values = scale.cwiseProduct(ldlt.solve(VectorXd(scale.cwiseProduct(right))));
  out.covariance = scale.asDiagonal() * ldlt.solve(MatrixXd::Identity(p, p)) * scale.asDiagonal();
  for (Index i = 0; i < p; ++i)
    if (e.design.col(i).isZero()) {
      out.covariance.row(i).setZero();
      out.covariance.col(i).setZero();
    }
  out.chi_squared = (e.y - e.design * out.values).squaredNorm();
  out.df = static_cast<double>(e.y.size() - e.unknown_count);
  if (out.df > 0) out.chance = chi_squared_upper_p(out.chi_squared, out.df);
  add_values(options, level_of, out);
  add_notes(out);
  return out;
}

std::optional<SplitDifference> machine_difference(const Split& split, const std::string& printer_a, char axis_a,
                                                  const std::string& printer_b, char axis_b) {
  return difference(split, true, printer_a, axis_a, printer_b, axis_b);
}

std::optional<SplitDifference> material_difference(const Split& split, const std::string& material_a,
                                                   const std::string& material_b, bool in_plane) {
  const char axis = in_plane ? 'x' : 'z';
  return difference(split, false, material_a, axis, material_b, axis);
}

}  // namespace fitwright
