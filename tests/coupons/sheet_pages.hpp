#pragma once
// A PDF read back by another program (poppler's tools), for the tests of the measuring sheet.

#include <string>
#include <vector>

namespace fitwright::sheet_test {

/// A word and where it stands on its page, points from the top left corner.
struct Word {
  std::string text;
  int page = 1;
  double x0 = 0, y0 = 0, x1 = 0, y1 = 0;
};

/// A PDF on disk for as long as this lives.
class Pdf {
 public:
  explicit Pdf(const std::string& bytes);
  ~Pdf();
  Pdf(const Pdf&) = delete;
  Pdf& operator=(const Pdf&) = delete;

  /// What pdfinfo says after "KEY:".
  [[nodiscard]] std::string info(const std::string& key) const;
  [[nodiscard]] int pages() const;
  /// Text of one page, or of all (0), laid out as it looks.
  [[nodiscard]] std::string text(int page = 0) const;
  [[nodiscard]] std::vector<Word> words() const;
  /// Lines of pdffonts below its heading.
  [[nodiscard]] std::vector<std::string> fonts() const;
  /// Sizes of fonts in use, points.
  [[nodiscard]] std::vector<double> font_sizes() const;

 private:
  std::string path_;
};

}  // namespace fitwright::sheet_test
