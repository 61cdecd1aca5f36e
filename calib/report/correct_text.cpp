#include <algorithm>
#include <array>
#include <cmath>

#include "base/number.hpp"
#include "base/words.hpp"
#include "report/correct_report.hpp"
#include "report/layout.hpp"
#include "report/wording.hpp"

namespace fitwright {
namespace {

constexpr int effect_decimals = 2;   // mm: what a caliper shows
constexpr int percent_decimals = 3;  // 0.001 % is 1 µm on 100 mm
constexpr std::string_view indent = "      ";

std::string heading(const std::string& text) { return '\n' + text + '\n'; }

/// The rows of the table of changes: what each knob goes from and to, and what that does to an outside length.
std::string change_table(const std::vector<Change>& changes) {
  std::vector<int> lengths;
  for (const Change& c : changes)
    for (const auto& [length, mm] : c.effect_mm)
      if (std::find(lengths.begin(), lengths.end(), length) == lengths.end()) lengths.push_back(length);
  std::sort(lengths.begin(), lengths.end());

  std::vector<std::string> head{"", "now", "new", "u"};
  std::vector<Align> align{Align::left, Align::right, Align::right, Align::right};
  for (const int length : lengths) {
    head.push_back(std::to_string(length) + " mm");
    align.push_back(Align::right);
  }
  std::vector<std::vector<std::string>> rows{head};
  for (const Change& c : changes) {
    const ValueAndU now = value_and_u(c.old_value, c.u);
    const ValueAndU then = value_and_u(c.new_value, c.u);
    std::vector<std::string> row{knob_name(c.knob), now.value, then.value, then.u};
    for (const int length : lengths) {
      const auto effect = c.effect_mm.find(length);
      row.push_back(effect == c.effect_mm.end() ? "" : with_sign(effect->second, effect_decimals));
    }
    rows.push_back(std::move(row));
  }
  return columns(rows, align);
}

std::string change_reasons(const std::vector<Change>& changes) {
  std::string out;
  for (const Change& c : changes) {
    out += paragraph(knob_name(c.knob) + (c.established ? " (established)" : " (not established)") +
                         (c.because.empty() ? "" : ": " + c.because),
                     "  ", indent);
    if (c.knob == "size_factor")
      out += paragraph("As programs ask for it: " + size_factor_forms(c.new_value), indent, indent);
    if (c.knob == "outline_offset_mm") {
      const int decimals = std::max(decimals_for(c.u), effect_decimals);
      out += paragraph("Where it is asked per edge: " + with_sign(c.new_value, decimals) +
                           " mm; where it is asked on a width or diameter: " + with_sign(2 * c.new_value, decimals) +
                           " mm",
                       indent, indent);
    }
  }
  return out;
}

std::string remains_table(const std::map<std::string, Remains>& remains) {
  std::vector<std::vector<std::string>> rows;
  for (const bool slots : {false, true})
    for (const auto& [place, r] : remains) {
      if (place.starts_with("slot") != slots) continue;
      std::vector<std::string> row{place_in_words(place), plus_minus_half(r.value, r.u, r.upper - r.value) + " mm"};
      if (r.half_with_surroundings_mm > 0 && std::isfinite(r.half_with_surroundings_mm))
        row.push_back("(± " + fixed(r.half_with_surroundings_mm, value_and_u(r.value, r.u).decimals) + " mm)");
      rows.push_back(std::move(row));
    }
  return columns(rows, {Align::left, Align::right, Align::right});
}

std::string list(const std::vector<std::string>& lines, std::string_view mark) {
  std::string out;
  for (const std::string& line : lines) out += paragraph(line, "  " + std::string(mark), indent);
  return out;
}

}  // namespace

std::string knob_name(const std::string& knob) {
  struct Entry {
    std::string_view knob;
    const char* words;
  };
  constexpr std::array<Entry, 13> entries{{
      {"size_factor", noted("size factor")},
      {"outline_offset_mm", noted("outline offset, mm")},
      {"flow", noted("flow")},
      {"steps_per_mm.x", noted("steps per mm, X")},
      {"steps_per_mm.y", noted("steps per mm, Y")},
      {"steps_per_mm.z", noted("steps per mm, Z")},
      {"steps_per_mm.e", noted("steps per mm, filament")},
      {"first_layer_inset_mm", noted("inset of the first layer, mm")},
      {"first_layer_height_mm", noted("height of the first layer, mm")},
      {"layer_height_mm", noted("layer height, mm")},
      {"hole_offset_mm", noted("hole offset, mm")},
      {"z_offset_mm", noted("Z offset, mm")},
      {"skew", noted("corner off square")},
  }};
  for (const Entry& entry : entries)
    if (entry.knob == knob) return tr(entry.words);
  return knob;
}

std::string size_factor_forms(double size_factor) {
  constexpr double percent = 100.0;
  return said("larger by {} %; as shrinkage {} %; as size {} %",
              with_sign(percent * (size_factor - 1), percent_decimals),
              said_fixed(percent * (1 - 1 / size_factor), percent_decimals),
              said_fixed(percent * size_factor, percent_decimals));
}

std::string correct_text(const Correction& c) {
  std::string out =
      paragraph("Policy " + std::string(word(c.policy)) + ": " + policy_in_words(c.policy) + '.', "", "  ");
  if (c.changes.empty())
    out += heading("Change nothing.");
  else
    out += heading("Change (and what it does, in mm, to an outside length of that size)") + change_table(c.changes) +
           '\n' + change_reasons(c.changes);
  if (!c.left_alone.empty()) {
    out += heading("Leave alone");
    for (const LeftAlone& l : c.left_alone) out += paragraph(knob_name(l.knob) + ": " + l.because, "  ", indent);
  }
  if (!c.remains_mm.empty())
    out += heading("Error to expect afterwards (± 95 %; in brackets with temperature, jaw force)") +
           remains_table(c.remains_mm);
  if (!c.cautions.empty()) out += heading("Caution") + list(c.cautions, "! ");
  if (!c.commands.empty()) out += heading("What to type where") + list(c.commands, "");
  return out;
}

}  // namespace fitwright
