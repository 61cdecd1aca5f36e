#include "bench/history_view.hpp"

#include <algorithm>
#include <filesystem>
#include <map>

#include "base/file.hpp"
#include "base/number.hpp"
#include "base/words.hpp"
#include "bench/bench.hpp"
#include "bench/shown.hpp"
#include "record/cost.hpp"
#include "record/exchange.hpp"
#include "record/kept_estimate.hpp"
#include "record/life.hpp"
#include "record/spreadsheet.hpp"
#include "report/correct_report.hpp"

namespace fitwright {
namespace {

using record::Id;
using record::Kept;
using record::Record;

constexpr std::size_t day_length = 10;     // "2026-11-25"
constexpr std::size_t minute_length = 16;  // "2026-11-25T19:04"

/// "2026-11-25 19:04" of a time in UTC.
std::string minute_of(const std::string& at) {
  std::string text = at.substr(0, minute_length);
  if (text.size() > day_length) text[day_length] = ' ';
  return text;
}

HistoryRow row_at(const std::string& at, std::string what, std::string detail, const Id& thing) {
  return {at, minute_of(at), std::move(what), typeset(detail), thing};
}

std::string with_note(std::string text, const std::string& note) {
  if (note.empty()) return text;
  if (text.empty()) return note;
  return text.ends_with('.') ? text + " " + capitalised(note) : text + "; " + note;
}

/// "outline offset 0 -> -0.072 mm".
std::string change(const record::KnobDifference& d) {
  constexpr std::string_view in_mm = ", mm";
  std::string name = knob_name(d.knob);
  const bool length = name.ends_with(in_mm);
  if (length) name.resize(name.size() - in_mm.size());
  return name + " " + knob_shown(d.knob, d.a) + " \u2192 " + knob_shown(d.knob, d.b) + (length ? " mm" : "");
}

class Told {
 public:
  Told(Record& record, const Id& setup) : record_(record), setup_(setup) {}

  Result<HistoryView> all() {
    using Part = Result<Done> (Told::*)();
    const std::initializer_list<std::pair<HistoryLane, Part>> parts{
        {HistoryLane::setup, &Told::entered},       {HistoryLane::printed, &Told::printed},
        {HistoryLane::measured, &Told::measured},   {HistoryLane::understood, &Told::estimated},
        {HistoryLane::corrected, &Told::corrected}, {HistoryLane::setup, &Told::remarked}};
    for (const auto& [lane, part] : parts) {
      lane_ = lane;
      if (auto done = (this->*part)(); !done) return done.problems();
    }
    // What came last stands first; of one moment what was entered last.
    std::reverse(view_.rows.begin(), view_.rows.end());
    std::stable_sort(view_.rows.begin(), view_.rows.end(),
                     [](const HistoryRow& a, const HistoryRow& b) { return a.at > b.at; });
    return std::move(view_);
  }

 private:
  void tell(HistoryRow row) {
    about_.emplace(row.thing, row.what);
    row.lane = lane_;
    view_.rows.push_back(std::move(row));
  }

  Result<Done> entered() {
    const auto rows = record::history<record::Setup>(record_, setup_);
    if (!rows) return rows.problems();
    for (const auto& row : *rows) {
      const bool first = &row == &rows->front();
      tell(row_at(row.at, first ? tr("Setup begun") : tr("Setup changed"),
                  with_note(row.value.name, tr(row.why.c_str())), row.thing));
    }
    return Done{};
  }

  Result<Done> printed() {
    copies_ = record::all_of<record::Copy>(record_, "setup", setup_);
    if (!copies_) return copies_.problems();
    const auto cost = record::cost_of(record_, setup_);
    if (!cost) return cost.problems();
    tell_cost(*cost);
    std::map<Id, const record::CopyCost*> cost_of;
    for (const auto& copy : cost->copies) cost_of[copy.copy] = &copy;
    for (const auto& copy : *copies_) {
      const record::Copy& c = copy.value;
      std::string detail = said("print {}", c.print);
      if (const auto found = cost_of.find(copy.thing); found != cost_of.end()) {
        detail = tr(found->second->design.c_str()) + (", " + detail);
        if (found->second->grams) detail += ", " + said_fixed(*found->second->grams, 1) + " g";
      }
      if (c.turned_deg) detail += ", " + said("turned by {}\u00b0", c.turned_deg);
      HistoryRow row = row_at(copy.at, tr("Copy printed"), with_note(detail, c.note), copy.thing);
      if (!c.printed_on.empty() && copy.at.compare(0, day_length, c.printed_on) != 0) {
        row.at = c.printed_on + "T23:59:59.999Z";
        row.date = c.printed_on;
      }
      tell(std::move(row));
    }
    return Done{};
  }

  void tell_cost(const record::CalibrationCost& cost) {
    const std::size_t known = cost.copies.size() - static_cast<std::size_t>(std::max(cost.unknown, 0));
    if (cost.copies.empty()) return;
    view_.cost = said_many("{} copy so far", "{} copies so far", cost.copies.size());
    if (known > 0) {
      view_.cost += ": " + said_fixed(cost.grams, 1) + " g";
      if (cost.money)
        view_.cost += ", " + said_fixed(*cost.money, 2) + (cost.currency.empty() ? "" : " " + cost.currency);
    }
    view_.cost = typeset(view_.cost + ".");
    if (known > 0 && !cost.price_basis.empty())
      view_.cost_notes.push_back(typeset(said("Reckoned with {}.", cost.price_basis)));
    if (known > 0 && !cost.money)
      view_.cost_notes.emplace_back(tr("The spool has no price: enter it under Setup to see what this costs."));
    if (cost.unknown > 0)
      view_.cost_notes.push_back(said_many("Of {} copy the grams are not known.",
                                           "Of {} copies the grams are not known.",
                                           static_cast<std::size_t>(cost.unknown)));
  }

  Result<Done> measured() {
    std::map<Id, std::size_t> read, left_out;  // by session
    for (const auto& copy : *copies_) {
      const auto readings = record::all_of<record::StoredReading>(record_, "copy", copy.thing);
      if (!readings) return readings.problems();
      for (const auto& reading : *readings)
        ++(reading.value.standing == "read" ? read : left_out)[reading.value.session];
    }
    const auto sessions = record::all<record::Session>(record_);
    if (!sessions) return sessions.problems();
    const auto calipers = record::all<record::Caliper>(record_);
    if (!calipers) return calipers.problems();
    std::map<Id, std::string> caliper_name;
    for (const auto& caliper : *calipers) caliper_name[caliper.thing] = caliper.value.name;
    for (const auto& session : *sessions) {
      const Id& id = session.thing;
      if (session.value.setup != setup_ && !read.contains(id) && !left_out.contains(id)) continue;
      std::string caliper = tr("a caliper not named");
      if (const auto named = caliper_name.find(session.value.caliper); named != caliper_name.end())
        caliper = named->second;
      std::string detail = said_many("{} reading with {}", "{} readings with {}", read[id], caliper);
      if (left_out[id]) detail += ", " + said("{} left out", left_out[id]);
      if (session.value.room_c) detail += ", " + said("room at {} \u00b0C", said_shortest(*session.value.room_c));
      const std::string& at = session.value.began.empty() ? session.at : session.value.began;
      tell(row_at(at, tr("Measured"), with_note(detail, session.value.note), id));
      if (auto steel = steel_of(session, at, caliper); !steel) return steel;
    }
    return Done{};
  }

  Result<Done> steel_of(const Kept<record::Session>& session, const std::string& at, const std::string& caliper) {
    const auto rows = record::all_of<record::SteelReading>(record_, "session", session.thing);
    if (!rows) return rows.problems();
    if (rows->empty()) return Done{};
    std::map<std::pair<std::string, double>, std::vector<double>> deviations_mm;  // kind and true size
    for (const auto& row : *rows)
      deviations_mm[{row.value.kind, row.value.true_mm}].push_back(row.value.reading_mm - row.value.true_mm);
    std::string detail = caliper;
    for (const auto& [piece, off] : deviations_mm) {
      double sum = 0;
      for (const double d : off) sum += d;
      const std::string name = piece.first == "zero"
                                   ? tr("closed jaws")
                                   : std::string(tr(piece.first.c_str())) + " " + said_shortest(piece.second) + " mm";
      const std::string mean = shown_signed(sum / static_cast<double>(off.size()), 3);
      detail += "; " + (off.size() > 1 ? said("{} {}\u00d7, on average {} mm", name, off.size(), mean)
                                       : said("{} {}\u00d7, {} mm", name, off.size(), mean));
    }
    tell(row_at(at, tr("Steel read"), detail, session.thing));
    return Done{};
  }

  Result<Done> estimated() {
    const auto estimates = record::all_of<record::StoredEstimate>(record_, "setup", setup_);
    if (!estimates) return estimates.problems();
    for (const auto& estimate : *estimates) {
      const auto copies = record::copies_of(estimate.value);
      std::string detail = copies ? said_many("from {} copy", "from {} copies", copies->size()) : std::string();
      tell(row_at(estimate.at, tr("Estimate kept"), with_note(detail, tr(estimate.why.c_str())), estimate.thing));
    }
    return Done{};
  }

  Result<Done> corrected() {
    const auto lives = record::corrections_of(record_, setup_);
    if (!lives) return lives.problems();
    for (const auto& life : *lives) {
      std::string knobs;
      const record::StoredCorrection& c = life.correction.value;
      const auto before = parse_state(c.before, "the record");
      const auto after = parse_state(c.after, "the record");
      if (before && after)
        for (const auto& d : record::differences(*before, *after)) knobs += (knobs.empty() ? "" : "; ") + change(d);
      if (knobs.empty()) knobs = tr("no setting changes");
      const char* const sentence = c.origin == "by hand"         ? tr("Correction {} by hand")
                                   : c.origin == "re-expression" ? tr("Correction {} for new steps")
                                                                 : tr("Correction {}");
      for (const auto& event : life.events) {
        HistoryRow row = row_at(event.at, fmt::format(fmt::runtime(sentence), tr(event.value.what.c_str())),
                                capitalised(with_note(tr(event.value.reason.c_str()), knobs)), life.correction.thing);
        row.settings_changed = event.value.what == "applied" || event.value.what == "withdrawn";
        tell(std::move(row));
      }
    }
    return Done{};
  }

  Result<Done> remarked() {
    const auto remarks = record::all<record::Remark>(record_);
    if (!remarks) return remarks.problems();
    std::vector<HistoryRow> rows;
    for (const auto& remark : *remarks) {
      const auto about = about_.find(remark.value.about);
      if (about == about_.end()) continue;
      std::string detail = remark.value.words;
      if (!remark.value.picture.empty())
        detail = with_note(detail, said("picture {}", std::filesystem::path(remark.value.picture).filename().string()));
      rows.push_back(row_at(remark.at, tr("Remark"), detail, remark.thing));
    }
    for (HistoryRow& row : rows) {
      row.lane = lane_;
      view_.rows.push_back(std::move(row));
    }
    return Done{};
  }

  Record& record_;
  Id setup_;
  HistoryView view_;
  HistoryLane lane_ = HistoryLane::setup;  // of the part that is telling
  Result<std::vector<Kept<record::Copy>>> copies_ = std::vector<Kept<record::Copy>>{};
  std::map<Id, std::string> about_;  // everything told: a remark about it belongs here
};

}  // namespace

Result<HistoryView> history_view(Record& record, const Id& setup) {
  HistoryView none;
  none.empty = tr(
      "What happens to a setup will stand here by its dates: copies printed, evenings of measuring, corrections. Put a "
      "setup on the bench first: Setup, Ctrl+1.");
  if (setup.empty()) return none;
  return record::guarded(record, [&]() -> Result<HistoryView> {
    auto view = Told(record, setup).all();
    if (!view) return view;
    auto spools = spools_compared(record, setup);
    if (!spools) return spools.problems();
    view->spools = *std::move(spools);
    return view;
  });
}

Result<std::vector<std::string>> state_at(Record& record, const Id& setup, const std::string& at) {
  const auto state = record::state_in_force(record, setup, at);
  if (!state) return state.problems();
  std::vector<std::string> lines{capitalised(state_words(state->state)) + "."};
  const std::size_t n = state->corrections.size();
  lines.push_back(n == 0 ? tr("As entered: no correction was in force.")
                         : said_many("Set by {} correction, the last on {} UTC.",
                                     "Set by {} corrections, the last on {} UTC.", n, minute_of(state->since)));
  for (const std::string& note : state->notes) lines.push_back(typeset(capitalised(note)));
  return lines;
}

Result<std::vector<std::string>> write_history(Record& record, const Id& setup, HistoryFile what,
                                               const std::string& path) {
  std::vector<std::string> told;
  std::string written;
  if (what == HistoryFile::record) {
    const auto count = record::export_json(record, path);
    if (!count) return count.problems();
    written = said_many("{} row of the record", "{} rows of the record", count->rows);
    told = count->notes;
  } else {
    record::SpreadsheetOptions options;
    options.setup = setup;
    const bool readings = what == HistoryFile::readings;
    const auto sheet = readings ? record::readings_csv(record, options) : record::corrections_csv(record, options);
    if (!sheet) return sheet.problems();
    if (const auto done = write_whole(path, sheet->csv); !done) return done.problems();
    written = readings ? said_many("{} reading", "{} readings", sheet->rows)
                       : said_many("{} row of corrections", "{} rows of corrections", sheet->rows);
    told = sheet->notes;
  }
  told.insert(told.begin(), said("Wrote {} to {}.", written, std::filesystem::path(path).filename().string()));
  return told;
}

}  // namespace fitwright
