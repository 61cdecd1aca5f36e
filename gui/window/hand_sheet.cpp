#include "window/hand_sheet.hpp"

#include <wx/dcbuffer.h>
#include <wx/dcclient.h>

#include <algorithm>
#include <utility>

#include "base/words.hpp"
#include "bench/shown.hpp"
#include "window/access.hpp"

namespace fitwright {
namespace {

constexpr const char* widest_reading = "0000.000";
constexpr std::size_t lines_kept_free = 3;  ///< so that what stands below stays where it is
constexpr std::size_t most_lines = 5;
constexpr double readable_width_em = 40;

}  // namespace

HandSheet::HandSheet(wxWindow* parent)
    : wxPanel(parent, wxID_ANY, wxDefaultPosition, parent->FromDIP(wxSize(460, 480)),
              wxTAB_TRAVERSAL | wxFULL_REPAINT_ON_RESIZE),
      theme_(theme_of(*this)) {
  SetBackgroundStyle(wxBG_STYLE_PAINT);
  field_ = new wxTextCtrl(this, wxID_ANY, {}, wxDefaultPosition, wxDefaultSize, wxTE_PROCESS_ENTER | wxTE_RIGHT);
  set_accessible(*this, tr("Reading in hand"));
  take_theme();
  Bind(wxEVT_PAINT, [this](wxPaintEvent&) {
    wxAutoBufferedPaintDC dc(this);
    paint(dc, GetClientSize());
  });
  Bind(wxEVT_SIZE, [this](wxSizeEvent& event) {
    event.Skip();
    place_field();
  });
  Bind(wxEVT_SYS_COLOUR_CHANGED, [this](wxSysColourChangedEvent& event) {
    event.Skip();
    take_theme();
    Refresh();
  });
}

void HandSheet::take_theme() {
  theme_ = theme_of(*this);
  field_->SetFont(theme_.huge);
}

void HandSheet::show(MeasureView view) {
  view_ = std::move(view);
  nothing_.clear();
  const std::string name =
      view_.finished ? tr("Reading, all is read") : said("Reading of {}, {}", view_.feature_id, view_.feature_words);
  set_accessible(*field_, name, view_.said);
  set_accessible(*this, tr("Reading in hand"), view_.said);
  place_field();
  Refresh();
}

void HandSheet::show_nothing(const std::string& words) {
  view_ = {};
  nothing_ = words;
  set_accessible(*this, tr("Reading in hand"), words);
  field_->Hide();
  Refresh();
}

void HandSheet::refuse(const std::string& problem) {
  if (problem == problem_) return;
  problem_ = problem;
  Refresh();
}

void HandSheet::place_field() {
  if (!nothing_.empty()) return;
  wxClientDC dc(this);
  Sheet sheet(dc, theme_, GetClientSize().x, false);
  const wxRect rect = lay(sheet);
  field_->Show(!rect.IsEmpty());
  if (!rect.IsEmpty() && field_->GetRect() != rect) field_->SetSize(rect);
}

void HandSheet::paint(wxDC& dc, const wxSize& size) {
  dc.SetBackground(wxBrush(theme_.ground));
  dc.Clear();
  Sheet sheet(dc, theme_, size.x, true);
  lay(sheet);
}

wxRect HandSheet::lay(Sheet& s) const {
  const int left = s.margin() + 2 * theme_.space;
  const int em = s.wide("0", theme_.body) * 2;
  const int right = std::min(s.width() - s.margin(), left + static_cast<int>(readable_width_em) * em);
  s.move_to(4 * theme_.space);
  if (!nothing_.empty()) {
    s.paragraph(nothing_, theme_.title, theme_.quiet, left, right);
    return {};
  }
  lay_head(s, left, right);
  lay_feature(s, left, right);
  const wxRect field = lay_readings(s, left, right);
  lay_question(s, left, right);
  lay_next(s, left, right);
  return field;
}

void HandSheet::lay_head(Sheet& s, int left, int right) const {
  const Theme& t = theme_;
  const std::string count = view_.count + (view_.time_left.empty() ? "" : "   " + view_.time_left);
  const int wanted = s.wide(view_.heading, t.strong) + s.wide(count, t.body) + 6 * t.space;
  s.cell(view_.heading, t.strong, t.text, left, Side::left, right - left);
  if (wanted > right - left) {
    s.move_to(s.y() + s.line_height(t.strong));
    s.cell(count, t.body, t.quiet, left, Side::left, right - left);
  } else {
    s.cell(count, t.body, t.quiet, right, Side::right);
  }
  s.move_to(s.y() + s.line_height(t.strong));
  s.skip(2);
  // How far: a line that fills.
  const int high = t.space;
  const int whole = right - left;
  const int done = view_.total == 0 ? 0
                                    : static_cast<int>(static_cast<double>(whole) * static_cast<double>(view_.done) /
                                                       static_cast<double>(view_.total));
  s.box({left, s.y(), whole, high}, t.faint);
  s.box({left, s.y(), done, high}, t.accent);
  s.skip(6);
}

void HandSheet::lay_feature(Sheet& s, int left, int right) const {
  const Theme& t = theme_;
  if (view_.finished) {
    s.paragraph(tr("What the readings say stands under Understand (Ctrl+4)."), t.title, t.text, left, right);
    s.skip(3);
    return;
  }
  const wxFont id = t.large.Bold();
  s.cell(view_.feature_id, id, t.text, left, Side::left);
  const int after = left + s.wide(view_.feature_id, id) + 4 * t.space;
  const int below = s.y() + s.line_height(id);
  if (after + s.wide(view_.feature_words, t.title) <= right) {
    const int top = s.y();
    s.move_to(below - s.line_height(t.title) - t.space / 2);
    s.cell(view_.feature_words, t.title, t.text, after, Side::left);
    s.move_to(top + s.line_height(id));
  } else {
    s.move_to(below);
    s.paragraph(view_.feature_words, t.title, t.text, left, right);
  }
  if (view_.how != view_.feature_words) s.paragraph(view_.how, t.body, t.quiet, left, right);
  s.skip(4);
}

/// One line a reading, as high as the largest type, so that nothing moves when the next one is typed.
wxRect HandSheet::lay_readings(Sheet& s, int left, int right) const {
  const Theme& t = theme_;
  const int line = s.line_height(t.huge) + 5 * t.space;
  const int ordinals = s.wide(ordinal(20), t.title) + 4 * t.space;
  const int wide = s.wide(widest_reading, t.huge) + 8 * t.space;
  const int inside = 4 * t.space;  // from the field's right end to its text
  const int end = left + ordinals + wide;
  wxRect field;
  const auto centred = [&](int top, const wxFont& font) { return top + (line - s.line_height(font)) / 2; };
  std::size_t first = 0;
  const auto& lines = view_.lines;
  for (std::size_t i = 0; i < lines.size(); ++i)
    if (lines[i].here && i >= most_lines) first = i + 1 - most_lines;
  const std::size_t last = std::min(lines.size(), first + most_lines);
  for (std::size_t i = first; i < last; ++i) {
    const ReadingLine& reading = lines[i];
    const int top = s.y();
    s.move_to(centred(top, t.title));
    s.cell(reading.ordinal, t.title, reading.here ? t.text : t.quiet, left, Side::left);
    if (reading.here) {
      field = {left + ordinals, top + t.space / 2, wide, line - t.space};
    } else {
      s.move_to(centred(top, t.large));
      s.cell(reading.value, t.large, reading.doubtful ? t.warn : t.text, end - inside, Side::right);
    }
    const std::string remark = reading.doubtful ? tr("doubtful") : reading.remark;
    if (!remark.empty()) {
      const int at = end + 3 * t.space;
      s.move_to(centred(top, t.body));
      const int middle = s.y() + s.line_height(t.body) / 2;
      if (reading.doubtful) s.mark(Shape::diamond, at + t.space, middle, 1.2 * t.space, t.warn);
      s.cell(remark, t.body, reading.doubtful ? t.warn : t.quiet, at + (reading.doubtful ? 4 * t.space : 0), Side::left,
             std::max(1, right - at - 4 * t.space));
    }
    s.move_to(top + line);
  }
  if (view_.finished) {  // the keys still mean something: the field takes them
    field = {left + ordinals, s.y() + t.space / 2, wide, line - t.space};
    s.move_to(s.y() + line);
  } else {
    for (std::size_t i = last - first; i < lines_kept_free; ++i) s.move_to(s.y() + line);
  }
  s.skip(1);
  if (!view_.drawn.empty()) {
    s.cell(view_.drawn, t.title, t.quiet, left, Side::left);
    s.cell(view_.so_far, t.title, t.text, left + s.wide(view_.drawn, t.title) + 6 * t.space, Side::left,
           std::max(1, right - left));
    s.move_to(s.y() + s.line_height(t.title));
  }
  s.skip(2);
  return field;
}

/// The doubt to be answered, or why a line was not taken: two lines of room are always kept.
void HandSheet::lay_question(Sheet& s, int left, int right) const {
  const Theme& t = theme_;
  const int top = s.y();
  if (!problem_.empty()) {
    s.paragraph(problem_, t.strong, t.warn, left, right);
  } else if (!view_.doubts.empty()) {
    const DoubtLine& doubt = view_.doubts.front();
    s.paragraph((doubt.where.empty() ? "" : doubt.where + ": ") + doubt.sentence, t.strong, t.warn, left, right);
    s.paragraph(doubt.keys + (view_.doubts.size() > 1 ? "   " + said("({} more)", view_.doubts.size() - 1) : ""),
                t.body, t.text, left, right);
  }
  s.move_to(std::max(s.y(), top + 2 * s.line_height(t.strong)));
  s.skip(3);
  s.rule(left, right);
  s.skip(3);
}

void HandSheet::lay_next(Sheet& s, int left, int right) const {
  const Theme& t = theme_;
  s.paragraph(view_.next_line, t.body, t.text, left, right);
  s.paragraph(view_.jaws_next, t.body, t.quiet, left, right);
  if (!view_.left_out.empty()) s.paragraph(said("Left out: {}.", view_.left_out), t.body, t.quiet, left, right);
  s.skip(3);
  if (view_.doubts.empty()) s.paragraph(view_.keys, t.body, t.quiet, left, right);
}

}  // namespace fitwright
