#include "fits/hardware.hpp"

#include <algorithm>
#include <cctype>

#include "base/number.hpp"
#include "base/words.hpp"
#include "fits/hardware_rows.hpp"
#include "fits/iso286.hpp"

namespace fitwright {
namespace {

constexpr double um_per_mm = 1000;
/// Width of a bearing ring: 0 to -120 µm for bores over 2.5 mm (ISO 492, class Normal).
constexpr double ring_width_low_mm = 0.12;
/// Disc magnets as sold: plus or minus this (common practice, no source).
constexpr double magnet_limit_mm = 0.1;

struct Step {
  double up_to_mm, low_um;
};
/// ISO 492, class Normal: lower deviation of the mean bore and outside diameter, upper one 0.
constexpr Step bore_steps[] = {{18, 8}, {30, 10}, {50, 12}, {80, 15}};
constexpr Step outside_steps[] = {{18, 8}, {30, 9}, {50, 11}, {80, 13}};

double lower_mm(const Step* steps, double size_mm) {
  while (size_mm > steps->up_to_mm) ++steps;
  return size_mm - steps->low_um / um_per_mm;
}

HardwareSize between(const char* what, double nominal_mm, double low_mm, double high_mm, bool round = true,
                     bool inside = false) {
  return {what, nominal_mm, low_mm, high_mm, round, inside};
}

HardwareSize by_class(const char* what, double nominal_mm, const char* name, bool inside = false) {
  const ClassLimits limits = class_limits(nominal_mm, name).value();
  return between(what, nominal_mm, nominal_mm + limits.lower_um / um_per_mm, nominal_mm + limits.upper_um / um_per_mm,
                 true, inside);
}

const char* note_of(hardware::Sure sure) {
  switch (sure) {
    case hardware::Sure::one_list:
      return noted("Size from one list only: measure it.");
    case hardware::Sure::memory:
      return noted("Size from memory, no source: measure it.");
    case hardware::Sure::two_lists:
      break;
  }
  return "";
}

void add_bearings(std::vector<Hardware>& out) {
  for (const auto& b : hardware::bearings)
    out.push_back(
        {std::string("bearing ") + b.name,
         "ISO 15, ISO 492 class Normal",
         {between(noted("outside diameter"), b.outside_mm, lower_mm(outside_steps, b.outside_mm), b.outside_mm),
          between(noted("bore"), b.bore_mm, lower_mm(bore_steps, b.bore_mm), b.bore_mm, true, true),
          between(noted("width"), b.width_mm, b.width_mm - ring_width_low_mm, b.width_mm, false)},
         note_of(b.sure),
         "ball deep groove",
         false});
}

void add_pins(std::vector<Hardware>& out) {
  const auto add = [&](double d, const char* standard, const char* name, const char* words) {
    out.push_back({"dowel pin " + shortest(d) + ' ' + name,
                   std::string(standard) + ' ' + name,
                   {by_class(noted("diameter"), d, name)},
                   "",
                   words,
                   false});
  };
  for (const double d : hardware::pins_8734_mm) add(d, "ISO 8734", "m6", "steel hardened parallel");
  for (const double d : hardware::pins_2338_mm) add(d, "ISO 2338", "h8", "steel parallel");
}

void add_threads(std::vector<Hardware>& out) {
  for (const auto& t : hardware::threads) {
    const std::string m = t.name;
    const double nut = t.nut_flats.high_mm, head = t.hex_flats.high_mm;
    out.push_back({"hexagon nut " + m,
                   "ISO 4032",
                   {between(noted("across flats"), nut, t.nut_flats.low_mm, nut, false),
                    between(noted("height"), t.nut_height.high_mm, t.nut_height.low_mm, t.nut_height.high_mm, false)},
                   "",
                   "hex nut",
                   false});
    out.push_back(
        {"socket head screw " + m,
         "ISO 4762",
         {between(noted("head diameter"), t.socket_head.plain_mm, t.socket_head.low_mm, t.socket_head.knurled_mm)},
         noted("The upper limit is that of a knurled head."),
         "cap bolt",
         false});
    out.push_back({"hexagon head screw " + m,
                   "ISO 4017",
                   {between(noted("across flats"), head, t.hex_flats.low_mm, head, false)},
                   "",
                   "hex bolt",
                   false});
    out.push_back(
        {"washer " + m,
         "ISO 7089",
         {between(noted("outside diameter"), t.washer_outside.high_mm, t.washer_outside.low_mm,
                  t.washer_outside.high_mm),
          between(noted("hole"), t.washer_hole.low_mm, t.washer_hole.low_mm, t.washer_hole.high_mm, true, true)},
         "",
         "plain",
         false});
  }
  for (const auto& c : hardware::clearance_holes) {
    Hardware h{std::string("clearance hole ") + c.thread, "ISO 273, ISO 286-2", {}, "", "screw through", false};
    h.sizes = {by_class(noted("fine"), c.fine_mm, "H12", true), by_class(noted("medium"), c.medium_mm, "H13", true),
               by_class(noted("coarse"), c.coarse_mm, "H14", true)};
    if (c.thread == std::string_view("M12")) h.note = noted("Public lists differ for M12: check before drilling.");
    h.note = h.note.empty() ? noted("A hole to be drawn for a screw to pass, not a part that is bought.") : h.note;
    out.push_back(std::move(h));
  }
}

void add_magnets(std::vector<Hardware>& out) {
  for (const auto& m : hardware::magnets)
    out.push_back(
        {"disc magnet " + shortest(m.diameter_mm) + " x " + shortest(m.height_mm),
         "common practice, no source",
         {between(noted("diameter"), m.diameter_mm, m.diameter_mm - magnet_limit_mm, m.diameter_mm + magnet_limit_mm),
          between(noted("height"), m.height_mm, m.height_mm - magnet_limit_mm, m.height_mm + magnet_limit_mm, false)},
         noted("No standard holds for magnets: measure yours. Dangerous when swallowed: keep them from "
               "children and pets, and glue them in as well."),
         "magnet round " + shortest(m.diameter_mm) + "x" + shortest(m.height_mm),
         false});
}

std::string lower(std::string_view text) {
  std::string out(text);
  for (char& c : out) c = static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
  return out;
}

std::vector<std::string> words_in(const std::string& text) {
  std::vector<std::string> out;
  std::string word;
  for (const char c : text + ' ') {
    if (c != ' ' && c != ',' && c != '\t') {
      word += c;
    } else if (!word.empty()) {
      out.push_back(word);
      word.clear();
    }
  }
  return out;
}

bool is_digit(char c) { return c >= '0' && c <= '9'; }

/// How well a wanted word fits one of the part's: 3 the same, 2 its beginning, 1 within it; a word with digits must be
/// the same ("m3" is not "m30", "608" is not "6080"), but for closing letters ("693" finds "693zz").
int fits(const std::string& wanted, const std::string& word) {
  if (word == wanted) return 3;
  const bool digits = std::any_of(wanted.begin(), wanted.end(), is_digit);
  if (word.starts_with(wanted)) {
    const bool goes_on = digits && (is_digit(word[wanted.size()]) || word[wanted.size()] == '.' ||
                                    word[wanted.size()] == 'x' || word[wanted.size()] == '/');
    return goes_on ? 0 : 2;
  }
  if (digits || wanted.size() < 3) return 0;
  return word.find(wanted) != std::string::npos ? 1 : 0;
}

int score(const std::vector<std::string>& wanted, const Hardware& h) {
  const auto words = words_in(lower(h.name + ' ' + h.words + ' ' + h.standard));
  int sum = 0;
  for (const std::string& w : wanted) {
    int best = 0;
    for (const std::string& word : words) best = std::max(best, fits(w, word));
    if (best == 0) return 0;
    sum += best;
  }
  return sum;
}

}  // namespace

const std::vector<Hardware>& hardware_table() {
  static const std::vector<Hardware> table = [] {
    std::vector<Hardware> out;
    add_bearings(out);
    add_pins(out);
    add_threads(out);
    add_magnets(out);
    return out;
  }();
  return table;
}

std::vector<Hardware> find_hardware(std::string_view words, std::span<const Hardware> own) {
  const auto wanted = words_in(lower(words));
  std::vector<std::pair<int, const Hardware*>> found;
  const auto look = [&](const Hardware& h) {
    if (wanted.empty())
      found.emplace_back(1, &h);
    else if (const int s = score(wanted, h); s > 0)
      found.emplace_back(s, &h);
  };
  for (const Hardware& h : own) look(h);
  for (const Hardware& h : hardware_table()) look(h);
  std::stable_sort(found.begin(), found.end(), [](const auto& a, const auto& b) { return a.first > b.first; });
  std::vector<Hardware> out;
  for (const auto& [s, h] : found) out.push_back(*h);
  return out;
}

Mate mate_of(const Hardware& hardware, const HardwareSize& size) {
  return {hardware.own ? MateKind::measured : MateKind::limits,
          hardware.name + ", " + tr(size.what.c_str()),
          size.low_mm,
          size.high_mm,
          size.round,
          size.inside};
}

Hardware own_part(const std::string& name, double reading_mm, bool round, bool inside) {
  return {name,
          tr("measured"),
          {{inside ? noted("inside") : noted("outside"), reading_mm, reading_mm, reading_mm, round, inside}},
          own_caliper_cancels(),
          "own part",
          true};
}

std::string own_caliper_cancels() {
  return tr(
      "It was read with the caliper that read the coupons: what that caliper adds to every reading cancels between "
      "the two.");
}

}  // namespace fitwright
