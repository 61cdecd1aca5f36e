#include "record/kept_estimate.hpp"

#include <nlohmann/json.hpp>

#include "base/json.hpp"
#include "reading/csv.hpp"
#include "record/copy_history.hpp"

namespace fitwright::record {
namespace {

std::string options_text(const EstimateOptions& options) {
  nlohmann::ordered_json sizes = nlohmann::ordered_json::object();
  for (const auto& [id, mm] : options.true_size_mm) sizes[id] = mm;
  const CopyPrior& prior = options.copy_prior;
  return nlohmann::ordered_json{
      {"true_size_mm", std::move(sizes)},
      {"set_suspects_aside", options.set_suspects_aside},
      {"use_priors", options.use_priors},
      {"copy_prior",
       {{"edge_sd_mm", prior.edge_sd_mm}, {"scale_sd", prior.scale_sd}, {"df", prior.df}, {"source", prior.source}}},
  }
      .dump(-1, ' ', false, nlohmann::ordered_json::error_handler_t::replace);
}

}  // namespace

Result<SetupEstimate> estimate_setup(Record& record, const Id& setup, const EstimateSetupOptions& options) {
  auto from = readings_for(record, setup, options.copies);
  if (!from) return from.problems();
  SetupEstimate out;
  out.setup = setup;
  out.options = options.estimate;
  for (const auto& [id, mm] : from->true_size_mm) out.options.true_size_mm.emplace(id, mm);
  out.copy_prior = "typical scatter between copies assumed: " + out.options.copy_prior.source;
  if (options.use_history) {
    const auto kept = one<Setup>(record, setup);
    if (!kept) return kept.problems();
    std::vector<Id> own;
    for (const auto& copy : from->copies) own.push_back(copy.thing);
    const auto history = copy_history(record, kept->value.printer, own);
    if (!history) return history.problems();
    out.options.copy_prior = history->prior;
    if (history->scatter.copies >= copies_for_history)
      out.copy_prior = "scatter between copies from this printer's own history: " + history->prior.source;
    else
      out.copy_prior = "typical scatter between copies assumed, since the record has " +
                       std::to_string(history->scatter.copies) + " earlier copies of this printer to compare (" +
                       std::to_string(copies_for_history) + " are needed): " + history->prior.source;
  }
  auto estimates = estimate(from->readings, out.options);
  if (!estimates) return estimates.problems();
  out.estimates = std::move(*estimates);
  const char apart = '\0';
  out.input_hash =
      content_hash(to_csv(from->readings) + apart + to_json(from->printed_with) + apart + options_text(out.options));
  out.from = std::move(*from);
  return out;
}

Result<Kept<StoredEstimate>> keep_estimate(Record& record, const SetupEstimate& estimate, const std::string& result,
                                           const std::string& program, const std::string& at) {
  StoredEstimate stored;
  stored.setup = estimate.setup;
  stored.input_hash = estimate.input_hash;
  nlohmann::json copies = nlohmann::json::array();
  for (const auto& copy : estimate.from.copies) copies.push_back(copy.thing.text);
  stored.copies = copies.dump();
  stored.state = to_json(estimate.from.printed_with);
  stored.options = options_text(estimate.options);
  stored.method = estimate.estimates.method;
  stored.program = program;
  stored.result = result;
  return guarded(record, [&]() -> Result<Kept<StoredEstimate>> {
    Transaction whole(record.database());
    const auto there = all_of<StoredEstimate>(record, "setup", estimate.setup);
    if (!there) return there.problems();
    for (const auto& kept : *there)
      if (kept.value.input_hash == stored.input_hash && kept.value.program == program && kept.value.result == result)
        return kept;
    auto kept = add(record, stored, at);
    if (kept) whole.commit();
    return kept;
  });
}

Result<State> state_of(const StoredEstimate& estimate) { return parse_state(estimate.state, "record"); }

Result<std::vector<Id>> copies_of(const StoredEstimate& estimate) {
  const auto list = parse_json(estimate.copies, "record");
  if (!list) return list.problems();
  std::vector<Id> out;
  for (const JsonValue& item : list->items) out.push_back({item.string});
  return out;
}

}  // namespace fitwright::record
