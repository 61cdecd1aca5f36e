// How the parts of the main window stand together.

#include <wx/sizer.h>
#include <wx/statline.h>

#include "bench/header_view.hpp"
#include "window/access.hpp"
#include "window/actions.hpp"
#include "window/frame.hpp"

namespace fitwright {

void Frame::build() {
  const Theme theme = theme_of(*this);
  SetBackgroundColour(theme.ground);
  SetMenuBar(make_menu_bar());
  CreateStatusBar();
  offer_ = new wxInfoBar(this);
  offer_->AddButton(wxID_YES, "Take them");
  offer_->AddButton(wxID_NO, "Forget them");
  header_ = new Strip(this, "On the bench", [this](Sheet& sheet) { lay_header(sheet); });
  header_->SetMinSize({-1, GetCharHeight() * 5 / 2 + 5 * theme.space});
  side_ = new SideList(this);
  side_->on_choice = [this](Stage place) { go_to(place); };
  book_ = new wxSimplebook(this);
  set_accessible(*book_, "The place that is shown");
  measure_ = new MeasurePlace(book_, *this);
  understand_ = new UnderstandPlace(book_, *this);
  correct_ = new CorrectPlace(book_, *this);
  shown_ = {{Stage::measure, measure_}, {Stage::understand, understand_}, {Stage::correct, correct_}};
  for (const Shown& shown : shown_) book_->AddPage(shown.panel, wx(name_of(shown.place)));
  show_places();

  auto* row = new wxBoxSizer(wxHORIZONTAL);
  row->Add(side_, 0, wxEXPAND);
  row->Add(new wxStaticLine(this, wxID_ANY, wxDefaultPosition, wxDefaultSize, wxLI_VERTICAL), 0, wxEXPAND);
  row->Add(book_, 1, wxEXPAND);
  auto* sizer = new wxBoxSizer(wxVERTICAL);
  sizer->Add(offer_, 0, wxEXPAND);
  sizer->Add(header_, 0, wxEXPAND);
  sizer->Add(new wxStaticLine(this), 0, wxEXPAND);
  sizer->Add(row, 1, wxEXPAND);
  SetSizer(sizer);
  SetMinClientSize(FromDIP(wxSize(860, 560)));
}

void Frame::lay_header(Sheet& s) const {
  const Theme& t = s.theme();
  const HeaderView view = header_view(document_, "Fitwright");
  s.skip(2);
  const int top = s.y();
  s.cell("On the bench", t.title, t.quiet, s.margin(), Side::left);
  const int name = s.margin() + s.wide("On the bench", t.title) + 3 * t.space;
  s.cell(view.name, t.title.Bold(), t.text, name, Side::left, s.width() - name);
  s.move_to(top + s.line_height(t.title) + t.space);
  s.cell(view.settings, t.body, t.quiet, s.margin(), Side::left, s.width() - 2 * s.margin());
}

}  // namespace fitwright
