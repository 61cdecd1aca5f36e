#include "record/state_in_force.hpp"

#include <algorithm>
#include <cmath>
#include <functional>
#include <set>

#include "base/number.hpp"
#include "correct/algebra.hpp"
#include "correct/phrase.hpp"
#include "record/store.hpp"

namespace fitwright::record {
namespace {

/// Steps nearer together than this, relative, are the same as typed: 0.0002 mm on 200 mm.
constexpr double nothing = 1e-6;

// Decimals in which settings are told and typed.
constexpr int decimals_of_steps = 4;
constexpr int decimals_of_size_factor = 5;
constexpr int decimals_of_others = 3;  // mm, flow

bool of_printer(std::string_view knob) { return knob.starts_with("steps_per_mm."); }
bool is_setting(std::string_view knob) { return knob != "flow_edge_gain_mm"; }

int decimals_of(std::string_view knob) {
  return of_printer(knob) ? decimals_of_steps : knob == "size_factor" ? decimals_of_size_factor : decimals_of_others;
}

/// As it is typed, without zeros at its end.
std::string typed(std::string_view knob, double value) {
  return shortest(*parse_number(fixed(value, decimals_of(knob))));
}

std::string knob_words(std::string_view knob) {
  if (of_printer(knob)) return "steps per mm of " + axis_name(knob.back());
  std::string words(knob.ends_with("_mm") ? knob.substr(0, knob.size() - 3) : knob);
  std::replace(words.begin(), words.end(), '_', ' ');
  return words;
}

double value_of(const State& state, std::string_view knob) {
  for (const auto& [name, value] : by_knob(state))
    if (name == knob) return value;
  throw std::logic_error("no setting called " + std::string(knob));
}

/// Steps in plane that the size factor of a setup goes with.
struct InPlane {
  double x = 0, y = 0;
  bool operator==(const InPlane&) const = default;
};
InPlane in_plane(const StepsPerMm& steps) { return {steps.x, steps.y}; }

class Replay {
 public:
  explicit Replay(const SettingsHistory& history) : history_(history) {
    common_.steps_per_mm = history.steps;
    for (const auto& setup : history.setups) {
      Track& track = tracks_[setup.id];
      track.setup = &setup;
      track.out.state = setup.state;
      track.out.since = setup.entered;
    }
    for (const auto& correction : history.corrections) corrections_[correction.id] = &correction;
  }

  void take(const SettingsHistory::Event& event) {
    for (auto& [id, track] : tracks_)
      if (track.setup->entered <= event.at) enter(track);
    const auto found = corrections_.find(event.correction);
    if (found == corrections_.end()) return;  // of a setup that is no more
    const SettingsHistory::Correction& correction = *found->second;
    const auto owner = tracks_.find(correction.setup);
    if (owner == tracks_.end()) return;
    enter(owner->second);
    if (event.what == "applied") apply(correction, owner->second, event.at);
    if (event.what == "withdrawn") withdraw(correction, owner->second, event.at);
  }

  std::map<Id, StateInForce> finish() {
    std::map<Id, StateInForce> out;
    for (auto& [id, track] : tracks_) {
      enter(track);
      track.out.state.steps_per_mm = common_.steps_per_mm;
      tell_steps(track);
      out[id] = std::move(track.out);
    }
    return out;
  }

 private:
  struct Track {
    const SettingsHistory::Setup* setup = nullptr;
    StateInForce out;
    bool entered = false;
    InPlane calibrated_at;  ///< steps that its size factor goes with
  };
  struct Applied {
    const SettingsHistory::Correction* correction = nullptr;
    InPlane reference_before, reference_set;
    bool moved_reference = false;
  };

  void enter(Track& track) {
    if (track.entered) return;
    track.entered = true;
    track.calibrated_at = in_plane(common_.steps_per_mm);
  }

  /// The state that holds a knob: one of the setup, or the one that all setups of the printer share.
  State& holder(std::string_view knob, Track& owner) { return of_printer(knob) ? common_ : owner.out.state; }

  void note(std::string_view knob, Track& owner, const std::string& text) {
    if (!of_printer(knob)) {
      owner.out.notes.push_back(text);
      return;
    }
    for (auto& [id, track] : tracks_) track.out.notes.push_back(text);
  }

  void touched(const SettingsHistory::Correction& correction, Track& owner, const std::string& at) {
    bool steps = false;
    for (const auto& d : differences(correction.before, correction.after)) steps = steps || of_printer(d.knob);
    for (auto& [id, track] : tracks_)
      if (&track == &owner || steps) track.out.since = std::max(track.out.since, at);
    if (steps) last_steps_ = {correction.id, at};
  }

  void apply(const SettingsHistory::Correction& c, Track& owner, const std::string& at) {
    if (in_force(c.id)) {
      owner.out.notes.push_back("A correction was marked as applied a second time on " + at + ": it counts once.");
      return;
    }
    bool size_factor = false;
    for (const auto& [knob, before, after] : differences(c.before, c.after)) {
      State& state = holder(knob, owner);
      const double held = value_of(state, knob);
      if (!same_setting(knob, held, before))
        note(knob, owner,
             "When the correction of " + at + " was applied, " + knob_words(knob) + " held " + typed(knob, held) +
                 " and not the " + typed(knob, before) + " it was made for; it was set to " + typed(knob, after) + ".");
      set_knob(state, knob, after);
      size_factor = size_factor || knob == "size_factor";
    }
    Applied applied{&c, owner.calibrated_at, in_plane(c.after.steps_per_mm), false};
    // What was measured fits the steps it was measured with; a hand that turns another knob has measured nothing.
    applied.moved_reference = c.origin != "by hand" || size_factor;
    if (applied.moved_reference) owner.calibrated_at = applied.reference_set;
    applied_.push_back(applied);
    withdrawn_.erase(c.id);
    touched(c, owner, at);
  }

  void withdraw(const SettingsHistory::Correction& c, Track& owner, const std::string& at) {
    const auto place =
        std::find_if(applied_.begin(), applied_.end(), [&](const Applied& a) { return a.correction->id == c.id; });
    if (place == applied_.end()) return;  // was only proposed
    for (const auto& [knob, before, after] : differences(c.before, c.after)) {
      State& state = holder(knob, owner);
      const double held = value_of(state, knob);
      if (!same_setting(knob, held, after)) {
        note(knob, owner,
             "When the correction with " + knob_words(knob) + ' ' + typed(knob, after) + " was withdrawn on " + at +
                 ", it held " + typed(knob, held) + " by a later change: it was left so.");
        continue;
      }
      set_knob(state, knob, before);
      tell_if_set_by_withdrawn(knob, c, before, owner);
    }
    if (place->moved_reference && owner.calibrated_at == place->reference_set)
      owner.calibrated_at = place->reference_before;
    applied_.erase(place);
    withdrawn_.insert(c.id);
    touched(c, owner, at);
  }

  void tell_if_set_by_withdrawn(const std::string& knob, const SettingsHistory::Correction& c, double value,
                                Track& owner) {
    for (const Id& id : withdrawn_) {
      const SettingsHistory::Correction& w = *corrections_.at(id);
      if (!of_printer(knob) && w.setup != c.setup) continue;
      if (!same_setting(knob, value_of(w.after, knob), value) || same_setting(knob, value_of(w.before, knob), value))
        continue;
      note(knob, owner,
           knob_words(knob) + " is back at " + typed(knob, value) +
               ", which a correction had set that was withdrawn "
               "before: set it by hand if that is not what is meant.");
      return;
    }
  }

  [[nodiscard]] bool in_force(const Id& correction) const {
    return std::any_of(applied_.begin(), applied_.end(),
                       [&](const Applied& a) { return a.correction->id == correction; });
  }

  /// Which corrections hold, and what steps turned since the calibration mean.
  void tell_steps(Track& track) {
    StateInForce& out = track.out;
    out.calibrated = out.state.size_factor != 1.0;
    for (const Applied& a : applied_) {
      const bool own = a.correction->setup == track.setup->id;
      bool steps = false, scale = false;
      for (const auto& d : differences(a.correction->before, a.correction->after)) {
        steps = steps || of_printer(d.knob);
        scale = scale || d.knob == "size_factor" || d.knob == "steps_per_mm.x" || d.knob == "steps_per_mm.y";
      }
      if (own || steps) out.corrections.push_back(a.correction->id);
      if (own && scale && a.correction->origin != "by hand") out.calibrated = true;
    }
    const double rho_x = steps_ratio(track.calibrated_at.x, out.state.steps_per_mm.x);
    const double rho_y = steps_ratio(track.calibrated_at.y, out.state.steps_per_mm.y);
    if (std::abs(rho_x - 1) < nothing && std::abs(rho_y - 1) < nothing) return;
    const double rho = std::sqrt(rho_x * rho_y);
    const std::string by = "by " + signed_percent(rho_x - 1) + " in X and " + signed_percent(rho_y - 1) + " in Y";
    if (!out.calibrated) {
      out.stale = true;
      out.notes.push_back("Steps per mm were turned " + by +
                          " since, and this setup was never calibrated: what was read of it before does not hold any "
                          "more.");
    } else if (const State becomes = rescaled(out.state, rho_x, rho_y); differences(out.state, becomes).empty()) {
      out.notes.push_back("Steps per mm of X and Y were turned against each other (" + by +
                          ") after this setup was calibrated: its size factor stays, and X and Y of its parts differ "
                          "by that much less or more than before.");
    } else {
      out.due = {rho_x, rho_y, becomes, last_steps_.first, last_steps_.second};
      std::string offset;
      if (out.state.outline_offset_mm != 0)
        offset = " and its outline offset of " + fixed(out.state.outline_offset_mm, 4) + " mm to " +
                 fixed(becomes.outline_offset_mm, 4) + " mm";
      out.notes.push_back("Steps per mm were turned " + by + " after this setup was calibrated: its size factor of " +
                          fixed(out.state.size_factor, 5) + " has to go to " + fixed(becomes.size_factor, 5) + offset +
                          ", or it comes out " + percent(rho - 1) + (rho > 1 ? " larger" : " smaller") +
                          " than before.");
    }
  }

  const SettingsHistory& history_;
  State common_;  ///< holds the steps
  std::map<Id, Track> tracks_;
  std::map<Id, const SettingsHistory::Correction*> corrections_;
  std::vector<Applied> applied_;  ///< in force
  std::set<Id> withdrawn_;        ///< after having been in force
  std::pair<Id, std::string> last_steps_;
};

/// A stored state, or a problem that says whose it is.
Result<State> stored_state(Record& record, const std::string& json, const std::string& whose) {
  if (json.empty()) return State{};
  auto state = parse_state(json, record.path());
  if (state) return *state;
  Problems problems = state.problems();
  for (Problem& p : problems) p.what = "the state of " + whose + " in the record: " + p.what;
  return problems;
}

}  // namespace

std::map<Id, StateInForce> replay(const SettingsHistory& history, const std::string& at) {
  Replay replayed(history);
  for (const auto& event : history.events)
    if (at.empty() || event.at <= at) replayed.take(event);
  return replayed.finish();
}

bool same_setting(std::string_view knob, double a, double b) {
  const double half_unit = 0.5 * std::pow(10.0, -decimals_of(knob));
  return std::abs(a - b) <= half_unit;
}

std::vector<KnobDifference> differences(const State& a, const State& b) {
  std::vector<KnobDifference> out;
  const auto of_a = by_knob(a), of_b = by_knob(b);
  for (std::size_t i = 0; i < of_a.size(); ++i)
    if (is_setting(of_a[i].first) && !same_setting(of_a[i].first, of_a[i].second, of_b[i].second))
      out.push_back({std::string(of_a[i].first), of_a[i].second, of_b[i].second});
  return out;
}

std::string in_words(const std::vector<KnobDifference>& differing) {
  std::string out;
  for (const auto& [knob, a, b] : differing)
    out += (out.empty() ? "" : ", ") + knob_words(knob) + ' ' + typed(knob, a) + " instead of " + typed(knob, b);
  return out;
}

Result<SettingsHistory> settings_history(Record& record, const Id& printer) {
  return guarded(record, [&]() -> Result<SettingsHistory> {
    SettingsHistory history;
    Problems problems;
    const auto printer_now = one<Printer>(record, printer);
    if (!printer_now) return printer_now.problems();
    const Printer& p = printer_now->value;
    history.steps = {p.steps_x, p.steps_y, p.steps_z, p.steps_e};

    const auto state = [&](const std::string& json, const std::string& whose) {
      auto read = stored_state(record, json, whose);
      if (read) return *read;
      problems.insert(problems.end(), read.problems().begin(), read.problems().end());
      return State{};
    };
    // Ended setups too: their corrections turned the printer's steps.
    record.database().each(
        "SELECT r.thing, r.name, r.state, f.at, r.gone FROM setup AS r JOIN setup AS f ON f.id = r.thing"
        " WHERE r.printer = ? AND r.id ="
        " (SELECT q.id FROM setup AS q WHERE q.thing = r.thing ORDER BY q.at DESC, q.id DESC LIMIT 1)"
        " ORDER BY f.at, r.thing",
        [&](Statement& row) {
          const std::string name = row.text(1);
          history.setups.push_back(
              {Id{row.text(0)}, name, state(row.text(2), "setup " + name), row.text(3), row.integer(4) != 0});
        },
        printer);
    for (const auto& setup : history.setups) {
      const auto corrections = all_of<StoredCorrection>(record, "setup", setup.id);
      if (!corrections) return corrections.problems();
      const std::string whose = "a correction of " + setup.name;
      for (const auto& c : *corrections)
        history.corrections.push_back(
            {c.thing, setup.id, c.value.origin, state(c.value.before, whose), state(c.value.after, whose)});
    }
    if (!problems.empty()) return problems;
    record.database().each(
        "SELECT e.correction, e.at, e.what FROM correction_event_now AS e"
        " JOIN correction_now AS c ON c.thing = e.correction"
        " WHERE c.setup IN (SELECT thing FROM setup WHERE printer = ?) AND e.what IN ('applied', 'withdrawn')"
        " ORDER BY e.at, e.id",
        [&](Statement& row) {
          history.events.push_back({Id{row.text(0)}, row.text(1), row.text(2)});
        },
        printer);
    return history;
  });
}

Result<StateInForce> state_in_force(Record& record, const Id& setup, const std::string& at) {
  const auto kept = one<Setup>(record, setup);
  if (!kept) return kept.problems();
  const auto history = settings_history(record, kept->value.printer);
  if (!history) return history.problems();
  auto states = replay(*history, at);
  return std::move(states.at(setup));
}

}  // namespace fitwright::record
