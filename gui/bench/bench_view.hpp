#pragma once
// What the window shows: plain structs of strings ready to be drawn, made by one pure function from the analysis.

#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "bench/analysis.hpp"
#include "bench/scene.hpp"
#include "bench/tried_view.hpp"

namespace fitwright {

/// What became of a suspicious reading, in a few words for its row and in a sentence.
struct RowMark {
  std::string remark;
  std::string sentence;
  std::optional<double> proposal_mm;
  bool used = false;
};

struct FindingLine {
  std::string id;
  Severity severity = Severity::know;
  std::string tag;  ///< the severity in a word
  std::string text, because, action;
};

struct LabelledText {
  std::string label, text;
};

/// An interval on the user's part, in mm, for a small bar; `tolerance_mm` is what matters there.
struct EffectBar {
  double lower_mm = 0, value_mm = 0, upper_mm = 0;
};

struct EstimateRow {
  std::string name, value;
  std::string half;  ///< half of the 95 % interval, without the sign
  std::string u;     ///< standard uncertainty
  std::string unit;
  std::string standing;              ///< "not yet" or "assumed"; empty when established
  std::optional<EffectBar> on_part;  ///< empty where it has no single effect on a length
  std::string effect;                ///< the same in words: "+0.16"
  std::string relevance;             ///< "matters", "may matter", "does not matter"; empty without such an effect
};

struct EstimatesView {
  std::string heading;       ///< "132 readings of 33 features on 2 copies, 1 set aside"
  std::string effect_title;  ///< "on 100 mm"
  std::string bar_title;     ///< over the bars: "grey: does not matter"
  std::vector<EstimateRow> rows;
  double bar_reach_mm = 0;  ///< the bars run from -reach to +reach
  double tolerance_mm = 0;
  std::vector<std::string> combinations;
  std::vector<std::string> not_separable;
  std::vector<std::string> assumed;
  std::vector<std::string> beyond;  ///< what no reading shows and the intervals do not hold, and what to do about it
  std::string method;
};

struct ChangeRow {
  std::string knob, now, next, u;
  std::vector<std::string> effects;  ///< in the order of CorrectionsView::lengths
  std::vector<double> effects_mm;
  std::string because;
  std::string forms;                  ///< the ways programs ask for it, if more than one
  std::vector<std::string> cautions;  ///< that belong to this knob
  std::string copied;                 ///< text for the clipboard: the value, for steps the machine's line
};

struct PolicyChoice {
  Policy policy = Policy::shrink;
  std::string title;
  std::string sentence;
};

/// One policy in the table that compares them.
struct PolicyColumn {
  std::string title;  ///< "Shrink"
  bool recommended = false;
  bool possible = true;  ///< false: it cannot be followed from these readings
};

/// One knob, or one length that stays wrong, under every policy.
struct ComparedRow {
  std::string name, now;
  std::vector<std::string> values;  ///< one a policy; "–" where it stays as it is or cannot be told
};

/// What the policies do to one length.
struct EffectRow {
  std::string name;                 ///< "20 mm along X", or "20 mm" where X and Y change alike
  std::vector<std::string> values;  ///< one a policy; "–" where it cannot be followed
  std::vector<double> mm;           ///< the same for the bars; 0 where there is none
};

struct PolicyTable {
  std::vector<PolicyColumn> columns;
  std::vector<ComparedRow> knobs;
  std::vector<EffectRow> effects;    ///< longer than now, mm; empty when no policy changes a length
  double effect_reach_mm = 0;        ///< the largest of them, for the bars
  std::vector<ComparedRow> remains;  ///< error to expect afterwards with its 95 % interval, mm
  std::string beyond;                ///< the same intervals with what no reading shows, under the policy chosen
};

struct CorrectionsView {
  std::string recommended;  ///< "Recommended: shrink. What both axes share ..." or "Nothing to change. ..."
  PolicyTable compared;
  std::vector<PolicyChoice> choices;
  std::size_t chosen = 0;
  std::vector<std::string> problems;  ///< why this policy gives nothing
  std::string headline;               ///< "Change 2 settings" or "Nothing to change"
  bool nothing = false;               ///< to change under any policy: that is the answer, and the first thing said
  std::string effects_title;          ///< over the columns of effects
  std::vector<std::string> lengths;   ///< column titles of the effects
  std::vector<ChangeRow> rows;
  double effect_reach_mm = 0;  ///< largest effect, for the bars
  std::vector<LabelledText> left_alone;
  std::vector<LabelledText> remains;
  std::vector<std::string> cautions;
  std::vector<std::string> commands;
};

struct BenchView {
  std::uint64_t revision = 0;
  std::map<std::size_t, RowMark> marks;  ///< by row of the content
  std::vector<FindingLine> findings;
  std::string no_findings;              ///< what stands there instead, and the step that fills it
  std::vector<LabelledText> not_known;  ///< what cannot be told apart, why, and which coupon would tell
  EstimatesView estimates;
  CorrectionsView corrections;
  PlotScene lengths, rounds, by_order, by_feature, corner;
  TriedView trial;
  std::string status;  ///< for the status line
};

/// Pure; `content` must be the one that was analysed. What the record finds stands before the other findings of its
/// severity.
BenchView bench_view(const Content& content, const Analysis& analysis, const std::vector<Finding>& of_record = {});

/// Parts of bench_view().
std::map<std::size_t, RowMark> row_marks(const Analysis& analysis);
EstimatesView estimates_view(const Content& content, const Analysis& analysis);
CorrectionsView corrections_view(const Content& content, const Analysis& analysis);
std::vector<LabelledText> not_known(const Analysis& analysis);

}  // namespace fitwright
