// The measuring sheet, read back by poppler's tools.

#include "sheet/sheet.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <regex>

#include "base/number.hpp"
#include "design_helpers.hpp"
#include "sheet/page.hpp"
#include "sheet_pages.hpp"

namespace fitwright {
namespace {

using design_test::made;
using sheet_test::Pdf;
using sheet_test::Word;

constexpr double points_per_mm = 72 / 25.4;

std::string sheet(const Coupon& coupon, const SheetOptions& options = {}) {
  const auto bytes = sheet_pdf(coupon, options);
  if (!bytes) throw std::runtime_error(bytes.problems().front().text());
  return *bytes;
}

double middle(const Word& word) { return (word.y0 + word.y1) / 2; }

/// How often the place's number, feature and drawn size stand on one line, in this order (words between may hold it
/// too).
int rows_of(const std::vector<Word>& words, const JawPlace& place, const Feature& feature) {
  const bool three = std::abs(feature.nominal_mm * 100 - std::round(feature.nominal_mm * 100)) > 0.05;
  const std::string number = std::to_string(place.number), drawn = fixed(feature.nominal_mm, three ? 3 : 2);
  int rows = 0;
  for (const Word& id : words) {
    if (id.text != feature.id) continue;
    const auto beside = [&](const std::string& text, bool before) {
      constexpr double same_line = 3;
      return std::count_if(words.begin(), words.end(), [&](const Word& w) {
        return w.text == text && w.page == id.page && std::abs(middle(w) - middle(id)) < same_line &&
               (before ? w.x1 < id.x0 : w.x0 > id.x1);
      });
    };
    if (beside(number, true) == 1 && beside(drawn, false) >= 1) ++rows;
  }
  return rows;
}

int count(const std::string& text, const std::string& words) {
  int n = 0;
  for (std::size_t at = 0; (at = text.find(words, at)) != std::string::npos; at += words.size()) ++n;
  return n;
}

/// Every place has its row in each of `tables`, and every page says which of how many it is.
void check_rows(const Pdf& pdf, const Coupon& coupon, int tables) {
  const std::vector<Word> words = pdf.words();
  for (const JawPlace& place : coupon.places) {
    INFO(coupon.design << ' ' << place.feature_id);
    CHECK(rows_of(words, place, design_test::feature(coupon, place.feature_id)) == tables);
  }
  for (int page = 1; page <= pdf.pages(); ++page)
    CHECK(count(pdf.text(page), std::to_string(page) + " of " + std::to_string(pdf.pages())) == 1);
}

/// Words stand within the margins, and none on another.
void check_words(const Pdf& pdf, double width_mm, double height_mm) {
  const double margin = 10 * points_per_mm, right = width_mm * points_per_mm - margin,
               bottom = height_mm * points_per_mm - 5 * points_per_mm;
  const std::vector<Word> words = pdf.words();
  CHECK(words.size() > 100);
  for (std::size_t i = 0; i < words.size(); ++i) {
    const Word& a = words[i];
    INFO(a.text << " on page " << a.page);
    CHECK(a.x0 >= margin);
    CHECK(a.x1 <= right);
    CHECK(a.y0 >= margin);
    CHECK(a.y1 <= bottom);
    for (std::size_t k = i + 1; k < words.size(); ++k) {
      const Word& b = words[k];
      // The boxes are as high as the font's line: a quarter of it above and below may be shared.
      const double share = 0.25 * std::min(a.y1 - a.y0, b.y1 - b.y0);
      const bool meet = a.page == b.page && std::min(a.x1, b.x1) - std::max(a.x0, b.x0) > 0.1 &&
                        std::min(a.y1, b.y1) - std::max(a.y0, b.y0) > share;
      if (meet) FAIL_CHECK(a.text << " and " << b.text << " stand on each other on page " << a.page);
    }
  }
}

}  // namespace

TEST_CASE("The sheet of every design has a row for every place, once") {
  for (const DesignInfo& info : designs()) {
    INFO(info.name);
    const Coupon coupon = made(info.name);
    const Pdf pdf(sheet(coupon));
    CHECK(pdf.info("Page size") == "595.276 x 841.89 pts (A4)");
    CHECK(pdf.info("Title") == "Measuring sheet: " + info.name);
    const bool tried = !coupon.trials.places.empty() || !coupon.latches.empty();
    CHECK(pdf.pages() == (tried ? 3 : 2));
    check_rows(pdf, coupon, 1);
    check_words(pdf, 210, 297);
  }
}

TEST_CASE("Letters of the sheet are embedded, and none smaller than 8 points") {
  for (const DesignInfo& info : designs()) {
    const Pdf pdf(sheet(made(info.name), {2, 2, false}));
    const auto fonts = pdf.fonts();
    CHECK(!fonts.empty());
    for (const std::string& font : fonts) {
      INFO(font);
      CHECK(font.find("+DejaVuSans") != std::string::npos);  // the six letters before: a part of the font, embedded
      CHECK(std::regex_search(font, std::regex(R"( yes yes yes +\d+ +\d+$)")));
    }
    const auto sizes = pdf.font_sizes();
    CHECK(!sizes.empty());
    for (const double size : sizes) CHECK(size >= 8);
  }
}

TEST_CASE("Boxes of the sheet are high enough to write in") { CHECK(sheet_style::write_mm >= 7); }

TEST_CASE("Equal input gives equal bytes, whatever the day") {
  const Coupon coupon = made("frame");
  const std::string bytes = sheet(coupon);
  CHECK(sheet(coupon) == bytes);
  CHECK(sheet(made("frame")) == bytes);
  const Pdf pdf(bytes);
  CHECK(pdf.info("CreationDate") == "2000-01-01T00:00:00Z");
  CHECK(pdf.info("ModDate").empty());
  CHECK(sheet(coupon, {2, 2, false}) != bytes);
}

TEST_CASE("Letter paper: the same rows on the other page size") {
  for (const DesignInfo& info : designs()) {
    INFO(info.name);
    const Coupon coupon = made(info.name);
    const Pdf pdf(sheet(coupon, {2, 2, true}));
    CHECK(pdf.info("Page size") == "612 x 792 pts (letter)");
    check_rows(pdf, coupon, 1);
    check_words(pdf, 215.9, 279.4);
  }
}

TEST_CASE("Copies that do not fit side by side get tables of their own") {
  const Coupon coupon = made("bores");
  const Pdf pdf(sheet(coupon, {5, 2, false}));
  check_rows(pdf, coupon, 3);
  check_words(pdf, 210, 297);
  const std::string text = pdf.text();
  for (int copy = 1; copy <= 5; ++copy) CHECK(count(text, "Copy " + std::to_string(copy) + ' ') == 1);
}

TEST_CASE("As many boxes as repeats, and one more for places that differ") {
  const Coupon coupon = made("stair");
  const auto text = [&](int repeats) { return Pdf(sheet(coupon, {1, repeats, false})).text(2); };
  CHECK(count(text(1), "2nd ") == count(text(2), "2nd ") - 1);  // the caliper's zero has a 2nd, too
  CHECK(text(1).find("*") == std::string::npos);
  CHECK(text(2).find("3rd *") != std::string::npos);
  CHECK(text(2).find("* only where two readings differ by more than 0.05") != std::string::npos);
  CHECK(text(5).find("6th *") != std::string::npos);
}

TEST_CASE("A table longer than a page goes on under its head") {
  Coupon coupon = made("stair");
  const auto places = coupon.places;
  for (int more = 1; more <= 5; ++more)
    for (JawPlace place : places) {
      Feature feature = design_test::feature(coupon, place.feature_id);
      feature.id += "v" + std::to_string(more);
      place.feature_id = feature.id;
      place.number = static_cast<int>(coupon.places.size()) + 1;
      coupon.features.push_back(feature);
      coupon.places.push_back(place);
    }
  const Pdf pdf(sheet(coupon));
  CHECK(pdf.pages() == 3);
  check_rows(pdf, coupon, 1);
  CHECK(count(pdf.text(3), "Readings, mm, continued") == 1);
  for (const int page : {2, 3}) CHECK(count(pdf.text(page), "drawn, mm") == 1);
}

TEST_CASE("Cautions and advice stand where they are needed") {
  for (const DesignInfo& info : designs()) {
    INFO(info.name);
    const Pdf pdf(sheet(made(info.name)));
    const auto plain = [&](int page) { return std::regex_replace(pdf.text(page), std::regex(R"(\s+)"), " "); };
    const std::string before = plain(1), reading = plain(2);
    CHECK(before.find("Hot end and bed burn") != std::string::npos);
    CHECK(before.find("never pry") != std::string::npos);
    CHECK(before.find("by 90 degrees") != std::string::npos);
    CHECK(before.find("No automatic turning") != std::string::npos);
    for (const char* box :
         {"Printer", "Material", "Nozzle", "Layer", "Date", "Size factor", "Outline offset", "Flow", "Steps/mm X"})
      CHECK(before.find(box) != std::string::npos);
    CHECK(before.find("front of the machine") != std::string::npos);
    CHECK(std::regex_search(before, std::regex(R"(scale [0-9.]+ : [0-9.]+, seen from above)")));
    CHECK(reading.find("lip of the first layers is sharp") != std::string::npos);
    CHECK(reading.find("room temperature") != std::string::npos);
    CHECK(reading.find("Caliper first") < reading.find("Readings, mm"));
  }
}

TEST_CASE("A design's own advice stands with the work it is for, and a block has a box for its weight") {
  const Pdf pdf(sheet(made("walls")));
  CHECK(pdf.text(1).find("Look at the preview first") != std::string::npos);
  CHECK(pdf.text(1).find("Two-bead wall: enter") == std::string::npos);
  CHECK(pdf.text(2).find("Two-bead wall: enter") != std::string::npos);
  CHECK(std::regex_search(pdf.text(2), std::regex("weigh +block, grams")));
  CHECK(Pdf(sheet(made("walls", {{"piece", "1"}}))).text(2).find("grams") == std::string::npos);
}

TEST_CASE("The page of trials: the five grades, a row for every place, a group of boxes for every part and copy") {
  const Coupon rail = made("rail");
  const std::string page = Pdf(sheet(rail)).text(3);
  for (const char* words : {"will not enter", "1 press", "push by hand", "slides", "rattles", "Eye", "vice"})
    CHECK(page.find(words) != std::string::npos);
  for (const Trial& trial : rail.trials.places) CHECK(count(page, trial.id + ' ') == 1);
  CHECK(page.find("+0.050") != std::string::npos);
  CHECK(page.find("-0.200") != std::string::npos);
  for (const char* part : {"Copy 1, P8a", "Copy 1, P8b"}) CHECK(count(page, part) == 1);
  CHECK(count(Pdf(sheet(rail, {3, 2, false})).text(), "Copy 3, P8b") == 1);

  const Coupon latch = made("latch");
  const std::string latches = Pdf(sheet(latch)).text(3);
  for (const LatchTrial& l : latch.latches) CHECK(count(latches, "\n" + l.id + ' ') == 1);
  CHECK(latches.find("2.30") != std::string::npos);  // 3 x 2 x 1.5 / (2 x 14 x 14), per cent
  CHECK(latches.find("Eye protection") != std::string::npos);
}

TEST_CASE("Copies and repeats out of range are refused, both at once") {
  const auto bytes = sheet_pdf(made("frame"), {0, SheetOptions::most_repeats + 1, false});
  REQUIRE(!bytes);
  REQUIRE(bytes.problems().size() == 2);
  CHECK(bytes.problems()[0].code == Code::usage);
  CHECK(bytes.problems()[0].text() == "copies = 0 does not suit a measuring sheet; take 1 to 8");
  CHECK(bytes.problems()[1].text() == "repeats = 6 does not suit a measuring sheet; take 1 to 5");
}

}  // namespace fitwright
