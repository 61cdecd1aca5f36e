#include <algorithm>
#include <string>
#include <vector>

#include "base/words.hpp"
#include "bench/correcting.hpp"
#include "bench/plot_parts.hpp"
#include "bench/shown.hpp"
#include "report/wording.hpp"

namespace fitwright {
namespace {

constexpr int decimals = 2;       // what a caliper shows
constexpr double half_bar = 0.3;  // of the room of a length
constexpr double pad_share = 0.08;

/// "X 100" or "slot X": short, for ticks; what a mark says of itself names the whole.
std::string short_name(const std::string& place) {
  const bool slot = place.starts_with("slot_");
  const std::string rest = slot ? place.substr(5) : place;
  const std::string axis = capitalised(rest.substr(0, 1));
  return slot ? said("slot {}", axis) : said("{} {}", axis, rest.substr(1));
}

/// Outside lengths first, as everywhere.
void order(std::vector<record::ProofPlace>& places) {
  std::stable_partition(places.begin(), places.end(), [](const auto& p) { return !p.place.starts_with("slot"); });
}

PlotScene scene_of(std::vector<record::ProofPlace> places, bool measured) {
  PlotScene scene;
  scene.title = tr("Off the drawn length, mm");
  scene.empty = tr("Nothing was foretold for this correction.");
  scene.said = scene.empty;
  if (places.empty()) return scene;
  order(places);
  Range y;
  y.show(0);
  for (std::size_t i = 0; i < places.size(); ++i) {
    const record::ProofPlace& p = places[i];
    const double at = static_cast<double>(i + 1);
    scene.x.ticks.push_back({at, short_name(p.place)});
    const double low = p.foretold_mm - p.half_mm;
    const double high = p.foretold_mm + p.half_mm;
    scene.bands.push_back(
        {{{at - half_bar, high}, {at + half_bar, high}}, {{at - half_bar, low}, {at + half_bar, low}}, Ink::x});
    scene.lines.push_back({{{at - half_bar, p.foretold_mm}, {at + half_bar, p.foretold_mm}}, Ink::x, false});
    y.show(low);
    y.show(high);
    if (!measured) continue;
    PlotMark without{{at, p.without_mm}, Ink::quiet, Shape::diamond, {}, {}};
    without.said = said("{}: without the correction {} mm", capitalised(place_in_words(p.place)),
                        shown_signed(p.without_mm, decimals));
    PlotMark found{
        {at, p.measured_mm}, p.inside ? Ink::text : Ink::warn, p.inside ? Shape::disc : Shape::cross, {}, {}};
    found.said = p.inside ? said("{}: measured {} mm, within what was foretold", capitalised(place_in_words(p.place)),
                                 shown_signed(p.measured_mm, decimals))
                          : said("{}: measured {} mm, not within what was foretold",
                                 capitalised(place_in_words(p.place)), shown_signed(p.measured_mm, decimals));
    y.show(p.without_mm);
    y.show(p.measured_mm);
    scene.marks.push_back(std::move(without));
    scene.marks.push_back(std::move(found));
  }
  scene.x.from = 0.4;
  scene.x.to = static_cast<double>(places.size()) + 0.6;
  scene.y = y.axis(pad_share, 4, true, "");
  scene.keys.push_back({Shape::square, tr("foretold"), Ink::x});
  if (measured) {
    scene.keys.push_back({Shape::disc, tr("measured"), Ink::text});
    scene.keys.push_back({Shape::diamond, tr("without the correction"), Ink::quiet});
  }
  scene.empty.clear();
  if (!measured) {
    scene.said = said_many("Foretold for {} length; no print was held against it yet.",
                           "Foretold for {} lengths; no print was held against them yet.", places.size());
    return scene;
  }
  const auto inside =
      static_cast<std::size_t>(std::count_if(places.begin(), places.end(), [](const auto& p) { return p.inside; }));
  scene.said = said("Foretold against measured: {} of {} lengths are within what was foretold.", inside, places.size());
  return scene;
}

}  // namespace

PlotScene proof_plot(const record::Proof& proof) { return scene_of(proof.places, true); }

PlotScene foretold_plot(const Correction& correction) {
  std::vector<record::ProofPlace> places;
  for (const auto& [place, remains] : correction.remains_mm) {
    record::ProofPlace p;
    p.place = place;
    p.foretold_mm = remains.value;
    p.half_mm = remains.half_with_surroundings_mm;
    places.push_back(p);
  }
  return scene_of(std::move(places), false);
}

}  // namespace fitwright
