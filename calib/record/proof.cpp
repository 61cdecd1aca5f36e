#include "record/proof.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <nlohmann/json.hpp>

#include "base/number.hpp"
#include "base/words.hpp"
#include "correct/phrase.hpp"
#include "correct/remaining.hpp"
#include "record/reading_set.hpp"
#include "stats/intervals.hpp"

namespace fitwright::record {
namespace {

constexpr double long_mm = 100, slot_mm = 20;  // lengths of the places (docs/formats.md, remains_mm)

/// The errors that the readings of the proof print show, for lengths in the state it was printed with.
UncertainErrors errors_of(const Estimates& estimates) {
  UncertainErrors out;
  out.value.fit = {estimates.value_or(name::scale_x, 0), estimates.value_or(name::scale_y, 0),
                   estimates.value_or(name::edge_growth, 0)};
  out.df.fill(1e9);  // of what is certain; remaining() takes those of the estimates from their parts
  constexpr std::array<const char*, 3> names{name::scale_x, name::scale_y, name::edge_growth};
  for (std::size_t i = 0; i < names.size(); ++i)
    for (std::size_t j = 0; j < names.size(); ++j) out.covariance[i][j] = estimates.cov(names[i], names[j]);
  return out;
}

/// Errors of the places if the correction is taken back, from what it is foretold to leave. Length and slot of an axis
/// give its gain and its edge growth in the state after; the algebra of states gives them in the state before.
std::map<std::string, double> without(const Correction& c) {
  std::map<std::string, double> out;
  const auto fit_of = [&](const std::string& axis) -> std::optional<PlanarFit> {
    const auto whole = c.remains_mm.find(axis + "100"), slot = c.remains_mm.find("slot_" + axis + "20");
    if (whole == c.remains_mm.end() || slot == c.remains_mm.end()) return std::nullopt;
    const double scale = (whole->second.value + slot->second.value) / (long_mm + slot_mm);
    return PlanarFit{scale, scale, (whole->second.value - long_mm * scale) / 2};
  };
  const auto fit_x = fit_of("x"), fit_y = fit_of("y");
  for (const std::string axis : {"x", "y"}) {
    const auto& own = axis == "x" ? fit_x : fit_y;
    const auto& other = axis == "x" ? fit_y : fit_x;
    if (!own) continue;
    PlanarFit fit = *own;
    if (other) (axis == "x" ? fit.scale_y : fit.scale_x) = other->scale_x;
    const PlanarOutcome before = outcome(c.after, c.before, fit);
    const double gain = axis == "x" ? before.gain_x : before.gain_y;
    const double edge = axis == "x" ? before.edge_x_mm : before.edge_y_mm;
    out[axis + "100"] = long_mm * (gain - 1) + 2 * edge;
    out["slot_" + axis + "20"] = slot_mm * (gain - 1) - 2 * edge;
  }
  return out;
}

std::string place_words(const std::string& place) {
  const bool slot = place.starts_with("slot_");
  const std::string axis = axis_name(place[slot ? 5 : 0]);
  return slot ? said("a slot of 20 mm along {}", axis) : said("100 mm along {}", axis);
}

double drawn_mm(const std::string& place) { return place.starts_with("slot_") ? slot_mm : long_mm; }

std::string shown(double length_mm) { return said_fixed(length_mm, 2); }

/// "100 mm along X: foretold 100.00 ± 0.05, measured 100.02"
std::string figures(const ProofPlace& p) {
  const double drawn = drawn_mm(p.place);
  return said("{}: foretold {} ± {}, measured {}", place_words(p.place), shown(drawn + p.foretold_mm), shown(p.half_mm),
              shown(drawn + p.measured_mm));
}

void judge(Proof& proof) {
  const auto worst = std::max_element(proof.places.begin(), proof.places.end(), [](const auto& a, const auto& b) {
    return std::abs(a.measured_mm - a.foretold_mm) / a.half_mm < std::abs(b.measured_mm - b.foretold_mm) / b.half_mm;
  });
  const auto clearest = std::max_element(proof.places.begin(), proof.places.end(), [](const auto& a, const auto& b) {
    return std::abs(a.measured_mm - a.without_mm) / a.half_mm < std::abs(b.measured_mm - b.without_mm) / b.half_mm;
  });
  const std::string count = std::to_string(proof.places.size());
  if (!worst->inside) {
    proof.verdict = Verdict::not_proved;
    proof.text = said("Not proved: {}.", figures(*worst));
    proof.action =
        tr("look for a knob that was not turned, or turned twice; if there is none, withdraw the correction");
  } else if (clearest->tells) {
    proof.verdict = Verdict::proved;
    proof.text = said("Proved: {}, and all {} places are within.", figures(*clearest), count);
    proof.action = tr("keep it: this setup prints as foretold");
  } else {
    proof.verdict = Verdict::cannot_tell;
    proof.text = said("All {} places are as foretold, but so they would be without the correction: {}, without it {}.",
                      count, figures(*clearest), shown(drawn_mm(clearest->place) + clearest->without_mm));
    proof.action = tr("keep it, or print the coupon once more, turned by 90 degrees, to tell");
  }
}

}  // namespace

std::string_view word(Verdict verdict) {
  switch (verdict) {
    case Verdict::proved:
      return "proved";
    case Verdict::not_proved:
      return "not proved";
    case Verdict::cannot_tell:
      return "cannot tell";
  }
  return "?";
}

Result<Proof> held_against(const Correction& c, const ReadingSet& readings, const EstimateOptions& options) {
  if (c.remains_mm.empty())
    return Problem{Code::unanswerable,
                   {},
                   tr("nothing was foretold for this correction: no lengths can be held against it"),
                   tr("print the coupon with the settings in force and estimate anew")};
  const auto estimates = estimate(readings, options);
  if (!estimates) return estimates.problems();
  const bool edge = estimates->find(name::edge_growth) != nullptr;
  const auto measured =
      remaining(c.after, c.after, *estimates, errors_of(*estimates), beyond_readings(*estimates, readings));
  const auto uncorrected = without(c);

  Proof proof;
  for (const auto& [place, foretold] : c.remains_mm) {
    const bool along_x = place.find('x') != std::string::npos;
    const auto found = measured.find(place);
    if (!edge || !estimates->find(along_x ? name::scale_x : name::scale_y) || found == measured.end()) continue;
    const Remains& is = found->second;
    ProofPlace p;
    p.place = place;
    p.foretold_mm = foretold.value;
    p.measured_mm = is.value;
    p.without_mm = uncorrected.contains(place) ? uncorrected.at(place) : foretold.value;
    p.u_foretold_mm = foretold.u_with_surroundings;
    p.u_measured_mm = is.u_with_surroundings;
    const std::array<Contribution, 2> both{{{p.u_foretold_mm, foretold.df}, {p.u_measured_mm, is.df}}};
    p.df = welch_satterthwaite_df(both);
    p.half_mm = std::hypot(foretold.half_with_surroundings_mm, is.half_with_surroundings_mm);
    if (!std::isfinite(p.half_mm) || !(p.half_mm > 0)) continue;
    proof.places.push_back(p);
  }
  if (proof.places.empty())
    return Problem{Code::unanswerable,
                   {readings.source, 0, 0},
                   tr("the proof print tells none of the lengths that were foretold"),
                   tr("measure the frame coupon: outsides and slots of several lengths on both axes")};
  for (ProofPlace& p : proof.places) {
    p.inside = std::abs(p.measured_mm - p.foretold_mm) <= p.half_mm;
    p.tells = std::abs(p.measured_mm - p.without_mm) > p.half_mm;
  }
  proof.because = said(
      "{}; intervals of 95 %, with the uncertainty of what was foretold and of the proof print, "
      "temperature and jaw force included",
      rests_on(*estimates));
  judge(proof);
  return proof;
}

namespace {

std::string proof_text(const Proof& proof, const std::vector<Id>& copies) {
  nlohmann::ordered_json places = nlohmann::ordered_json::array();
  for (const ProofPlace& p : proof.places)
    places.push_back({{"place", p.place},
                      {"foretold_mm", p.foretold_mm},
                      {"without_mm", p.without_mm},
                      {"measured_mm", p.measured_mm},
                      {"u_foretold_mm", p.u_foretold_mm},
                      {"u_measured_mm", p.u_measured_mm},
                      {"half_mm", p.half_mm},
                      {"inside", p.inside}});
  nlohmann::ordered_json ids = nlohmann::ordered_json::array();
  for (const Id& id : copies) ids.push_back(id.text);
  return nlohmann::ordered_json{{"verdict", word(proof.verdict)}, {"places", places}, {"copies", ids}}.dump();
}

}  // namespace

std::optional<Proof> proof_from(const std::string& detail) {
  const auto json = nlohmann::ordered_json::parse(detail, nullptr, false);
  if (!json.is_object() || !json.contains("verdict") || !json.contains("places")) return std::nullopt;
  const auto number = [](const nlohmann::ordered_json& of, const char* key) {
    const auto found = of.find(key);
    return found != of.end() && found->is_number() ? found->get<double>() : 0.0;
  };
  Proof proof;
  for (const Verdict verdict : {Verdict::proved, Verdict::not_proved, Verdict::cannot_tell})
    if (json["verdict"] == std::string(word(verdict))) proof.verdict = verdict;
  for (const auto& place : json["places"]) {
    if (!place.is_object() || !place.contains("place") || !place["place"].is_string()) continue;
    ProofPlace p;
    p.place = place["place"].get<std::string>();
    p.foretold_mm = number(place, "foretold_mm");
    p.without_mm = number(place, "without_mm");
    p.measured_mm = number(place, "measured_mm");
    p.u_foretold_mm = number(place, "u_foretold_mm");
    p.u_measured_mm = number(place, "u_measured_mm");
    p.half_mm = number(place, "half_mm");
    p.inside = std::abs(p.measured_mm - p.foretold_mm) <= p.half_mm;
    p.tells = std::abs(p.measured_mm - p.without_mm) > p.half_mm;
    proof.places.push_back(p);
  }
  return proof;
}

namespace {

/// A correction that may be proved: applied, and foretold.
Result<CorrectionLife> to_be_proved(Record& record, const Id& correction) {
  auto life = life_of(record, correction);
  if (!life) return life;
  if (life->standing == Standing::applied || life->standing == Standing::proved) return life;
  return Problem{
      Code::unanswerable,
      {},
      said("this correction is {}: only one in force can be proved", tr(std::string(word(life->standing)).c_str())),
      life->standing == Standing::proposed ? tr("apply it, print the coupon again and measure that")
                                           : tr("propose a new one")};
}

/// Keeps the outcome: an event when proved, else words about the correction.
/// The verdict in the words of the record.
std::string words_kept(Proof proof) {
  const InFileWords plain;
  judge(proof);
  return proof.text;
}

Result<ProofKept> kept(Record& record, CorrectionLife life, Proof proof, std::vector<Id> copies,
                       const StepOptions& options) {
  const Id correction = life.correction.thing;
  std::string at = options.at;
  if (at.empty()) at = now_utc();
  if (!life.events.empty() && at <= life.events.back().at) at = just_after(life.events.back().at);
  const std::string detail = proof_text(proof, copies);
  const bool told = std::any_of(life.events.begin(), life.events.end(),
                                [&](const auto& event) { return event.value.detail == detail; });
  if (proof.verdict == Verdict::proved && !told) {
    CorrectionEvent event;
    event.correction = correction;
    event.what = "proved";
    event.reason = options.reason.empty() ? words_kept(proof) : options.reason;
    event.detail = detail;
    if (const auto added = add(record, event, at); !added) return added.problems();
  } else if (proof.verdict != Verdict::proved) {
    Remark remark;
    remark.about = correction;
    remark.words = words_kept(proof);
    if (const auto added = add(record, remark, at); !added) return added.problems();
  }
  auto now = life_of(record, correction);
  if (!now) return now.problems();
  return ProofKept{std::move(proof), std::move(*now), std::move(copies)};
}

/// Copies of the setup that were printed in the state that the correction gives, after it was applied.
Result<std::vector<Id>> printed_after(Record& record, const CorrectionLife& life, const State& after) {
  const auto copies = all_of<Copy>(record, "setup", life.correction.value.setup);
  if (!copies) return copies.problems();
  std::vector<Id> out;
  for (const auto& copy : *copies) {
    const auto state = parse_state(copy.value.state.empty() ? "{}" : copy.value.state, "record");
    if (!state || !differences(*state, after).empty()) continue;
    const auto readings = all_of<StoredReading>(record, "copy", copy.thing);
    if (!readings) return readings.problems();
    if (!readings->empty()) out.push_back(copy.thing);
  }
  return out;
}

}  // namespace

Result<ProofKept> prove(Record& record, const Id& correction, const std::vector<Id>& copies,
                        const StepOptions& options) {
  return guarded(record, [&]() -> Result<ProofKept> {
    Transaction whole(record.database());
    auto life = to_be_proved(record, correction);
    if (!life) return life.problems();
    const auto content = correction_from(life->correction.value);
    if (!content) return content.problems();
    std::vector<Id> taken = copies;
    if (taken.empty()) {
      auto found = printed_after(record, *life, content->after);
      if (!found) return found.problems();
      taken = std::move(*found);
      if (taken.empty())
        return Problem{Code::unanswerable,
                       {},
                       tr("no copy printed with the settings of this correction was read yet"),
                       tr("print the coupon with the settings in force, measure it, and prove by that")};
    }
    const auto from = readings_for(record, life->correction.value.setup, taken);
    if (!from) return from.problems();
    if (const auto differing = differences(from->printed_with, content->after); !differing.empty() && !options.force)
      return Problem{
          Code::unanswerable,
          {},
          said("the proof print was printed with other settings than this correction gives: {}", in_words(differing)),
          tr("print the coupon with the settings of the correction")};
    EstimateOptions estimating;
    estimating.true_size_mm = from->true_size_mm;
    auto proof = held_against(*content, from->readings, estimating);
    if (!proof) return proof.problems();
    auto out = kept(record, std::move(*life), std::move(*proof), std::move(taken), options);
    if (out) whole.commit();
    return out;
  });
}

Result<ProofKept> prove(Record& record, const Id& correction, const ReadingSet& readings, const StepOptions& options) {
  return guarded(record, [&]() -> Result<ProofKept> {
    Transaction whole(record.database());
    auto life = to_be_proved(record, correction);
    if (!life) return life.problems();
    const auto content = correction_from(life->correction.value);
    if (!content) return content.problems();
    auto proof = held_against(*content, readings);
    if (!proof) return proof.problems();
    auto out = kept(record, std::move(*life), std::move(*proof), {}, options);
    if (out) whole.commit();
    return out;
  });
}

}  // namespace fitwright::record
