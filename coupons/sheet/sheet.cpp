#include "sheet/sheet.hpp"

#include <algorithm>
#include <array>

#include "base/number.hpp"
#include "base/words.hpp"
#include "design/advice.hpp"
#include "design/parameters.hpp"
#include "sheet/page.hpp"
#include "sheet/table.hpp"
#include "sheet/trials.hpp"

namespace fitwright {
namespace {

using namespace sheet_style;

Problems misfits(const SheetOptions& options) {
  Problems problems;
  const auto check = [&](const char* name, int value, int most) {
    if (value < 1 || value > most)
      problems.push_back(
          {Code::usage, {}, said("{} = {} does not suit a measuring sheet", name, value), said("take 1 to {}", most)});
  };
  check("copies", options.copies, SheetOptions::most_copies);
  check("repeats", options.repeats, SheetOptions::most_repeats);
  return problems;
}

std::string facts(const Coupon& coupon) {
  const auto value = [&](const char* name) { return shortest(coupon.values.at(name)); };
  return said("{} x {} x {} mm     {} g solid     {} layers, first {}, then {} mm", said_fixed(coupon.size_x_mm, 1),
              said_fixed(coupon.size_y_mm, 1), said_fixed(coupon.size_z_mm, 1), said_fixed(coupon.grams, 1),
              coupon.layers, value(param::first_layer_height), value(param::layer_height));
}

void opening(Page& page, const Coupon& coupon) {
  Canvas& canvas = page.canvas;
  const TextStyle large{18, true}, question{9.5};
  canvas.on_baseline({page.left(), page.y + 6}, tr("Measuring sheet"), large);
  canvas.on_baseline({page.right(), page.y + 6}, tr(coupon.design.c_str()), anchored(large, Anchor::end));
  for (const DesignInfo& info : designs())
    if (info.name == coupon.design) canvas.on_baseline({page.left(), page.y + 12}, info.question, question);
  canvas.on_baseline({page.left(), page.y + 16.8}, facts(coupon), small);
  page.y += 18.5;
  canvas.line({page.left(), page.y}, {page.right(), page.y}, 0.5);
  page.y += 2.5;
}

void setup(Page& page) {
  page.title(tr("Setup"), tr("what these readings are valid for"));
  page.fields({{tr("Printer"), 3}, {tr("Material, colour, batch"), 5}, {tr("Nozzle, mm"), 2}, {tr("Date printed"), 3}});
  page.y += 1.2;
  page.fields({{tr("Layer and first layer, mm"), 3},
               {tr("Bead width, mm"), 2.5},
               {tr("Hot end and bed, °C"), 3},
               {tr("Caliper"), 4.5}});
  page.y += gap_mm;
  page.title(tr("In force for this print"), tr("as set in the machine and in the program that prepares the print"));
  page.fields({{tr("Size factor")},
               {tr("Outline offset, mm"), 1.45},
               {tr("Hole offset, mm"), 1.2},
               {tr("Flow")},
               {tr("Steps/mm X")},
               {"Y"},
               {"Z"},
               {"E"}});
  page.y += gap_mm;
}

/// What the outlines of the numbers and the marks mean, as far as the plan has them.
void key(Page& page, const Coupon& coupon) {
  double x = page.left();
  const auto entry = [&](std::vector<PlanItem> mark, const std::string& words) {
    page.canvas.paint(mark, {x + 1.6, page.y + 1.75});
    page.canvas.text({x + 4.8, page.y}, words, small);
    x += 9 + page.canvas.text_width(words, small);
  };
  for (const Tool tool : {Tool::outside_jaws, Tool::inside_jaws, Tool::shank}) {
    std::vector<PlanItem> mark;
    add_number(mark, {0, 0}, 1.6, 0, tool, plan_colour::ink);
    if (std::any_of(coupon.places.begin(), coupon.places.end(), [&](const JawPlace& place) {
          return tool_of(place, find_feature(coupon, place.feature_id)) == tool;
        }))
      entry(mark, tool_words(tool));
  }
  if (std::any_of(coupon.places.begin(), coupon.places.end(),
                  [](const JawPlace& place) { return place.ax == place.bx && place.ay == place.by; }))
    entry({PlanOutline{{{{-1.2, -1.2}, {1.2, -1.2}, {1.2, 1.2}, {-1.2, 1.2}}},
                       plan_colour::bluish_green,
                       plan_colour::bluish_green,
                       0}},
          tr("height: one jaw here, the other below"));
  else
    entry({PlanOutline{{{{-1.4, -1.1}, {-1.4, 1.1}, {1.2, 0}}}, plan_colour::ink, plan_colour::ink, 0}},
          tr("tip on the face"));
}

void plan(Page& page, const Coupon& coupon) {
  // Largest first; 2, 1, 1/2, 1/5 are those of ISO 5455, the rest between them.
  struct Scale {
    double page_per_mm;
    const char* words;
  };
  constexpr std::array<Scale, 8> scales{{{2, "2 : 1"},
                                         {1.5, "1.5 : 1"},
                                         {1.25, "1.25 : 1"},
                                         {1, "1 : 1"},
                                         {0.8, "1 : 1.25"},
                                         {0.5, "1 : 2"},
                                         {0.4, "1 : 2.5"},
                                         {0.2, "1 : 5"}}};
  constexpr double key_mm = 7;
  const double room = page.room() - key_mm;
  for (const Scale& scale : scales) {
    const PlanScene scene = plan_scene(coupon, scale.page_per_mm);
    if ((scene.width_mm > page.width() || scene.height_mm > room) && scale.page_per_mm > scales.back().page_per_mm)
      continue;
    page.canvas.paint(scene.items,
                      {page.left() + (page.width() - scene.width_mm) / 2, page.y + (room - scene.height_mm) / 2});
    page.y += room + 2;
    key(page, coupon);
    page.canvas.text({page.right(), page.y}, said("scale {}, seen from above", scale.words),
                     anchored(small, Anchor::end));
    return;
  }
}

void caliper(Page& page) {
  page.title(tr("Caliper first"), tr("a gauge block and a ring of known size if you have them"));
  page.fields({{tr("Zero, 1st"), 1},
               {tr("2nd"), 1},
               {tr("Gauge, true size"), 1.5, 3},
               {tr("outside, 1st"), 1.1},
               {tr("2nd"), 1},
               {tr("Ring, true size"), 1.5, 3},
               {tr("inside, 1st"), 1.1},
               {tr("2nd"), 1}});
  page.y += gap_mm;
}

/// Gives the number of pages.
int draw(Page& page, const Coupon& coupon, const SheetOptions& options) {
  opening(page, coupon);
  setup(page);
  page.title(tr("Before printing"));
  page.ticks(before_printing(coupon));
  page.y += 2;
  page.caution(taking_off_caution());
  page.y += gap_mm;
  plan(page, coupon);

  page.turn();
  page.title(tr("Before measuring"));
  page.ticks(before_measuring(coupon));
  page.y += 2;
  page.caution(lip_caution());
  page.y += gap_mm;
  caliper(page);
  readings_table(page, coupon, options);
  page.notes(tr("Notes: lifted corners, damage, seam on a face"));
  trial_pages(page, coupon, options);
  return page.number();
}

}  // namespace

Result<std::string> sheet_pdf(const Coupon& coupon, const SheetOptions& options) {
  Problems problems = misfits(options);
  if (!problems.empty()) return problems;
  if (auto ready = text_ready(); !ready) return ready.problems();
  Page counted(coupon, options.letter, 0);
  Page page(coupon, options.letter, draw(counted, coupon, options));
  draw(page, coupon, options);
  return page.finish();
}

}  // namespace fitwright
