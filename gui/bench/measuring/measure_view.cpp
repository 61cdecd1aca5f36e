#include "bench/measuring/measure_view.hpp"

#include <algorithm>
#include <cmath>
#include <set>

#include "base/number.hpp"
#include "base/words.hpp"
#include "bench/measuring/length_shown.hpp"
#include "bench/measuring/measure_steps.hpp"
#include "bench/measuring/measure_words.hpp"
#include "bench/shown.hpp"
#include "model/priors.hpp"

namespace fitwright {
namespace {

// Gaps between readings: shorter ones were pasted, longer ones are pauses.
constexpr double shortest_gap_s = 1, longest_gap_s = 60;
constexpr std::size_t gaps_needed = 5, gaps_looked_at = 15;

/// Mean deviation of the readings at one place and its standard uncertainty (mm), the usual repeatability moderated by
/// what they show.
std::string so_far_of(const std::vector<double>& off_mm, bool inches) {
  if (off_mm.empty()) return {};
  const double n = static_cast<double>(off_mm.size());
  double mean = 0, squares = 0;
  for (const double x : off_mm) mean += x / n;
  for (const double x : off_mm) squares += (x - mean) * (x - mean);
  const double variance =
      (prior::reading_df * prior::reading_sd_mm * prior::reading_sd_mm + squares) / (prior::reading_df + n - 1);
  // Uncertainties are rounded up (GUM, JCGM 100:2008, 7.2.6), to the caliper's last digit.
  const double step_mm = shown_step_mm(inches);
  const double u_mm = std::ceil(std::sqrt(variance / n) / step_mm - 1e-9) * step_mm;
  return said("so far {}\u00a0\u00b1\u00a0{}", length_signed(mean, inches), length_shown(u_mm, inches));
}

std::string minutes_words(double seconds) {
  if (seconds < 45) return tr("less than a minute left");
  return said("about {} min left", std::lround(seconds / 60));
}

class Viewer {
 public:
  Viewer(const Measuring& m, const ExpectedSizes& expected)
      : m_(m),
        lines_(due_lines(m)),
        doubts_(doubts_of(m, expected)),
        at_(find_line(lines_, m.here)),
        inches_(m.plan->inches) {}

  MeasureView run() {
    count();
    doubts();
    if (at_ == none_there) {
      finished();
      return std::move(view_);
    }
    const DueLine& line = lines_[at_];
    const MeasureSpot& spot = spot_of(line);
    view_.heading = part_words(*m_.plan, spot);
    view_.feature_id = spot.feature.id;
    view_.feature_words = feature_words(spot, line.key.repeat);
    view_.how = how_words(spot, line.key.repeat);
    const std::string size =
        length_shown(spot.feature.nominal_mm, inches_) + (inches_ ? " " + length_unit(inches_) : std::string());
    view_.drawn = is_steel(spot.feature.kind) ? said("true {}", size) : said("drawn {}", size);
    reading_lines(line.due.spot);
    coming();
    if (const Taken* taken = taken_at(m_, line.key))
      view_.keys = said("Enter replaces {} \u00b7 Esc leaves it", as_read(taken->reading.reading_mm, inches_));
    else
      view_.keys = tr("Enter take \u00b7 Backspace undo \u00b7 F2 skip \u00b7 F3 part damaged");
    if (!view_.doubts.empty()) view_.keys = view_.doubts.front().keys;
    show(line, spot);
    say(line);
    return std::move(view_);
  }

 private:
  const Measuring& m_;
  std::vector<DueLine> lines_;
  std::vector<MeasureDoubt> doubts_;
  std::size_t at_;
  bool inches_;
  MeasureView view_;

  [[nodiscard]] const MeasureSpot& spot_of(const DueLine& line) const { return m_.plan->spots[line.due.spot]; }

  void count() {
    std::size_t skipped = 0, damaged = 0;
    for (const DueLine& line : lines_) {
      if (line.state == DueState::read) ++view_.done;
      if (line.state == DueState::read || line.state == DueState::due) ++view_.total;
      if (line.state == DueState::skipped) ++skipped;
      if (line.state == DueState::damaged) ++damaged;
    }
    view_.count = said("{} of {}", view_.done, view_.total);
    if (skipped > 0) view_.left_out = said("{} skipped", skipped);
    if (damaged > 0) view_.left_out += (skipped > 0 ? ", " : "") + said("{} damaged", damaged);
    if (view_.done < view_.total)
      view_.time_left = minutes_words(seconds_per_reading(m_) * static_cast<double>(view_.total - view_.done));
  }

  void finished() {
    view_.finished = true;
    view_.heading = tr("All is read");
    view_.said = said("All is read, {}.", view_.count);
    if (!view_.left_out.empty()) view_.said += " " + view_.left_out + ".";
    if (!view_.doubts.empty()) {
      view_.keys = view_.doubts.front().keys;
      view_.said = in_words(view_.doubts.front()) + " " + view_.said;
    }
  }

  void doubts() {
    const std::string in_hand = at_ == none_there ? std::string() : lines_[at_].key.feature_id;
    for (auto it = doubts_.rbegin(); it != doubts_.rend(); ++it) {
      DoubtLine line;
      line.doubt = *it;
      line.sentence = it->sentence;
      const bool same_copy = at_ != none_there && lines_[at_].key.copy == it->key.copy;
      if (it->key.feature_id != in_hand || !same_copy) line.where = reading_words(m_, it->key);
      line.keys = it->proposal_mm
                      ? said("Enter keeps, Space takes {}, Esc reads again", length_shown(*it->proposal_mm, inches_))
                      : tr("Enter keeps, Esc reads again");
      view_.doubts.push_back(std::move(line));
    }
  }

  static std::string in_words(const DoubtLine& line) {
    return (line.where.empty() ? "" : line.where + ": ") + line.sentence + " " + line.keys + ".";
  }

  void reading_lines(std::size_t spot) {
    std::vector<double> off;
    for (const DueLine& line : lines_) {
      if (line.due.spot != spot) continue;
      ReadingLine shown_line{line.key, ordinal(line.key.repeat), "\u00b7", line.key == m_.here, {}, false};
      if (const Taken* taken = taken_at(m_, line.key)) {
        shown_line.value = as_read(taken->reading.reading_mm, inches_);
        const auto doubt =
            std::find_if(doubts_.begin(), doubts_.end(), [&](const MeasureDoubt& d) { return d.key == line.key; });
        shown_line.doubtful = doubt != doubts_.end();
        if (shown_line.doubtful)
          shown_line.remark = doubt->sentence;
        else
          off.push_back(taken->reading.reading_mm - taken->reading.feature.nominal_mm);
      } else if (line.state == DueState::skipped) {
        shown_line.remark = tr("skipped");
      } else if (line.state == DueState::damaged) {
        shown_line.remark = tr("damaged");
      }
      view_.lines.push_back(std::move(shown_line));
    }
    std::sort(view_.lines.begin(), view_.lines.end(),
              [](const ReadingLine& a, const ReadingLine& b) { return a.key < b.key; });
    view_.so_far = so_far_of(off, inches_);
  }

  /// What the hand does between two readings.
  [[nodiscard]] std::string change_between(const MeasureSpot& before, const MeasureSpot& now) const {
    if (now.part != before.part && now.part != none_there)
      return now.grip == before.grip ? part_words(*m_.plan, now)
                                     : part_words(*m_.plan, now) + ", " + grip_words(now.grip);
    return now.grip == before.grip ? std::string() : grip_words(now.grip);
  }

  void coming() {
    std::optional<ReadingKey> key = m_.back ? m_.back : next_due(lines_, m_.here);
    const MeasureSpot* before = &spot_of(lines_[at_]);
    std::set<ReadingKey> seen{lines_[at_].key};
    std::size_t readings = 0;
    while (key && seen.insert(*key).second) {
      const std::size_t i = find_line(lines_, key);
      if (i == none_there) break;
      ++readings;
      const MeasureSpot& spot = spot_of(lines_[i]);
      const std::string change = change_between(*before, spot);
      if (view_.jaws_next.empty() && spot.grip != before->grip)
        view_.jaws_next = readings == 1 ? said("Then {}, with the next reading.", grip_words(spot.grip))
                                        : said_many("Then {1}, after {0} reading.", "Then {1}, after {0} readings.",
                                                    readings, grip_words(spot.grip));
      if (view_.next.size() < coming_shown) view_.next.push_back({*key, coming_words(spot), change});
      if (view_.next.size() == coming_shown && !view_.jaws_next.empty()) break;
      before = &spot;
      key = next_due(lines_, key);
    }
    for (const ComingPlace& place : view_.next) {
      view_.next_line += view_.next_line.empty() ? std::string(tr("next:")) + " " : " \u00b7 ";
      view_.next_line += (place.change.empty() ? "" : "(" + place.change + ") ") + place.words;
    }
    if (view_.next.size() == coming_shown && view_.total - view_.done > coming_shown + 1) view_.next_line += " \u2026";
  }

  void show(const DueLine& line, const MeasureSpot& spot) {
    ShownPlace& s = view_.shown;
    s.part = spot.part;
    if (spot.part != none_there) s.coupon = m_.plan->parts[spot.part].coupon;
    s.jaw_place = spot.jaw_place;
    s.line = line_of(spot, line.key.repeat);
    s.feature_id = spot.feature.id;
    s.copy = spot.copy;
    s.turned_deg = spot.turned_deg;
  }

  void say(const DueLine& line) {
    view_.said = said("{}, {}, {} reading", view_.feature_id, view_.feature_words, ordinal(line.key.repeat));
    if (const Taken* taken = taken_at(m_, line.key))
      view_.said += ", " + said("{} so far", as_read(taken->reading.reading_mm, inches_));
    view_.said += ". " + capitalised(view_.how) + ". " + view_.heading + ". " + view_.count + ".";
    if (!view_.doubts.empty()) view_.said = in_words(view_.doubts.front()) + " " + view_.said;
  }
};

}  // namespace

double seconds_per_reading(const Measuring& m) {
  std::vector<double> gaps;
  for (std::size_t i = m.taken.size(); i-- > 1 && gaps.size() < gaps_looked_at;) {
    const auto &before = m.taken[i - 1]->at_s, &now = m.taken[i]->at_s;
    if (!before || !now) continue;
    const double gap = *now - *before;
    if (gap >= shortest_gap_s && gap <= longest_gap_s) gaps.push_back(gap);
  }
  if (gaps.size() < gaps_needed) return usual_seconds_per_reading;
  std::nth_element(gaps.begin(), gaps.begin() + static_cast<std::ptrdiff_t>(gaps.size() / 2), gaps.end());
  return gaps[gaps.size() / 2];
}

MeasureView measure_view(const Measuring& m, const ExpectedSizes& expected) { return Viewer(m, expected).run(); }

}  // namespace fitwright
