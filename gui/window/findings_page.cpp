#include "window/findings_page.hpp"

#include <algorithm>

#include "base/words.hpp"

namespace fitwright {
namespace {

constexpr double readable_width_em = 46;  // about 80 letters a line

void severity_mark(Sheet& sheet, Severity severity, double x, double y, double r) {
  const Theme& t = sheet.theme();
  switch (severity) {
    case Severity::act:
      sheet.mark(Shape::diamond, x, y, r, t.warn);
      break;
    case Severity::know:
      sheet.mark(Shape::disc, x, y, 0.8 * r, t.accent);
      break;
    case Severity::fine:
      sheet.draw([&](wxGraphicsContext& gc) {
        gc.SetPen(wxPen(t.good, std::max(2, static_cast<int>(r / 2))));
        gc.StrokeLine(x - r, y, x - r / 4, y + 0.7 * r);
        gc.StrokeLine(x - r / 4, y + 0.7 * r, x + r, y - 0.8 * r);
      });
      break;
  }
}

}  // namespace

FindingsPage::FindingsPage(wxWindow* parent) : Page(parent, tr("Findings")) {
  Bind(wxEVT_KEY_DOWN, &FindingsPage::on_key, this);
  Bind(wxEVT_LEFT_DOWN, &FindingsPage::on_click, this);
}

void FindingsPage::show(const std::vector<FindingLine>& findings, const std::string& otherwise,
                        const std::vector<LabelledText>& not_known) {
  const std::string kept = chosen_ >= 0 && chosen_ < static_cast<int>(findings_.size())
                               ? findings_[static_cast<std::size_t>(chosen_)].id
                               : std::string();
  findings_ = findings;
  otherwise_ = otherwise;
  not_known_ = not_known;
  const auto same =
      std::find_if(findings_.begin(), findings_.end(), [&](const FindingLine& f) { return f.id == kept; });
  if (chosen_ != -1) chosen_ = same == findings_.end() ? 0 : static_cast<int>(same - findings_.begin());
  changed();
}

void FindingsPage::choose(int index) {
  if (findings_.empty()) return;
  chosen_ = std::clamp(index, -1, static_cast<int>(findings_.size()) - 1);
  changed();
  if (chosen_ < 0) return;
  const Extent& extent = extents_[static_cast<std::size_t>(chosen_)];
  show_part(extent.top, extent.bottom);
}

void FindingsPage::lay(Sheet& sheet) {
  extents_.assign(findings_.size(), {});
  sheet.move_to(0);
  sheet.skip(4);
  if (findings_.empty())
    sheet.paragraph(otherwise_, theme().title, theme().quiet, sheet.margin(), sheet.width() - sheet.margin());
  for (std::size_t i = 0; i < findings_.size(); ++i) lay_finding(sheet, i);
  lay_not_known(sheet);
  sheet.skip(2);
}

/// What the readings cannot tell stands last: it is no finding, but it says what would make one.
void FindingsPage::lay_not_known(Sheet& sheet) {
  if (not_known_.empty()) return;
  const Theme& t = sheet.theme();
  const int em = sheet.wide("0", t.body) * 2;
  const int left = sheet.margin() + 6 * t.space;
  const int right = std::min(sheet.width() - sheet.margin(), left + static_cast<int>(readable_width_em) * em);
  sheet.skip(2);
  sheet.paragraph(tr("Not known yet"), t.title, t.quiet, left, right);
  for (const LabelledText& line : not_known_) {
    sheet.skip(1);
    sheet.paragraph(line.label, t.body, t.text, left, right);
    sheet.paragraph(line.text, t.body, t.quiet, left + 5 * t.space, right);
  }
}

void FindingsPage::lay_finding(Sheet& sheet, std::size_t index) {
  const FindingLine& f = findings_[index];
  const Theme& t = sheet.theme();
  const bool first = index == 0;
  const bool chosen = static_cast<int>(index) == chosen_;
  const wxFont& font = first ? t.large : f.severity == Severity::act ? t.title : t.body;
  const int em = sheet.wide("0", t.body) * 2;
  const int left = sheet.margin() + 6 * t.space;
  const int tag = sheet.wide(tr("know"), t.body) + 4 * t.space;
  const int right = std::min(sheet.width() - sheet.margin() - tag, left + static_cast<int>(readable_width_em) * em);

  extents_[index].top = sheet.y();
  const int half_line = sheet.line_height(font) / 2;
  severity_mark(sheet, f.severity, sheet.margin() + 2 * t.space, sheet.y() + half_line, 1.4 * t.space);
  const int top = sheet.y();
  sheet.move_to(top + half_line - sheet.line_height(t.body) / 2);
  sheet.cell(f.tag, t.body, t.quiet, right + tag, Side::right);
  sheet.move_to(top);
  sheet.paragraph(f.text, font, t.text, left, right);
  if (!f.action.empty()) {
    sheet.skip(1);
    sheet.cell("\u2192", t.body, t.accent, left, Side::left);
    sheet.paragraph(f.action, t.body, t.accent, left + 5 * t.space, right);
  }
  if (chosen && !f.because.empty()) {
    sheet.skip(1);
    sheet.paragraph(f.because, t.body, t.quiet, left + 5 * t.space, right);
  }
  extents_[index].bottom = sheet.y();
  if (chosen && HasFocus())
    sheet.box({t.space, extents_[index].top, t.space, extents_[index].bottom - extents_[index].top}, t.accent);
  sheet.skip(first ? 5 : 3);
}

std::string FindingsPage::as_text() const {
  std::string text = findings_.empty() ? otherwise_ + "\n" : std::string();
  for (const FindingLine& f : findings_) text += f.tag + ": " + f.text + "\n  " + f.action + "\n  " + f.because + "\n";
  if (!not_known_.empty()) text += std::string(tr("Not known yet")) + "\n";
  for (const LabelledText& line : not_known_) text += line.label + ": " + line.text + "\n";
  return text;
}

void FindingsPage::on_key(wxKeyEvent& event) {
  switch (event.GetKeyCode()) {
    case WXK_DOWN:
      choose(chosen_ + 1);
      break;
    case WXK_UP:
      choose(std::max(0, chosen_ - 1));
      break;
    case WXK_HOME:
      choose(0);
      break;
    case WXK_END:
      choose(static_cast<int>(findings_.size()) - 1);
      break;
    default:
      event.Skip();
  }
}

void FindingsPage::on_click(wxMouseEvent& event) {
  SetFocus();
  const int y = CalcUnscrolledPosition(event.GetPosition()).y;
  for (std::size_t i = 0; i < extents_.size(); ++i)
    if (y >= extents_[i].top && y <= extents_[i].bottom) {
      choose(chosen_ == static_cast<int>(i) ? -1 : static_cast<int>(i));
      break;
    }
  event.Skip();
}

}  // namespace fitwright
