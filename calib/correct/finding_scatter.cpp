// Findings on scatter: what is bound to the same faces on every copy, and what differs from copy to copy.
#include <algorithm>
#include <cmath>
#include <map>

#include "base/number.hpp"
#include "base/words.hpp"
#include "correct/finding_parts.hpp"
#include "correct/phrase.hpp"
#include "model/priors.hpp"
#include "stats/intervals.hpp"

namespace fitwright {
namespace {

/// Residuals of one flat place over the copies that lay the same way.
struct Place {
  std::string id;
  std::vector<double> residuals;
  [[nodiscard]] double mean() const {
    double sum = 0;
    for (const double r : residuals) sum += r;
    return sum / static_cast<double>(residuals.size());
  }
};

std::vector<Place> repeated_places(const Estimates& e) {
  std::map<std::pair<std::string, int>, Place> places;
  for (const Cell& c : e.cells) {
    const bool in_plane = c.axis == Axis::x || c.axis == Axis::y;
    if ((c.kind != Kind::outer && c.kind != Kind::inner) || !in_plane) continue;
    Place& p = places[{c.feature.id, c.turned_deg}];
    p.id = c.feature.id;
    p.residuals.push_back(c.residual_mm);
  }
  std::vector<Place> out;
  for (auto& [key, place] : places)
    if (place.residuals.size() > 1) out.push_back(std::move(place));
  return out;
}

int length_parameters(const Estimates& e) {
  int n = 0;
  for (const char* p : {name::scale_x, name::scale_y, name::edge_growth, name::caliper_zero}) n += e.find(p) ? 1 : 0;
  return n;
}

/// The same faces off on every copy: analysis of variance of the residuals by place.
void seam_finding(const FindingInput& in, Findings& out) {
  const std::vector<Place> places = repeated_places(in.estimates);
  const int df_between = static_cast<int>(places.size()) - length_parameters(in.estimates);
  if (df_between < 2) return;
  double between = 0, within_places = 0, copies_sum = 0;
  int df_within = 0;
  for (const Place& p : places) {
    const auto n = static_cast<double>(p.residuals.size());
    const double m = p.mean();
    between += n * m * m;
    for (const double r : p.residuals) within_places += (r - m) * (r - m);
    df_within += static_cast<int>(p.residuals.size()) - 1;
    copies_sum += n;
  }
  if (!(within_places > 0)) return;
  constexpr double chance_limit = 0.01;
  const double ms_between = between / df_between;
  const double ms_within = within_places / df_within;
  if (f_upper_p(ms_between / ms_within, df_between, df_within) > chance_limit) return;
  const double bound = std::sqrt((ms_between - ms_within) / (copies_sum / static_cast<double>(places.size())));
  const auto worst = std::max_element(places.begin(), places.end(), [](const Place& a, const Place& b) {
    return std::abs(a.mean()) < std::abs(b.mean());
  });
  out.push_back({"seam", Severity::know,
                 said("The same faces are off on every copy, by {} as a rule and {} at {}: that is the seam or ripple, "
                      "not noise.",
                      mm(bound), signed_mm(worst->mean()), worst->id),
                 said("places keep their deviation from copy to copy, with a scatter of only {} about it",
                      mm(std::sqrt(ms_within))),
                 tr("turn the next copy by 90 degrees: more copies laid the same way do not average it out")});
}

void copies_finding(const FindingInput& in, Findings& out) {
  struct Item {
    const char* scatter;
    double usual;
  };
  const Estimates& e = in.estimates;
  if (e.counts.copies < 2) return;
  const double df = e.counts.copies - 1;
  constexpr double level = 0.95;
  for (const Item item : {Item{"copy_edge_mm", prior::copy_edge_sd_mm}, Item{"copy_scale", prior::copy_scale_sd}}) {
    const auto found = e.scatter.find(item.scatter);
    if (found == e.scatter.end()) continue;
    const double ratio = found->second / item.usual;
    if (ratio * ratio * df <= chi_squared_quantile(level, df)) continue;
    const bool edge = item.usual == prior::copy_edge_sd_mm;
    const std::string much = edge ? said("{} in edge growth", mm(found->second))
                                  : said("{} on {}", mm(in.on_length(found->second)), length(in.options.length_mm));
    const std::string usual = edge ? mm(item.usual) : mm(in.on_length(item.usual));
    out.push_back({"copies-differ", Severity::know,
                   said("Copies differ more than usual: {}, where {} is usual.", much, usual),
                   said("standard deviation between {}", copies(e.counts.copies)),
                   tr("look at the filament: diameter, damp, temperature; then print again")});
  }
}

}  // namespace

void scatter_findings(const FindingInput& in, Findings& out) {
  seam_finding(in, out);
  copies_finding(in, out);
}

}  // namespace fitwright
