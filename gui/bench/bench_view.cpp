#include "bench/bench_view.hpp"

#include <algorithm>

#include "base/number.hpp"
#include "base/words.hpp"
#include "bench/plots.hpp"
#include "bench/shown.hpp"

namespace fitwright {
namespace {

std::string tag(Severity severity) {
  switch (severity) {
    case Severity::act:
      return tr("act");
    case Severity::know:
      return tr("know");
    case Severity::fine:
      return tr("fine");
  }
  return {};
}

/// Why a reading is doubted and what became of it; its place is told beside it.
std::string doubt_in_words(const SuspectReading& s, const Reading& r) {
  std::string text;
  switch (s.suspect.rule) {
    case Rule::entry:
      text = said("Far from the drawn {}.", said_shortest(r.feature.nominal_mm));
      break;
    case Rule::repeat:
      text = tr("Far from the other readings of this place.");
      break;
    case Rule::residual:
      text = tr("Does not fit what the other places say.");
      break;
  }
  if (s.suspect.proposal_mm) {
    const std::string meant = shown(*s.suspect.proposal_mm, 2);
    text += " " + said("Perhaps {}: Ctrl+T takes it.",
                       meant + (s.suspect.slip.empty() ? "" : " (" + std::string(tr(s.suspect.slip.c_str())) + ")"));
  }
  return typeset(text + " " + (s.used ? tr("Counted all the same.") : tr("Set aside until then.")));
}

std::string status_of(const Analysis& a) {
  std::string text = said_many("{} reading", "{} readings", a.read.rows.size());
  if (!a.estimates) return text;
  const Counts& n = a.estimates->counts;
  text += ", " + said_many("{} feature", "{} features", static_cast<std::size_t>(n.features)) + ", " +
          said_many("{} copy", "{} copies", static_cast<std::size_t>(n.copies));
  if (n.set_aside > 0) text += ", " + said("{} set aside", n.set_aside);
  return text;
}

std::vector<std::string> plain(const Problems& problems) {
  std::vector<std::string> lines;
  for (const Problem& problem : problems) lines.push_back(typeset(problem.text()));
  return lines;
}

std::string joined(const std::vector<std::string>& lines) {
  std::string text;
  for (const std::string& line : lines) text += (text.empty() ? "" : "\n") + line;
  return text;
}

/// Both by severity; within one severity the record's come first and each keeps its own order.
std::vector<Finding> together(const std::vector<Finding>& of_record, const std::vector<Finding>& of_readings) {
  std::vector<Finding> all = of_record;
  all.insert(all.end(), of_readings.begin(), of_readings.end());
  std::stable_sort(all.begin(), all.end(), [](const Finding& a, const Finding& b) { return a.severity < b.severity; });
  return all;
}

}  // namespace

std::map<std::size_t, RowMark> row_marks(const Analysis& analysis) {
  std::map<std::size_t, RowMark> marks;
  if (!analysis.estimates) return marks;
  for (const SuspectReading& s : analysis.estimates->suspects) {
    RowMark mark;
    mark.used = s.used;
    mark.proposal_mm = s.suspect.proposal_mm;
    mark.remark = s.used ? tr("doubtful") : tr("set aside");
    if (s.suspect.proposal_mm) mark.remark += ": " + shown(*s.suspect.proposal_mm, 2) + "?";
    mark.sentence = doubt_in_words(s, analysis.read.rows.at(s.suspect.index));
    marks[analysis.row_of.at(s.suspect.index)] = std::move(mark);
  }
  for (const auto& [feature, copy] : places_wanting_a_third(analysis.read))
    for (std::size_t i = analysis.read.rows.size(); i-- > 0;) {
      const Reading& r = analysis.read.rows[i];
      if (r.feature.id != feature || r.copy != copy) continue;
      RowMark mark;
      mark.remark = tr("read again");
      mark.sentence =
          said("The two readings here differ by more than {}\u00a0mm: read a third time. F4 asks for one more.",
               said_shortest(0.05));
      mark.used = true;
      marks.emplace(analysis.row_of.at(i), std::move(mark));
      break;
    }
  return marks;
}

BenchView bench_view(const Content& content, const Analysis& analysis, const std::vector<Finding>& of_record) {
  BenchView view;
  view.revision = analysis.revision;
  view.marks = row_marks(analysis);
  for (const Finding& f : together(of_record, analysis.findings))
    view.findings.push_back({f.id, f.severity, tag(f.severity), typeset(capitalised(f.text)),
                             typeset(capitalised(f.because)), typeset(capitalised(f.action))});
  if (view.findings.empty()) {
    view.no_findings = joined(plain(analysis.problems));
    if (view.no_findings.empty())
      view.no_findings = tr("What the readings say will stand here. Open a file of readings (Ctrl+O) or type some.");
  }
  view.estimates = estimates_view(content, analysis);
  view.corrections = corrections_view(content, analysis);
  view.lengths = lengths_plot(analysis);
  view.rounds = rounds_plot(analysis);
  view.by_order = order_plot(analysis);
  view.by_feature = features_plot(analysis);
  view.corner = corner_plot(analysis);
  view.not_known = not_known(analysis);
  view.trial = tried_view(content, analysis);
  view.status = status_of(analysis);
  return view;
}

}  // namespace fitwright
