#include <nlohmann/json.hpp>

#include "correct/beyond.hpp"
#include "report/estimate_report.hpp"
#include "report/json_text.hpp"

namespace fitwright {
namespace {

Json counts_json(const Counts& counts) {
  return {{"features", counts.features},
          {"copies", counts.copies},
          {"readings", counts.readings},
          {"set_aside", counts.set_aside}};
}

Json parameters_json(const std::vector<Parameter>& parameters) {
  Json list = Json::array();
  for (const Parameter& p : parameters)
    list.push_back({{"name", p.name},
                    {"value", p.value},
                    {"u", p.u},
                    {"df", p.df},
                    {"lower", p.lower},
                    {"upper", p.upper},
                    {"unit", p.unit},
                    {"established", p.established},
                    {"prior", p.prior}});
  return list;
}

Json combinations_json(const std::vector<Combination>& combinations) {
  Json list = Json::array();
  for (const Combination& c : combinations) list.push_back({{"expr", c.expr}, {"value", c.value}, {"u", c.u}});
  return list;
}

Json covariance_json(const Estimates& estimates) {
  Json names = Json::array();
  for (const Parameter& p : estimates.parameters) names.push_back(p.name);
  Json matrix = Json::array();
  for (Eigen::Index i = 0; i < estimates.covariance.rows(); ++i) {
    Json row = Json::array();
    for (Eigen::Index j = 0; j < estimates.covariance.cols(); ++j) row.push_back(estimates.covariance(i, j));
    matrix.push_back(std::move(row));
  }
  return {{"names", std::move(names)}, {"matrix", std::move(matrix)}};
}

Json priors_json(const std::vector<PriorUsed>& priors) {
  Json list = Json::array();
  for (const PriorUsed& p : priors)
    list.push_back({{"parameter", p.parameter}, {"mean", p.mean}, {"sd", p.sd}, {"source", p.source}});
  return list;
}

Json not_separable_json(const std::vector<NotSeparable>& groups) {
  Json list = Json::array();
  for (const NotSeparable& group : groups)
    list.push_back({{"parameters", group.parameters}, {"because", group.because}, {"would_need", group.would_need}});
  return list;
}

Json suspects_json(const std::vector<SuspectReading>& suspects, const ReadingSet& readings) {
  Json list = Json::array();
  for (const SuspectReading& s : suspects) {
    const Reading& reading = readings.rows.at(s.suspect.index);
    list.push_back({{"row", reading.row},
                    {"feature_id", reading.feature.id},
                    {"copy", reading.copy},
                    {"repeat", reading.repeat},
                    {"reading_mm", reading.reading_mm},
                    {"rule", word(s.suspect.rule)},
                    {"proposal_mm", s.suspect.proposal_mm ? Json(*s.suspect.proposal_mm) : Json()},
                    {"used", s.used}});
  }
  return list;
}

Json scatter_json(const std::map<std::string, double>& scatter) {
  Json object = Json::object();
  for (const auto& [what, sd] : scatter) object[what] = sd;
  return object;
}

Json beyond_json(const std::vector<BeyondReadings>& effects) {
  Json list = Json::array();
  for (const BeyondReadings& e : effects)
    list.push_back({{"cause", e.cause + ", " + e.how_much},
                    {"parameter", e.parameter},
                    {"u", e.u},
                    {"unit", e.unit},
                    {"because", e.because},
                    {"do", e.action}});
  return list;
}

Json findings_json(const std::vector<Finding>& findings) {
  Json list = Json::array();
  for (const Finding& f : findings)
    list.push_back(
        {{"id", f.id}, {"severity", word(f.severity)}, {"text", f.text}, {"because", f.because}, {"do", f.action}});
  return list;
}

}  // namespace

std::string estimate_json(const Estimates& estimates, const ReadingSet& readings,
                          const std::vector<Finding>& findings) {
  return json_text({{"schema", report_schema},
                    {"method", estimates.method},
                    {"counts", counts_json(estimates.counts)},
                    {"parameters", parameters_json(estimates.parameters)},
                    {"combinations", combinations_json(estimates.combinations)},
                    {"covariance", covariance_json(estimates)},
                    {"priors", priors_json(estimates.priors)},
                    {"not_separable", not_separable_json(estimates.not_separable)},
                    {"suspects", suspects_json(estimates.suspects, readings)},
                    {"scatter", scatter_json(estimates.scatter)},
                    {"beyond_readings", beyond_json(beyond_readings(estimates, readings))},
                    {"findings", findings_json(findings)}});
}

}  // namespace fitwright
