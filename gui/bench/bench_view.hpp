#pragma once
// What the window shows: plain structs of strings ready to be drawn, made by one pure function from the analysis.

#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "bench/analysis.hpp"
#include "bench/scene.hpp"

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
};

struct EstimatesView {
  std::string heading;       ///< "132 readings of 33 features on 2 copies, 1 set aside"
  std::string effect_title;  ///< "on 100 mm"
  std::vector<EstimateRow> rows;
  double bar_reach_mm = 0;  ///< the bars run from -reach to +reach
  double tolerance_mm = 0;
  std::vector<std::string> combinations;
  std::vector<std::string> not_separable;
  std::vector<std::string> assumed;
  std::string method;
};

struct ChangeRow {
  std::string knob, now, next, u;
  std::vector<std::string> effects;  ///< in the order of CorrectionsView::lengths
  std::vector<double> effects_mm;
  std::string because;
  std::string forms;   ///< the ways programs ask for it, if more than one
  std::string copied;  ///< text for the clipboard
};

struct PolicyChoice {
  Policy policy = Policy::shrink;
  std::string title;
  std::string sentence;
};

struct LabelledText {
  std::string label, text;
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

struct PolicyTable {
  std::vector<PolicyColumn> columns;
  std::vector<ComparedRow> knobs;
  std::vector<ComparedRow> remains;  ///< error to expect afterwards, mm
};

struct CorrectionsView {
  std::string recommended;  ///< "Recommended: shrink. What both axes share ..." or "Nothing to change. ..."
  PolicyTable compared;
  std::vector<PolicyChoice> choices;
  std::size_t chosen = 0;
  std::vector<std::string> problems;  ///< why this policy gives nothing
  std::string headline;               ///< "Change 2 settings" or "Nothing to change"
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
  std::string no_findings;  ///< what stands there instead, and the step that fills it
  EstimatesView estimates;
  CorrectionsView corrections;
  PlotScene lengths, rounds;
  std::string status;  ///< for the status line
};

/// Pure; `content` must be the one that was analysed. What the record finds stands before the other findings of its
/// severity.
BenchView bench_view(const Content& content, const Analysis& analysis, const std::vector<Finding>& of_record = {});

/// Parts of bench_view().
std::map<std::size_t, RowMark> row_marks(const Analysis& analysis);
EstimatesView estimates_view(const Content& content, const Analysis& analysis);
CorrectionsView corrections_view(const Content& content, const Analysis& analysis);

}  // namespace fitwright
