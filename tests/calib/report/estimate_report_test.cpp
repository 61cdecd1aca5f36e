#include "report/estimate_report.hpp"

#include <catch2/catch.hpp>
#include <sstream>

#include "base/text.hpp"
#include "json_keys.hpp"
#include "report/layout.hpp"
#include "sample.hpp"

using namespace fitwright;

TEST_CASE("estimates as JSON have the documented keys in the documented order") {
  const Sample s = sample();
  const std::string text = estimate_json(s.estimates, s.readings, s.findings);
  CHECK(text.ends_with("}\n"));
  const Json doc = Json::parse(text);
  CHECK(keys(doc) == Names{"schema", "method", "counts", "parameters", "combinations", "covariance", "priors",
                           "not_separable", "suspects", "scatter", "beyond_readings", "findings"});
  CHECK(doc["schema"] == 1);
  CHECK(keys(doc["counts"]) == Names{"features", "copies", "readings", "set_aside"});
  CHECK(keys(doc["parameters"][0]) ==
        Names{"name", "value", "u", "df", "lower", "upper", "unit", "established", "prior"});
  CHECK(keys(doc["combinations"][0]) == Names{"expr", "value", "u"});
  CHECK(keys(doc["covariance"]) == Names{"names", "matrix"});
  CHECK(keys(doc["priors"][0]) == Names{"parameter", "mean", "sd", "source"});
  CHECK(keys(doc["not_separable"][0]) == Names{"parameters", "because", "would_need"});
  CHECK(keys(doc["suspects"][0]) ==
        Names{"row", "feature_id", "copy", "repeat", "reading_mm", "rule", "proposal_mm", "used"});
  CHECK(keys(doc["beyond_readings"][0]) == Names{"cause", "parameter", "u", "unit", "because", "do"});
  CHECK(keys(doc["findings"][0]) == Names{"id", "severity", "text", "because", "do"});
}

TEST_CASE("numbers in JSON read back to the very same numbers") {
  const Sample s = sample();
  const Json doc = Json::parse(estimate_json(s.estimates, s.readings, s.findings));
  for (std::size_t i = 0; i < s.estimates.parameters.size(); ++i) {
    const Parameter& p = s.estimates.parameters[i];
    CHECK(doc["parameters"][i]["value"].get<double>() == p.value);
    CHECK(doc["parameters"][i]["u"].get<double>() == p.u);
    CHECK(doc["covariance"]["names"][i] == p.name);
    for (std::size_t j = 0; j < s.estimates.parameters.size(); ++j)
      CHECK(doc["covariance"]["matrix"][i][j].get<double>() ==
            s.estimates.covariance(static_cast<Eigen::Index>(i), static_cast<Eigen::Index>(j)));
  }
  CHECK(doc["parameters"][2]["df"].is_null());  // unlimited: JSON has no word for it
}

TEST_CASE("suspects are told by the line they stand on, with and without a proposal") {
  const Sample s = sample();
  const Json suspects = Json::parse(estimate_json(s.estimates, s.readings, s.findings))["suspects"];
  REQUIRE(suspects.size() == 2);
  CHECK(suspects[0]["row"] == 17);
  CHECK(suspects[0]["rule"] == "entry");
  CHECK(suspects[0]["proposal_mm"] == 40.1);
  CHECK(suspects[0]["used"] == false);
  CHECK(suspects[1]["rule"] == "repeat");
  CHECK(suspects[1]["proposal_mm"].is_null());
  CHECK(suspects[1]["used"] == true);
}

TEST_CASE("names that are not UTF-8 do not stop a report") {
  Sample s = sample();
  s.readings.rows[0].feature.id =
      "X\xff"
      "40";
  CHECK_NOTHROW(Json::parse(estimate_json(s.estimates, s.readings, s.findings)));
}

TEST_CASE("empty estimates still make a whole document") {
  const Json doc = Json::parse(estimate_json({}, {}, {}));
  CHECK(doc["parameters"].is_array());
  CHECK(doc["covariance"]["matrix"].is_array());
  CHECK(doc["scatter"].is_object());
}

TEST_CASE("text tells findings first, then the table, then what it rests on") {
  const Sample s = sample();
  const std::string text = estimate_text(s.estimates, s.readings, s.findings);
  std::size_t at = 0;
  for (const char* piece :
       {"slate14.csv: 125 readings of 31 features on 2 copies, 1 set aside", "X is 0.35 % short",
        "Because: measured on 8 outside lengths", "Do: set the size factor", "scale along X", "-0.351  0.048",
        "temperature of the part, 3 K:", "0.007 mm an edge", "edge growth and caliper zero: only outside lengths",
        "It would need: slots", "2 × edge growth + caliper zero  0.165  0.021  mm",
        "caliper zero about 0 mm, standard deviation 0.02 mm: typical", "line 17: X40, copy 2, repeat 1: 4.01",
        "(decimal point shifted); set aside", "(drawn 40)", "counted all the same", "two strata"}) {
    INFO(piece << "\n" << text);
    const std::size_t found = text.find(piece, at);
    REQUIRE(found != std::string::npos);
    at = found;
  }
  std::istringstream lines(text);
  for (std::string line; std::getline(lines, line);) CHECK(characters(line) <= page_width);
}

TEST_CASE("text leaves out the parts that have nothing to say") {
  Sample s = sample();
  s.estimates.priors.clear();
  s.estimates.suspects.clear();
  s.estimates.not_separable.clear();
  s.estimates.combinations.clear();
  s.estimates.parameters.pop_back();  // the one with a prior
  const std::string text = estimate_text(s.estimates, s.readings, {});
  for (const char* heading : {"What it means", "Assumed", "Suspect", "Cannot", "Known only", "typical value"})
    CHECK(text.find(heading) == std::string::npos);
}
