// fitw sheet: a page to take to the bench.

#include "sheet/sheet.hpp"

#include "base/file.hpp"
#include "commands.hpp"
#include "design/design.hpp"

namespace fitw {
namespace {

constexpr const char* footer = R"(Examples:
  fitw sheet frame --out frame.pdf
  fitw sheet frame --out frame-2.pdf --copies 2 --set side_mm=90)";

Outcome run(Words& words) {
  Outcome outcome;
  const std::string design = words.word();
  const std::string path = words.required("--out");
  const auto settings = words.settings("--set");
  const fitwright::SheetOptions defaults;
  fitwright::SheetOptions options;
  options.copies = words.whole("--copies", defaults.copies, 1, fitwright::SheetOptions::most_copies);
  options.repeats = words.whole("--repeats", defaults.repeats, 1, fitwright::SheetOptions::most_repeats);
  options.letter = words.choice("--paper", {"a4", "letter"}) == "letter";
  outcome.problems = words.problems();
  if (!outcome.problems.empty()) return outcome;

  const auto coupon = fitwright::make_coupon(design, settings);
  if (!coupon) {
    add(outcome.problems, coupon.problems());
    return outcome;
  }
  const auto pdf = fitwright::sheet_pdf(*coupon, options);
  if (!pdf) {
    add(outcome.problems, pdf.problems());
    return outcome;
  }
  if (const auto written = fitwright::write_whole(path, *pdf); !written) {
    add(outcome.problems, written.problems());
    return outcome;
  }
  outcome.out = "Measuring sheet of " + design + ", " + std::to_string(coupon->places.size()) + " places, written to " +
                path + '\n';
  return outcome;
}

}  // namespace

Command sheet_command(CLI::App& root) {
  auto words = std::make_unique<Words>(root, "sheet", "A page to print, with a box for each reading", footer);
  words->declare_word("DESIGN", "One of those that fitw coupons lists");
  words->declare("--out", "FILE.pdf", "Where the sheet goes");
  words->declare_settings("--set", "NAME=VALUE", "A parameter of the design, as in fitw make; may be given again");
  words->declare("--copies", "N", "Printed copies to measure (1)");
  words->declare("--repeats", "N", "Readings of each place (2)");
  words->declare("--paper", "a4|letter", "Paper (a4)");
  return {std::move(words), run};
}

}  // namespace fitw
