#pragma once
// Fits: the places of printed ladders to be tried, what the trials say, and the answer to "what do you want to fit?".

#include <optional>
#include <string>
#include <vector>

#include "base/result.hpp"
#include "bench/bench.hpp"
#include "bench/scene.hpp"
#include "fits/allowance.hpp"
#include "fits/basis.hpp"
#include "fits/trials.hpp"

namespace fitwright {

/// A place of a ladder tried with one part.
struct LadderPlace {
  std::string id;    ///< as engraved
  std::string mate;  ///< "P8a"; empty for a bought part
  double clearance_mm = 0;
  std::optional<double> measured_mm;  ///< from the readings of both, where there are any
  std::optional<record::Kept<record::Trial>> trial;
};

/// A printed copy of a coupon with places to be tried, in the order to try them: part by part, loosest first.
struct Ladder {
  record::Id copy;
  std::string name;  ///< "Rail, print 2"
  std::string part;  ///< what goes in
  double size_mm = 0;
  std::vector<LadderPlace> places;
  std::vector<std::string> before, cautions;  ///< of trying it
  /// The first place without a grade; the number of places when all have one.
  [[nodiscard]] std::size_t next() const;
};

struct FitsView {
  std::string empty;                 ///< without a setup: what will be here and the one step that fills it
  std::vector<Ladder> ladders;       ///< the newest first
  std::string no_ladder;             ///< what to print, when there is none
  Thresholds thresholds;             ///< from the trials, or those assumed
  PlotScene curves;                  ///< chance of each grade over clearance, the trials on them
  std::vector<std::string> told;     ///< what the trials say, in sentences
  std::optional<RecordBasis> basis;  ///< what an answer rests on; empty: see `no_basis`
  std::string no_basis;
};

/// Everything of a setup. Reads the record, changes nothing. `before`: a view of this setup since which only trials
/// were added or changed; its estimates and ladders are taken over. Errors: the record's.
Result<FitsView> fits_view(record::Record& record, const record::Id& setup, const FitsView* before = nullptr);

/// Chance of each grade over clearance, with the trials as marks on the curve of their grade.
PlotScene chance_plot(const Thresholds& thresholds, const std::vector<FitTrial>& trials);
/// The thresholds in sentences.
std::vector<std::string> threshold_words(const Thresholds& thresholds);

/// Grades a place, or grades it anew: into the record, with undo on the bench. Errors: the record's.
Result<Done> grade_place(Bench& bench, const Ladder& ladder, std::size_t place, Grade grade);

/// What the mate is.
enum class Partner { bought, read, printed };
/// The sentence filled in, as typed: "hole for [bearing 608], [press] fit, sure to [90] %".
struct FitQuestion {
  SizeKind kind = SizeKind::hole;
  Partner partner = Partner::bought;
  std::string part;  ///< words of hardware or a size in mm
  Fit fit = Fit::sliding;
  std::string chance = "90";  ///< per cent
};

struct FitAnswer {
  std::string wrong;     ///< what is wrong or missing, in a sentence; then the rest is empty
  std::string size;      ///< "22.14 mm", large
  std::string sentence;  ///< "Draw the hole 22.14 mm, for bearing 608"
  std::string chance;    ///< "93 in 100 for a press fit"
  bool reached = false;
  std::vector<std::string> reasons, limits, cautions;
};
FitAnswer fit_answer(const FitsView& view, const FitQuestion& question);

}  // namespace fitwright
