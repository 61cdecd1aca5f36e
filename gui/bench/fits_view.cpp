#include "bench/fits_view.hpp"

#include <algorithm>
#include <array>
#include <map>

#include "base/number.hpp"
#include "base/words.hpp"
#include "bench/printed_parts.hpp"
#include "bench/shown.hpp"
#include "design/advice.hpp"
#include "design/design.hpp"

namespace fitwright {
namespace {

using record::Id;
using record::Kept;

constexpr int curve_points = 121;
constexpr double curve_beyond_mm = 0.15;  ///< shown beyond the outermost thresholds and trials
constexpr double per_cent = 100;
constexpr double label_above = 6;   ///< per cent above a curve's top
constexpr double mark_apart = 1.2;  ///< widths of a mark between trials of one place
constexpr int clearance_decimals = 2;

struct GradeLook {
  Ink ink;
  Shape shape;
};
const GradeLook& look_of(Grade grade) {
  static const std::array<GradeLook, grade_count> all{{{Ink::y, Shape::cross},
                                                       {Ink::hole, Shape::square},
                                                       {Ink::z, Shape::diamond},
                                                       {Ink::x, Shape::disc},
                                                       {Ink::peg, Shape::triangle}}};
  return all[static_cast<std::size_t>(grade)];
}

std::string in_line(const Problems& problems) {
  std::string text;
  for (const Problem& p : problems)
    text += (text.empty() ? "" : " ") + capitalised(p.what + (p.remedy.empty() ? "." : ": " + p.remedy + "."));
  return text;
}

/// Mean of what was read of each feature of a copy; along X and Y alike, as repeats are read.
Result<std::map<std::string, double>> means_of(record::Record& record, const Id& copy) {
  const auto all = record::all_of<record::StoredReading>(record, "copy", copy);
  if (!all) return all.problems();
  std::map<std::string, std::pair<double, int>> sums;
  for (const auto& kept : *all)
    if (kept.value.reading_mm) {
      auto& [sum, count] = sums[kept.value.feature_id];
      sum += *kept.value.reading_mm, ++count;
    }
  std::map<std::string, double> means;
  for (const auto& [id, sum] : sums) means[id] = sum.first / sum.second;
  return means;
}

std::optional<double> measured(const std::map<std::string, double>& means, const std::string& place,
                               const std::string& mate) {
  const auto a = means.find(place), b = means.find(mate);
  if (a == means.end() || b == means.end()) return std::nullopt;
  return a->second - b->second;
}

/// Designs with places to be tried. Asked before a coupon is made again, which takes a moment.
bool is_tried(const std::string& design) {
  constexpr std::array<std::string_view, 3> designs{"rail", "tongue", "pockets"};
  return std::find(designs.begin(), designs.end(), design) != designs.end();
}

/// The ladder of a copy, without its trials.
Ladder ladder_of(const Kept<record::Copy>& copy, const Coupon& coupon, const std::map<std::string, double>& means) {
  Ladder ladder;
  ladder.copy = copy.thing;
  ladder.name = said("{}, print {}", capitalised(tr(coupon.design.c_str())), copy.value.print);
  ladder.part = coupon.trials.part;
  ladder.size_mm = coupon.trials.size_mm;
  ladder.before = before_trying(coupon);
  ladder.cautions = trying_cautions(coupon);
  std::vector<std::string> mates = coupon.trials.mates;
  if (mates.empty()) mates.emplace_back();
  for (const std::string& mate : mates)
    for (auto place = coupon.trials.places.rbegin(); place != coupon.trials.places.rend(); ++place)
      ladder.places.push_back({place->id, mate, place->clearance_mm, measured(means, place->id, mate), {}});
  return ladder;
}

Result<std::vector<Ladder>> ladders_of(record::Record& record, const Id& setup) {
  const auto copies = record::all_of<record::Copy>(record, "setup", setup);
  if (!copies) return copies.problems();
  std::vector<Ladder> ladders;
  for (const Kept<record::Copy>& copy : *copies) {
    const auto made = record::one<record::MadeCoupon>(record, copy.value.coupon);
    if (!made) return made.problems();
    if (!is_tried(made->value.design)) continue;
    const auto coupon = coupon_again(made->value);
    if (!coupon) continue;
    const auto means = means_of(record, copy.thing);
    if (!means) return means.problems();
    ladders.push_back(ladder_of(copy, *coupon, *means));
  }
  std::reverse(ladders.begin(), ladders.end());
  return ladders;
}

/// Puts the setup's trials to their places.
Result<Done> put_trials(record::Record& record, const Id& setup, std::vector<Ladder>& ladders) {
  const auto trials = record::all_of<record::Trial>(record, "setup", setup);
  if (!trials) return trials.problems();
  for (Ladder& ladder : ladders)
    for (LadderPlace& place : ladder.places) {
      place.trial.reset();
      for (const auto& trial : *trials)
        if (trial.value.copy == ladder.copy && trial.value.feature_id == place.id && trial.value.note == place.mate)
          place.trial = trial;
    }
  return Done{};
}

PlotAxis clearance_axis(double from, double to, bool measured_used) {
  constexpr int ticks = 8;
  return {from, to, nice_ticks(from, to, ticks, true),
          measured_used ? tr("measured clearance, mm") : tr("drawn clearance, mm")};
}

}  // namespace

std::size_t Ladder::next() const {
  const auto open = std::find_if(places.begin(), places.end(), [](const LadderPlace& p) { return !p.trial; });
  return static_cast<std::size_t>(open - places.begin());
}

PlotScene chance_plot(const Thresholds& thresholds, const std::vector<FitTrial>& trials) {
  const bool by_measured = thresholds.used == ClearanceUsed::measured;
  const auto clearance = [&](const FitTrial& t) {
    return by_measured && t.measured_clearance_mm ? *t.measured_clearance_mm : t.clearance_mm;
  };
  double from = thresholds.t_mm.front().value, to = thresholds.t_mm.back().value;
  for (const FitTrial& t : trials) from = std::min(from, clearance(t)), to = std::max(to, clearance(t));
  from -= curve_beyond_mm, to += curve_beyond_mm;
  const ChanceCurve curve = chance_curve(thresholds, from, to, curve_points);
  PlotScene scene;
  scene.title = tr("How likely each grade is, over clearance");
  scene.x = clearance_axis(from, to, by_measured && !thresholds.assumed);
  if (thresholds.assumed) scene.x.title = tr("clearance, mm");
  scene.y = {-4, 116, {}, tr("chance, %")};
  for (const int tick : {0, 25, 50, 75, 100})
    scene.y.ticks.push_back({static_cast<double>(tick), std::to_string(tick)});
  for (int g = 0; g < grade_count; ++g) {
    const auto grade = static_cast<Grade>(g);
    const std::vector<double>& chance = curve.chance[static_cast<std::size_t>(g)];
    PlotLine line{{}, look_of(grade).ink, thresholds.assumed};
    std::size_t top = 0;
    for (std::size_t i = 0; i < chance.size(); ++i) {
      line.points.push_back({curve.clearance_mm[i], per_cent * chance[i]});
      if (chance[i] > chance[top] + 1e-9) top = i;
    }
    // The outermost curves are flat at their ends: their numbers stand a little inside. Words would cover each other;
    // they stand on the keys of the grades.
    const std::size_t last = chance.size() - 1;
    const std::size_t at = g == 0 ? last / 40 : g == grade_count - 1 ? last - last / 40 : top;
    scene.labels.push_back(
        {{curve.clearance_mm[at], per_cent * chance[at] + label_above}, std::to_string(g), look_of(grade).ink, false});
    scene.lines.push_back(std::move(line));
  }
  std::map<std::pair<double, int>, int> there;
  for (std::size_t i = 0; i < trials.size(); ++i) {
    const FitTrial& t = trials[i];
    const double at = clearance(t);
    const auto chance = chances(thresholds, at)[static_cast<std::size_t>(t.grade)];
    const int earlier = there[{at, static_cast<int>(t.grade)}]++;
    scene.marks.push_back(
        {{at, per_cent * chance},
         look_of(t.grade).ink,
         look_of(t.grade).shape,
         said("{} mm, copy {}: {}, {}", shown_signed(at, 3), t.copy, static_cast<int>(t.grade), tr(felt(t.grade))),
         {i},
         mark_apart * earlier});
  }
  scene.said = trials.empty()
                   ? std::string(tr("Chance of each grade over clearance as is commonly assumed; no trial yet."))
                   : said_many("Chance of each grade over clearance, with {} trial on the curves.",
                               "Chance of each grade over clearance, with {} trials on the curves.", trials.size());
  return scene;
}

std::vector<std::string> threshold_words(const Thresholds& thresholds) {
  std::vector<std::string> told;
  if (thresholds.assumed)
    told.emplace_back(
        tr("No trials yet: these thresholds are common practice, no source, with a wide spread. Try a ladder, and they "
           "become those of this setup."));
  else
    told.push_back(said_many("From {} trial:", "From {} trials:", static_cast<std::size_t>(thresholds.trials)));
  for (int k = 0; k < threshold_count; ++k) {
    const Ranged& t = thresholds.t_mm[static_cast<std::size_t>(k)];
    told.push_back(said("Up to {} mm (95 %: {} to {}): {}.", shown_signed(t.value, clearance_decimals),
                        shown_signed(t.lower, clearance_decimals), shown_signed(t.upper, clearance_decimals),
                        tr(felt(static_cast<Grade>(k)))));
  }
  told.push_back(said("Beyond: {}.", tr(felt(Grade::rattles))));
  if (!thresholds.assumed) told.push_back(why_this_clearance(thresholds));
  for (const Contradiction& c : thresholds.contradictions) told.push_back(c.text);
  told.insert(told.end(), thresholds.notes.begin(), thresholds.notes.end());
  for (std::string& line : told) line = typeset(line);
  return told;
}

Result<FitsView> fits_view(record::Record& record, const Id& setup, const FitsView* before) {
  FitsView view;
  if (setup.empty()) {
    view.empty =
        tr("Here stands what to draw so that parts go together. Put a setup on the bench first (Setup): a fit belongs "
           "to a "
           "printer and a material.");
    return view;
  }
  auto ladders = before ? Result<std::vector<Ladder>>(before->ladders) : ladders_of(record, setup);
  if (!ladders) return ladders.problems();
  view.ladders = *std::move(ladders);
  if (const auto put = put_trials(record, setup, view.ladders); !put) return put.problems();
  if (view.ladders.empty())
    view.no_ladder = tr(
        "No coupon to be tried is printed yet. Make a rail, a tongue or pockets (Make), print it and press \u201cIt is "
        "printed\u201d: its places then stand here, to be graded with the keys 0 to 4.");
  view.thresholds = assumed_thresholds();
  std::vector<FitTrial> rows;
  const auto trials = trials_of(record, setup);
  if (trials) {
    rows = trials->rows;
    const auto thresholds = thresholds_from(*trials, clearance_to_use(*trials));
    if (!thresholds) return thresholds.problems();
    view.thresholds = *thresholds;
  }
  if (before) {
    view.basis = before->basis, view.no_basis = before->no_basis;
    if (view.basis) {
      view.basis->basis.thresholds = view.thresholds;
      view.basis->trials = trials ? std::optional(*trials) : std::nullopt;
    }
  } else if (const auto basis = allowance_basis_of(record, setup)) {
    view.basis = *basis;
  } else {
    view.no_basis = in_line(basis.problems());
  }
  view.curves = chance_plot(view.thresholds, rows);
  view.told = threshold_words(view.thresholds);
  return view;
}

Result<Done> grade_place(Bench& bench, const Ladder& ladder, std::size_t place, Grade grade) {
  if (!bench.setup() || place >= ladder.places.size()) throw std::logic_error("grade_place: no such place");
  const LadderPlace& p = ladder.places[place];
  record::Record& record = bench.record();
  record::Trial trial;
  trial.setup = bench.setup()->setup.thing;
  trial.copy = ladder.copy;
  trial.feature_id = p.id;
  trial.clearance_mm = p.clearance_mm;
  trial.grade = static_cast<int>(grade);
  trial.measured_clearance_mm = p.measured_mm;
  trial.diameter_mm = ladder.size_mm;
  trial.note = p.mate;
  RecordStep step;
  step.label = p.mate.empty() ? said("grade of {}", p.id) : said("grade of {} with {}", p.id, p.mate);
  // Each step looks the trial up as it is then: other steps amend the same one.
  if (p.trial) {
    const Id thing = p.trial->thing;
    const auto turn_to = [&record, thing](const record::Trial& value, const char* why) -> Result<Done> {
      const auto now = record::one<record::Trial>(record, thing);
      if (!now) return now.problems();
      const auto kept = record::amend(record, *now, value, why);
      if (!kept) return kept.problems();
      return Done{};
    };
    if (auto graded = turn_to(trial, "graded anew"); !graded) return graded;
    step.undo = [turn_to, before = p.trial->value] { return turn_to(before, "taken back"); };
    step.redo = [turn_to, trial] { return turn_to(trial, "done again"); };
  } else {
    const auto kept = record::add(record, trial);
    if (!kept) return kept.problems();
    const Id thing = kept->thing;
    step.undo = [&record, thing]() -> Result<Done> {
      const auto now = record::one<record::Trial>(record, thing);
      if (!now) return now.problems();
      return record::end(record, *now, "taken back");
    };
    step.redo = [&record, thing]() -> Result<Done> {
      const auto again = record::take_up_again<record::Trial>(record, thing, "done again");
      if (!again) return again.problems();
      return Done{};
    };
  }
  bench.made(std::move(step));
  return Done{};
}

}  // namespace fitwright
