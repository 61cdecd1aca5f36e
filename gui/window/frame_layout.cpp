// How the parts of the main window stand together.

#include <wx/dnd.h>
#include <wx/sizer.h>
#include <wx/statline.h>

#include <array>

#include "base/words.hpp"
#include "window/access.hpp"
#include "window/actions.hpp"
#include "window/frame.hpp"

namespace fitwright {
namespace {

/// A file dragged onto the window.
class FileDrop : public wxFileDropTarget {
 public:
  explicit FileDrop(std::function<void(const std::string&)> take) : take_(std::move(take)) {}
  bool OnDropFiles(wxCoord, wxCoord, const wxArrayString& files) override {
    if (files.size() != 1) return false;
    take_(utf8(files.front()));
    return true;
  }

 private:
  std::function<void(const std::string&)> take_;
};

}  // namespace

void Frame::build() {
  const Theme theme = theme_of(*this);
  SetBackgroundColour(theme.ground);
  SetMenuBar(make_menu_bar(recent_));
  CreateStatusBar(2);  // what was done, and what is on the bench
  const std::array<int, 2> shares{-3, -2};
  SetStatusWidths(2, shares.data());
  SetDropTarget(new FileDrop([this](const std::string& path) { take_file(path); }));
  offer_ = new wxInfoBar(this);
  offer_->AddButton(wxID_YES, wx(tr("Take them")));
  offer_->AddButton(wxID_NO, wx(tr("Forget them")));
  header_ = new Strip(this, tr("On the bench"), [this](Sheet& sheet) { lay_header(sheet); });
  header_->SetMinSize({-1, GetCharHeight() * 5 / 2 + 5 * theme.space});
  side_ = new SideList(this);
  side_->on_choice = [this](Stage place) { go_to(place); };
  book_ = new wxSimplebook(this);
  set_accessible(*book_, tr("The place that is shown"));
  setup_ = new SetupPlace(book_, *this);
  make_ = new MakePlace(book_, *this);
  measure_ = new MeasurePlace(book_, *this);
  understand_ = new UnderstandPlace(book_, *this);
  correct_ = new CorrectPlace(book_, *this);
  history_ = new HistoryPlace(book_, *this);
  fits_ = new FitsPlace(book_, *this);
  shown_ = {{Stage::setup, setup_},           {Stage::make, make_},       {Stage::measure, measure_},
            {Stage::understand, understand_}, {Stage::correct, correct_}, {Stage::history, history_},
            {Stage::fits, fits_}};
  for (const Shown& shown : shown_) book_->AddPage(shown.panel, wx(name_of(shown.place)));
  show_places();

  auto* row = new wxBoxSizer(wxHORIZONTAL);
  row->Add(side_, 0, wxEXPAND);
  row->Add(new wxStaticLine(this, wxID_ANY, wxDefaultPosition, wxDefaultSize, wxLI_VERTICAL), 0, wxEXPAND);
  row->Add(book_, 1, wxEXPAND);
  auto* sizer = new wxBoxSizer(wxVERTICAL);
  sizer->Add(offer_, 0, wxEXPAND);
  auto* top = new wxBoxSizer(wxHORIZONTAL);
  top->Add(header_, 1, wxEXPAND);
  top->Add(make_tools(this), 0, wxALIGN_TOP | wxALL, theme.space);
  sizer->Add(top, 0, wxEXPAND);
  sizer->Add(new wxStaticLine(this), 0, wxEXPAND);
  sizer->Add(row, 1, wxEXPAND);
  SetSizer(sizer);
  SetMinClientSize(FromDIP(wxSize(860, 560)));
}

void Frame::lay_header(Sheet& s) const {
  const Theme& t = s.theme();
  const BenchHeader h = bench_header(bench_, "Fitwright");
  s.skip(2);
  const int top = s.y();
  const int right = s.width() - s.margin();
  s.cell(tr("On the bench"), t.title, t.quiet, s.margin(), Side::left);
  int x = s.margin() + s.wide(tr("On the bench"), t.title) + 4 * t.space;
  const auto part = [&](const std::string& text, const wxFont& font, const wxColour& colour) {
    if (text.empty() || x >= right) return;
    s.move_to(top + s.line_height(t.title) - s.line_height(font));  // all on one line of type
    s.cell(text, font, colour, x, Side::left, right - x);
    x += s.wide(text, font) + 5 * t.space;
  };
  part(h.printer, t.title.Bold(), t.text);
  part(h.material, t.title, t.text);
  part(h.layers, t.body, t.quiet);
  part(h.caliper, t.body, t.quiet);
  s.move_to(top + s.line_height(t.title) + t.space);
  const int below = s.y();
  if (h.warning.empty()) {
    s.cell(h.state, t.body, t.quiet, s.margin(), Side::left, right - s.margin());
  } else {
    s.cell(h.warning, t.body, t.warn, s.margin(), Side::left, right - s.margin());
  }
  s.move_to(below);
}

}  // namespace fitwright
