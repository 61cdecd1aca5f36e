#pragma once
// The guide in a window of its own, which can stay open beside the work.

#include <wx/button.h>
#include <wx/frame.h>
#include <wx/html/htmlwin.h>

#include <string>

namespace fitwright {

/// Where the guide lies: beside the program as it is installed, else in the source tree it was built from. Empty when
/// it is in neither.
std::string guide_folder();

class GuideWindow : public wxFrame {
 public:
  explicit GuideWindow(wxWindow* parent);

  /// Shows a page by its file name, and comes to the front. False when there is no such page: the window says so.
  bool show(const std::string& page);
  /// File name of the page that is shown.
  [[nodiscard]] std::string page() const;
  wxHtmlWindow& text() { return *html_; }

 private:
  void style();
  void keep_readable();
  void opened();
  void go(const wxString& address);

  wxHtmlWindow* html_;
  wxButton* back_;
};

}  // namespace fitwright
