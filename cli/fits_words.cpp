#include "fits_words.hpp"

#include "base/file.hpp"
#include "readings.hpp"

namespace fitw {
namespace {

/// How an SQLite file begins.
constexpr std::string_view record_begins = "SQLite format 3";

std::optional<fitwright::RecordBasis> basis_from_record(const FitsSetup& from, Outcome& outcome) {
  auto record = open_for(Use::look, from.path, outcome);
  if (!record) return std::nullopt;
  const auto setup = got(find_setup(*record, from.setup), outcome);
  if (!setup) return std::nullopt;
  auto basis = got(fitwright::allowance_basis_of(*record, setup->thing), outcome);
  if (basis) outcome.notes.insert(outcome.notes.end(), basis->notes.begin(), basis->notes.end());
  return basis;
}

}  // namespace

void declare_fits_setup(Words& words) {
  words.declare("--setup", "NAME", "A setup of the record, instead of a file");
  declare_record(words);
}

std::optional<FitsSetup> take_fits_setup(Words& words, Outcome& outcome) {
  const auto setup = words.text("--setup");
  const auto record = words.text("--record");
  if (!setup) {
    if (record) words.complain("--record is given without --setup", "name a setup: --setup NAME");
    return std::nullopt;
  }
  return FitsSetup{*setup, take_record_path(words, outcome)};
}

std::optional<fitwright::TrialSet> trials_from_record(const FitsSetup& from, Outcome& outcome) {
  auto record = open_for(Use::look, from.path, outcome);
  if (!record) return std::nullopt;
  const auto setup = got(find_setup(*record, from.setup), outcome);
  if (!setup) return std::nullopt;
  return got(fitwright::trials_of(*record, setup->thing), outcome);
}

void declare_basis(Words& words) {
  words.declare("--from", "RECORD_OR_JSON", "What fitw estimate --json wrote, or a record (with --setup)");
  declare_fits_setup(words);
  words.declare("--trials", "TRIALS.csv", "How a fit ladder of this setup felt (fitw ladder --help)");
  words.declare("--state", "STATE.json", "With a JSON: the settings the coupons were printed with");
  words.declare("--now", "STATE.json", "With a JSON: the settings of the part to come, if they differ");
}

BasisRequest take_basis(Words& words, bool needed, Outcome& outcome) {
  BasisRequest out;
  out.from = words.text("--from").value_or("");
  out.trials = words.text("--trials").value_or("");
  out.state = words.text("--state").value_or("");
  out.now = words.text("--now").value_or("");
  const auto setup = words.text("--setup");
  bool is_record = false;
  if (!out.from.empty()) {
    const auto text = fitwright::read_whole(out.from);
    if (!text)
      add(outcome.problems, text.problems());
    else
      is_record = text->starts_with(record_begins);
  }
  if (is_record) {
    if (words.text("--record")) words.complain("--from and --record are two records", "give one of them");
    out.setup = FitsSetup{setup.value_or(""), out.from};
    out.from.clear();
  } else if (out.from.empty()) {
    out.setup = take_fits_setup(words, outcome);
    if (!out.setup && needed)
      words.complain("--from is missing",
                     "give --from ESTIMATE.json (written by fitw estimate --json), or --setup NAME");
  } else if (setup) {
    words.complain("--setup goes with a record, and " + out.from + " is none", "give one of them");
  }
  if (out.setup && (!out.state.empty() || !out.now.empty()))
    words.complain("--state and --now go with a JSON", "the record knows how each copy was printed");
  if (!out.now.empty() && out.state.empty())
    words.complain("--now is given without --state", "give the settings the coupons were printed with too");
  return out;
}

std::optional<fitwright::RecordBasis> read_basis(const BasisRequest& request, Outcome& outcome) {
  std::optional<fitwright::RecordBasis> out;
  if (request.setup) {
    out = basis_from_record(*request.setup, outcome);
  } else {
    out.emplace();
    out->basis.thresholds = fitwright::assumed_thresholds();
    if (!request.from.empty())
      if (auto estimates = read_parsed(request.from, fitwright::parse_estimates, outcome))
        out->basis.estimates = std::move(*estimates);
    if (!request.state.empty())
      if (const auto state = read_parsed(request.state, fitwright::parse_state, outcome))
        out->basis.printed_with = out->basis.now = *state;
    if (!request.now.empty())
      if (const auto state = read_parsed(request.now, fitwright::parse_state, outcome)) out->basis.now = *state;
  }
  if (!request.trials.empty()) {
    const auto trials = read_parsed(request.trials, fitwright::parse_trials, outcome);
    if (!trials || !out) return std::nullopt;
    const auto thresholds = got(fitwright::thresholds_from(*trials, fitwright::clearance_to_use(*trials)), outcome);
    if (!thresholds) return std::nullopt;
    out->trials = *trials;
    out->basis.thresholds = *thresholds;
  }
  if (!outcome.problems.empty()) return std::nullopt;
  return out;
}

}  // namespace fitw
