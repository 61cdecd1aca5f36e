#include "window/guide_window.hpp"

#include <wx/filename.h>
#include <wx/filesys.h>
#include <wx/html/htmlfilt.h>
#include <wx/image.h>
#include <wx/sizer.h>
#include <wx/stdpaths.h>

#include <algorithm>
#include <array>
#include <functional>

#include "base/file.hpp"
#include "base/words.hpp"
#include "bench/guide.hpp"
#include "window/access.hpp"
#include "window/theme.hpp"

namespace fitwright {
namespace {

const wxSize usual_size(860, 720);
constexpr int readable_width_em = 60;  // about 100 letters a line: the pictures want some width
constexpr std::array<double, 7> type_scale{0.75, 0.85, 1,  1.15,
                                           1.25, 1.4,  1.6};  // of wx's seven sizes; 3 is the body's

PageColours& colours() {
  static PageColours now;
  return now;
}

/// Lets an HTML window open CommonMark.
class CommonMark : public wxHtmlFilter {
 public:
  bool CanRead(const wxFSFile& file) const override { return file.GetLocation().Lower().EndsWith(".md"); }
  wxString ReadFile(const wxFSFile& file) const override {
    std::string bytes(static_cast<std::size_t>(file.GetStream()->GetSize()), '\0');
    file.GetStream()->Read(bytes.data(), bytes.size());
    return wx(page_html(bytes, colours()));
  }
};

wxString face_of(const wxFont& font) { return font.GetFaceName(); }

/// Links to other places than the guide's pages go to the browser.
class Html : public wxHtmlWindow {
 public:
  explicit Html(wxWindow* parent)
      : wxHtmlWindow(parent, wxID_ANY, wxDefaultPosition, wxDefaultSize, wxHW_SCROLLBAR_AUTO) {}
  void OnLinkClicked(const wxHtmlLinkInfo& link) override {
    if (link.GetHref().Contains("://"))
      wxLaunchDefaultBrowser(link.GetHref());
    else
      wxHtmlWindow::OnLinkClicked(link);
    if (on_opened) on_opened();
  }
  std::function<void()> on_opened;
};

}  // namespace

std::string guide_folder() {
  const std::string program = utf8(wxFileName(wxStandardPaths::Get().GetExecutablePath()).GetPath());
  return guide_among({program + "/../share/fitwright/guide", FITWRIGHT_GUIDE});
}

GuideWindow::GuideWindow(wxWindow* parent)
    : wxFrame(parent, wxID_ANY, wx(tr("Guide")), wxDefaultPosition, parent->FromDIP(usual_size),
              wxDEFAULT_FRAME_STYLE | wxFRAME_FLOAT_ON_PARENT) {
  if (!wxImage::FindHandler(wxBITMAP_TYPE_PNG)) wxImage::AddHandler(new wxPNGHandler);
  static const bool known = [] {
    wxHtmlWindow::AddFilter(new CommonMark);  // the library keeps it
    return true;
  }();
  (void)known;
  const Theme theme = theme_of(*this);
  back_ = new wxButton(this, wxID_BACKWARD, wx(tr("&Back")));
  auto* contents = new wxButton(this, wxID_INDEX, wx(tr("&Contents")));
  auto* close = new wxButton(this, wxID_CLOSE, wx(tr("C&lose")));
  auto* html = new Html(this);
  html->on_opened = [this] { CallAfter([this] { opened(); }); };
  html_ = html;
  for (wxButton* button : {back_, contents, close}) set_accessible(*button, utf8(button->GetLabelText()));
  auto* row = new wxBoxSizer(wxHORIZONTAL);
  row->Add(back_, 0, wxRIGHT, 2 * theme.space);
  row->Add(contents, 0, wxRIGHT, 2 * theme.space);
  row->AddStretchSpacer();
  row->Add(close, 0);
  auto* sizer = new wxBoxSizer(wxVERTICAL);
  sizer->Add(row, 0, wxEXPAND | wxALL, 2 * theme.space);
  sizer->Add(html_, 1, wxEXPAND);
  SetSizer(sizer);
  back_->Bind(wxEVT_BUTTON, [this](wxCommandEvent&) {
    html_->HistoryBack();
    opened();
  });
  contents->Bind(wxEVT_BUTTON, [this](wxCommandEvent&) { show(guide_contents()); });
  close->Bind(wxEVT_BUTTON, [this](wxCommandEvent&) { Close(); });
  Bind(wxEVT_CHAR_HOOK, [this](wxKeyEvent& event) {
    if (event.GetKeyCode() == WXK_ESCAPE) {
      Close();
    } else if (event.GetKeyCode() == WXK_BACK || (event.AltDown() && event.GetKeyCode() == WXK_LEFT)) {
      html_->HistoryBack();
      opened();
    } else {
      event.Skip();
    }
  });
  Bind(wxEVT_SYS_COLOUR_CHANGED, [this](wxSysColourChangedEvent& event) {
    event.Skip();
    style();
    if (!page().empty()) go(html_->GetOpenedPage());
  });
  html_->Bind(wxEVT_SIZE, [this](wxSizeEvent& event) {
    keep_readable();
    event.Skip();
  });
  style();
}

/// Wide windows get wide margins, not long lines. wx takes a margin only where a page is laid out.
void GuideWindow::keep_readable() {
  wxHtmlContainerCell* page = html_->GetInternalRepresentation();
  if (!page) return;
  const int readable = readable_width_em * html_->GetTextExtent("m").x;
  const int least = 4 * theme_of(*this).space;
  page->SetIndent(std::max(least, (html_->GetClientSize().x - readable) / 2), wxHTML_INDENT_HORIZONTAL);
}

void GuideWindow::style() {
  const Theme theme = theme_of(*this);
  const auto name = [](const wxColour& c) { return utf8(c.GetAsString(wxC2S_HTML_SYNTAX)); };
  colours() = {name(theme.ground), name(theme.text), name(theme.accent)};
  SetBackgroundColour(theme.ground);
  html_->SetBackgroundColour(theme.ground);
  std::array<int, type_scale.size()> sizes{};
  std::transform(type_scale.begin(), type_scale.end(), sizes.begin(),
                 [&](double scale) { return static_cast<int>(theme.body.GetPointSize() * scale + 0.5); });
  html_->SetFonts(face_of(theme.body), face_of(wxFont(wxFontInfo().Family(wxFONTFAMILY_TELETYPE))), sizes.data());
}

void GuideWindow::go(const wxString& address) {
  html_->LoadPage(address);
  opened();
}

bool GuideWindow::show(const std::string& page) {
  const std::string folder = guide_folder();
  const bool there = !folder.empty() && wxFileName::FileExists(wx(folder + "/" + page));
  if (there)
    go(wxFileSystem::FileNameToURL(wxFileName(wx(folder + "/" + page))));
  else
    html_->SetPage(
        wx(page_html(tr("The guide is not installed with this program. Its pages lie in the folder docs/guide "
                        "of the source."),
                     colours())));
  Show();
  Raise();
  html_->SetFocus();
  return there;
}

std::string GuideWindow::page() const { return utf8(html_->GetOpenedPage().AfterLast('/')); }

void GuideWindow::opened() {
  keep_readable();
  html_->SendSizeEvent();
  back_->Enable(html_->HistoryCanBack());
  std::string title;
  const std::string file = page();
  if (const auto bytes = read_whole(guide_folder() + "/" + file); bytes) title = page_title(*bytes);
  SetTitle(wx(title.empty() ? std::string(tr("Guide")) : said("Guide: {}", title)));
  set_accessible(*html_, title.empty() ? std::string(tr("Guide")) : title, utf8(html_->ToText()), Role::text);
}

}  // namespace fitwright
