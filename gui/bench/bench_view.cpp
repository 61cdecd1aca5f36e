#include "bench/bench_view.hpp"

#include "bench/columns.hpp"
#include "bench/plots.hpp"
#include "bench/shown.hpp"
#include "report/estimate_report.hpp"

namespace fitwright {
namespace {

std::string tag(Severity severity) {
  switch (severity) {
    case Severity::act:
      return "act";
    case Severity::know:
      return "know";
    case Severity::fine:
      return "fine";
  }
  return {};
}

std::string status_of(const Analysis& a) {
  std::string text = counted(a.read.rows.size(), "reading", "readings");
  if (!a.estimates) return text;
  const Counts& n = a.estimates->counts;
  text += ", " + counted(static_cast<std::size_t>(n.features), "feature", "features") + ", " +
          counted(static_cast<std::size_t>(n.copies), "copy", "copies");
  if (n.set_aside > 0) text += ", " + std::to_string(n.set_aside) + " set aside";
  return text;
}

std::vector<std::string> plain(const Problems& problems) {
  std::vector<std::string> lines;
  for (const Problem& problem : problems) lines.push_back(with_true_minus(problem.text()));
  return lines;
}

std::string joined(const std::vector<std::string>& lines) {
  std::string text;
  for (const std::string& line : lines) text += (text.empty() ? "" : "\n") + line;
  return text;
}

}  // namespace

std::string with_true_minus(std::string text) {
  const auto letter = [](char c) { return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9'); };
  std::string out;
  for (std::size_t i = 0; i < text.size(); ++i) {
    const bool before = i > 0 && (letter(text[i - 1]) || static_cast<unsigned char>(text[i - 1]) >= 0x80);
    const bool after = i + 1 < text.size() && text[i + 1] >= '0' && text[i + 1] <= '9';
    if (text[i] == '-' && !before && after) {
      out += "\u2212";
    } else {
      out += text[i];
    }
  }
  return out;
}

std::map<std::size_t, RowMark> row_marks(const Analysis& analysis) {
  std::map<std::size_t, RowMark> marks;
  if (!analysis.estimates) return marks;
  for (const SuspectReading& s : analysis.estimates->suspects) {
    RowMark mark;
    mark.used = s.used;
    mark.proposal_mm = s.suspect.proposal_mm;
    mark.remark = s.used ? "doubtful" : "set aside";
    if (s.suspect.proposal_mm) mark.remark += ": " + shown(*s.suspect.proposal_mm, 2) + "?";
    mark.sentence = with_true_minus(suspect_text(s, analysis.read));
    marks[analysis.row_of.at(s.suspect.index)] = std::move(mark);
  }
  return marks;
}

BenchView bench_view(const Content& content, const Analysis& analysis) {
  BenchView view;
  view.revision = analysis.revision;
  view.marks = row_marks(analysis);
  for (const Finding& f : analysis.findings)
    view.findings.push_back({f.id, f.severity, tag(f.severity), with_true_minus(f.text), with_true_minus(f.because),
                             with_true_minus(f.action)});
  if (view.findings.empty()) {
    view.no_findings = joined(plain(analysis.problems));
    if (view.no_findings.empty())
      view.no_findings = "What the readings say will stand here. Open a file of readings (Ctrl+O) or type some.";
  }
  view.estimates = estimates_view(content, analysis);
  view.corrections = corrections_view(content, analysis);
  view.lengths = lengths_plot(analysis);
  view.rounds = rounds_plot(analysis);
  view.status = status_of(analysis);
  return view;
}

InHand in_hand(const Content& content, std::size_t row, const BenchView& view) {
  InHand hand;
  if (row >= content.readings->rows.size()) return hand;
  const Reading& r = content.readings->rows[row];
  const Decimals decimals = decimals_of(*content.readings);
  hand.place = r.feature.id + "  " + std::string(spoken(r.feature.kind));
  if (!is_steel(r.feature.kind)) hand.place += ", copy " + std::to_string(r.copy);
  hand.place += ", " + ordinal(r.repeat) + " reading";
  hand.reading = cell_shown(r, Column::reading, decimals);
  hand.detail = "drawn " + cell_shown(r, Column::drawn, decimals);
  const std::string off = cell_shown(r, Column::deviation, decimals);
  hand.detail += off.empty() ? ", not read yet" : ", off by " + off + " mm";
  if (const auto mark = view.marks.find(row); mark != view.marks.end()) hand.doubt = mark->second.sentence;
  return hand;
}

}  // namespace fitwright
