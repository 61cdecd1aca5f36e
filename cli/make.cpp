// fitw make: a coupon to print.

#include <filesystem>

#include "base/file.hpp"
#include "base/number.hpp"
#include "base/text.hpp"
#include "commands.hpp"
#include "design/advice.hpp"
#include "design/design.hpp"
#include "design/pockets.hpp"
#include "design/readings_template.hpp"
#include "design/trials_template.hpp"
#include "fits/hardware.hpp"
#include "mesh/mesh.hpp"
#include "report/layout.hpp"
#include "staging.hpp"

namespace fitw {
namespace {

using fitwright::Coupon;
using fitwright::Done;
using fitwright::Result;
using fitwright::shortest;
using Settings = std::vector<std::pair<std::string, std::string>>;

/// More is typed by nobody.
constexpr int most_copies = 20, most_repeats = 20;

constexpr const char* footer = R"(Writes DESIGN.stl or DESIGN.3mf, DESIGN.features.csv (what to measure),
DESIGN.svg (where the jaws go) and DESIGN.readings.csv (a row for each reading,
to be filled in; rows may stay empty); for coupons whose places are tried,
DESIGN.trials.csv too (a row for each trial): all of them, or none.

Examples:
  fitw make frame --out heron
  fitw make frame --out wren --format 3mf --set side_mm=90 --set bed_x_mm=180
  fitw make rail --out wren --set diameter_mm=5 --set step_mm=0.025
  fitw make pockets --part "bearing 608" --out wren --set count=6

Before printing: no auto-rotate and no rescaling in the program that prepares
the print; note the size factor, offsets and flow that are set there; seam to
the marked corner; brim off, or outside only.

Take care: hot end and bed burn and stay hot; let the bed cool before taking
a part off, never pry toward the hand.)";

Result<Done> write_solid(const fitwright::Mesh& mesh, const std::string& name, const std::string& path, bool as_3mf) {
  return as_3mf ? fitwright::write_3mf(mesh, name, path) : fitwright::write_whole(path, fitwright::to_stl(mesh));
}

/// Writes the coupon's files, all or none. Gives their names.
Result<std::vector<std::string>> write_files(const Coupon& coupon, const fitwright::Mesh& mesh,
                                             const std::string& folder, const std::string& format,
                                             const fitwright::TemplateOptions& rows) {
  auto staging = Staging::in(folder);
  if (!staging) return staging.problems();
  const std::string solid = coupon.design + '.' + format;
  const std::string features = coupon.design + ".features.csv";
  const std::string plan = coupon.design + ".svg";
  const std::string readings = coupon.design + ".readings.csv";
  Problems problems;
  const auto note = [&](const Result<Done>& written) {
    if (!written) add(problems, written.problems());
  };
  note(write_solid(mesh, coupon.design, staging->path_for(solid), format == "3mf"));
  note(fitwright::write_whole(staging->path_for(features), features_csv(coupon)));
  note(fitwright::write_whole(staging->path_for(plan), plan_svg(coupon)));
  note(fitwright::write_whole(staging->path_for(readings), readings_template(coupon, rows)));
  std::vector<std::string> names{solid, features, plan, readings};
  if (!coupon.trials.places.empty()) {
    names.push_back(coupon.design + ".trials.csv");
    note(fitwright::write_whole(staging->path_for(names.back()), fitwright::trials_template(coupon, rows.copies)));
  }
  if (problems.empty()) note(staging->commit());
  if (!problems.empty()) return problems;
  return names;
}

std::string summary(const Coupon& coupon, const fitwright::Mesh& mesh) {
  using fitwright::Align;
  constexpr int volume_decimals = 0;
  constexpr int grams_decimals = 1;
  std::string out = coupon.design + '\n';
  out += fitwright::columns({{"size", shortest(coupon.size_x_mm) + " x " + shortest(coupon.size_y_mm) + " x " +
                                          shortest(coupon.size_z_mm) + " mm"},
                             {"layers", std::to_string(coupon.layers)},
                             {"volume", fitwright::fixed(coupon.volume_mm3, volume_decimals) + " mm³"},
                             {"weight", fitwright::fixed(coupon.grams, grams_decimals) + " g, printed solid"},
                             {"triangles", std::to_string(mesh.triangles.size())},
                             {"to measure", std::to_string(coupon.places.size()) + " places"}},
                            {Align::left, Align::left});
  return out;
}

std::string advice(const std::string& title, const std::vector<std::string>& lines, const std::string& caution) {
  std::string out = '\n' + title + '\n';
  for (const std::string& line : lines) out += fitwright::paragraph(line, "  - ", "    ");
  return out + fitwright::paragraph(caution, "  ! ", "    ");
}

/// The hardware that --part asks for, its size and shape added to the settings. Mistakes go to `words`.
std::optional<fitwright::Hardware> take_part(Words& words, const std::string& design, Settings& settings) {
  namespace pocket = fitwright::pockets_param;
  const auto typed = words.text("--part");
  if (!typed) return std::nullopt;
  if (design != "pockets") {
    words.complain("--part is for the design pockets only", "leave it out, or make pockets");
    return std::nullopt;
  }
  const auto found = fitwright::find_hardware(*typed);
  if (found.empty()) {
    words.complain("--part: nothing is found by " + fitwright::quote(*typed),
                   "try fewer words, like \"bearing 608\" or \"M3 nut\", or give its size: --set " +
                       std::string(pocket::size) + "=MM");
    return std::nullopt;
  }
  const auto& sizes = found.front().sizes;
  const auto size = std::find_if(sizes.begin(), sizes.end(), [](const auto& s) { return !s.inside; });
  if (size == sizes.end()) {
    words.complain("--part: " + found.front().name + " has no outside that a pocket could hold",
                   "give its size: --set " + std::string(pocket::size) + "=MM");
    return std::nullopt;
  }
  settings.emplace_back(pocket::size, shortest(size->nominal_mm));
  if (!size->round) settings.emplace_back(pocket::sides, size->what == "across flats" ? "6" : "4");
  return found.front();
}

std::string part_words(const fitwright::Hardware& part) {
  std::string sizes;
  for (const auto& s : part.sizes)
    if (!s.inside)
      sizes += (sizes.empty() ? "" : ", ") + s.what + " " + shortest(s.low_mm) + " to " + shortest(s.high_mm) + " mm";
  return fitwright::paragraph("For " + part.name + ": " + sizes + " (" + part.standard + ")", "", "  ") +
         (part.note.empty() ? "" : fitwright::paragraph(part.note, "  ", "  "));
}

/// For coupons that are tried: what to do before, the grades, where it can hurt.
std::string trying(const Coupon& coupon) {
  const std::vector<std::string> lines = before_trying(coupon);
  if (lines.empty()) return {};
  std::string out = "\nBefore trying\n";
  for (const std::string& line : lines) out += fitwright::paragraph(line, "  - ", "    ");
  for (const std::string& caution : trying_cautions(coupon)) out += fitwright::paragraph(caution, "  ! ", "    ");
  if (coupon.trials.places.empty()) return out;
  out += "\nGrades\n";
  for (const fitwright::GradeWords& grade : fitwright::grade_words())
    out += fitwright::paragraph(std::string(grade.felt) + ": " + grade.how, "  " + std::to_string(grade.grade) + " ",
                                "    ");
  return out;
}

Outcome run(Words& words) {
  Outcome outcome;
  const std::string design = words.word();
  const std::string folder = words.required("--out");
  const std::string format = words.choice("--format", {"stl", "3mf"});
  auto settings = words.settings("--set");
  const auto part = take_part(words, design, settings);
  fitwright::TemplateOptions rows;
  rows.copies = words.whole("--copies", rows.copies, 1, most_copies);
  rows.repeats = words.whole("--repeats", rows.repeats, 1, most_repeats);
  outcome.problems = words.problems();
  if (!outcome.problems.empty()) return outcome;

  auto coupon = fitwright::make_coupon(design, settings);
  if (!coupon) {
    add(outcome.problems, coupon.problems());
    return outcome;
  }
  if (part) coupon->trials.part = part->name, coupon->trials.magnets = part->name.find("magnet") != std::string::npos;
  const fitwright::Mesh mesh = fitwright::mesh_of(coupon->solid);
  const auto files = write_files(*coupon, mesh, folder, format, rows);
  if (!files) {
    add(outcome.problems, files.problems());
    return outcome;
  }
  outcome.out = summary(*coupon, mesh) + (part ? "\n" + part_words(*part) : "") + "\nWritten\n";
  for (const std::string& name : *files) outcome.out += "  " + (std::filesystem::path(folder) / name).string() + '\n';
  outcome.out += advice("Before printing", before_printing(*coupon), fitwright::taking_off_caution());
  outcome.out += advice("Before measuring", before_measuring(*coupon), fitwright::lip_caution());
  outcome.out += trying(*coupon);
  return outcome;
}

}  // namespace

Command make_command(CLI::App& root) {
  auto words = std::make_unique<Words>(root, "make", "A coupon to print, its features and a plan", footer);
  words->declare_word("DESIGN", "One of those that fitw coupons lists");
  words->declare("--out", "DIR", "Folder for the files; made if it is not there");
  words->declare("--format", "stl|3mf", "File format of the solid (stl)");
  words->declare_settings("--set", "NAME=VALUE",
                          "A parameter of the design (fitw coupons lists them); may be given again");
  words->declare("--part", "WORDS", "For pockets: the hardware they take: \"bearing 608\", \"M3 nut\", \"magnet 6x3\"");
  words->declare("--copies", "N",
                 "Copies that the readings file has rows for (1); every second one turned by 90 degrees");
  words->declare("--repeats", "N", "Rows for each place (2; a third is for where two differ by more than 0.05 mm)");
  return {std::move(words), run};
}

}  // namespace fitw
