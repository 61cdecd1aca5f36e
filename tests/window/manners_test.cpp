// What a person relies on without thinking of it: steps of every kind are taken back to the byte, and what a
// spreadsheet has copied comes in by Ctrl+V.

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>
#include <set>

#include "base/number.hpp"
#include "bench/evening.hpp"
#include "reading/csv.hpp"
#include "record/exchange.hpp"
#include "record/schema.hpp"
#include "window/actions.hpp"
#include "window/bench.hpp"
#include "window/clipboard.hpp"
#include "window/keyboard.hpp"

using namespace fitwright;
using namespace window_test;

namespace {

const Measuring& evening(const Frame& frame) { return frame.document().content().measuring; }

/// All that holds in the record now, without when and under which id it was said: its JSON export, newest row of each
/// thing, sorted.
std::string what_holds(Frame& frame) {
  const auto text = record::export_json_text(frame.bench().record());
  REQUIRE(text);
  std::string out;
  const auto record = nlohmann::json::parse(*text);
  for (const auto& [table, rows] : record["things"].items()) {
    std::map<std::string, nlohmann::json> newest;
    for (const auto& row : rows) {
      auto& known = newest[row["thing"]];
      const auto age = [](const nlohmann::json& r) { return std::pair(r["at"].dump(), r["id"].dump()); };
      if (known.is_null() || age(known) < age(row)) known = row;
    }
    std::multiset<std::string> lines;
    for (auto& [thing, row] : newest) {
      if (row["gone"] != 0) continue;
      for (const char* said : {"id", "thing", "amends", "at", "why", "gone"}) row.erase(said);
      for (auto& [field, value] : row.items())
        if (value.is_string() && newest.contains(value.get<std::string>())) value = "itself";
      lines.insert(row.dump());
    }
    for (const std::string& line : lines) out += table + " " + line + "\n";
  }
  return out;
}

/// The same with the references to other things left out: what is done again has new ids.
std::string without_ids(const std::string& text) {
  std::string out;
  constexpr std::size_t id_digits = 32;
  for (std::size_t i = 0; i < text.size();) {
    const std::size_t end = text.find_first_not_of("0123456789abcdef", i);
    const std::size_t n = (end == std::string::npos ? text.size() : end) - i;
    if (n != id_digits) out.append(text, i, std::max<std::size_t>(n, 1));
    i += std::max<std::size_t>(n, 1);
  }
  return out;
}

std::string holds(Frame& frame) { return without_ids(what_holds(frame)); }

void type(Frame& frame, const std::string& line) {
  frame.measuring().field().SetValue(wx(line));
  frame.measuring().enter();
}

std::string drawn_here(const Measuring& m, double off_mm) {
  const auto lines = due_lines(m);
  const Feature& f = m.plan->spots[lines.at(find_line(lines, m.here)).due.spot].feature;
  return fixed(f.nominal_mm + (f.kind == Kind::zero ? 0 : off_mm), 2);
}

/// A field of Setup, as left with a new value.
void set_field(Frame& frame, const std::string& form, const std::string& key, const std::string& value) {
  wxTextCtrl& field = frame.setting_up().form(form).fields().field(key);
  field.SetValue(wx(value));
  wxCommandEvent entered(wxEVT_TEXT_ENTER, field.GetId());
  entered.SetEventObject(&field);
  field.GetEventHandler()->ProcessEvent(entered);
}

}  // namespace

TEST_CASE("thirty steps of every kind, taken back and done again, restore every byte of what holds", "[manners]") {
  Frame& frame = frame_with_setup(2);
  type(frame, "0.00");  // the session is begun: that somebody sat down is not taken back
  std::vector<std::string> states{holds(frame)};
  std::vector<std::string> labels;
  for (int i = 0; i < 30; ++i) {
    INFO("step " << i);
    const std::string before = frame.bench().undo_label();
    switch (i) {
      case 4:
        choose(frame, act_skip);
        break;
      case 7:
        set_field(frame, "printer", "name", "Heron, the older one");
        break;
      case 10:
        type(frame, drawn_here(evening(frame), 1.2));
        break;
      case 11:
        REQUIRE_FALSE(frame.measuring().hand().view().doubts.empty());
        choose(frame, act_take);
        break;
      case 15:
        set_field(frame, "spool", "name", "PLA slate, batch 15");
        break;
      case 19:
        choose(frame, act_damaged);
        break;
      case 22:
        choose(frame, act_more);
        break;
      default:
        type(frame, drawn_here(evening(frame), 0.1));
    }
    REQUIRE_FALSE(frame.bench().undo_label().empty());
    states.push_back(holds(frame));
    labels.push_back(frame.bench().undo_label());
  }
  REQUIRE(std::set<std::string>(states.begin(), states.end()).size() > 24);
  const ReadingSet last = *frame.document().content().readings;
  for (std::size_t i = states.size() - 1; i-- > 0;) {
    INFO("taking back step " << i << ", " << labels[i]);
    REQUIRE(frame.bench().undo_label() == labels[i]);
    choose(frame, act_undo);
    REQUIRE(holds(frame) == states[i]);
  }
  for (std::size_t i = 1; i < states.size(); ++i) {
    INFO("doing again step " << i - 1 << ", " << labels[i - 1]);
    REQUIRE(frame.bench().redo_label() == labels[i - 1]);
    choose(frame, act_redo);
    REQUIRE(holds(frame) == states[i]);
  }
  CHECK(to_csv(*frame.document().content().readings) == to_csv(last));
}

TEST_CASE("a column copied in a spreadsheet comes in by Ctrl+V and Enter, and goes by Ctrl+Z", "[manners]") {
  Frame& frame = frame_with_setup();
  frame.Raise();
  press_key("3", ctrl_key);
  REQUIRE(pump_until([&] { return frame.measuring().field().HasFocus(); }));
  Measuring expected = evening(frame);
  std::string column;
  for (int i = 0; i < 20; ++i) {
    const std::string line = drawn_here(expected, 0.05);
    column += line + "\r\n";
    expected = type_line(expected, line).value().next;
  }
  to_clipboard(column);
  press_key("v", ctrl_key);
  REQUIRE(pump_until([&] { return frame.measuring().preview().take().HasFocus(); }));
  press_key("Return");
  REQUIRE(pump_until([&] { return evening(frame).taken.size() == 20; }));
  CHECK(to_csv(*frame.document().content().readings) == to_csv(readings_of(expected)));
  CHECK(evening(frame).here == expected.here);
  REQUIRE(pump_until([&] { return frame.measuring().field().HasFocus(); }));
  press_key("z", ctrl_key);
  REQUIRE(pump_until([&] { return evening(frame).taken.empty(); }));
}

TEST_CASE("a block with names, drawn sizes and decimal commas comes in by its names", "[manners]") {
  Frame& frame = frame_with_setup();
  frame.Raise();
  press_key("3", ctrl_key);
  REQUIRE(pump_until([&] { return frame.measuring().field().HasFocus(); }));
  std::string block = "feature\tdrawn\t1st\t2nd\n";
  std::map<ReadingKey, double> expected;
  int row = 0;
  for (const MeasureSpot& spot : evening(frame).plan->spots) {
    if (spot.part == none_there || spot.feature.kind == Kind::hole_h || ++row > 12) continue;
    const auto with_comma = [](double mm) {
      std::string text = fixed(mm, 2);
      text[text.find('.')] = ',';
      return text;
    };
    const double first = spot.feature.nominal_mm + 0.03, second = first + 0.01;
    block += spot.feature.id + "\t" + with_comma(spot.feature.nominal_mm) + "\t" + with_comma(first) + "\t" +
             with_comma(second) + "\n";
    expected[{spot.copy, spot.feature.id, 1}] = *parse_number(fixed(first, 2));
    expected[{spot.copy, spot.feature.id, 2}] = *parse_number(fixed(second, 2));
  }
  to_clipboard(block);
  press_key("v", ctrl_key);
  REQUIRE(pump_until([&] { return frame.measuring().preview().take().HasFocus(); }));
  press_key("Return");
  REQUIRE(pump_until([&] { return !frame.measuring().preview().IsShown(); }));
  std::map<ReadingKey, double> taken;
  for (const auto& t : evening(frame).taken) taken[key_of(t->reading)] = t->reading.reading_mm;
  CHECK(taken == expected);
}

TEST_CASE("a caliper in inches: typed, shown, doubted and kept as the lengths they are", "[manners]") {
  Frame& frame = frame_with_setup();
  struct Millimetres {
    Frame& frame;
    ~Millimetres() {
      if (frame.bench().inches()) choose(frame, act_inches);
    }
  } back{frame};
  choose(frame, act_inches);
  REQUIRE(frame.bench().inches());
  for (int i = 0; i < 3; ++i) type(frame, "0.0000");
  const auto lines = due_lines(evening(frame));
  const Feature feature = evening(frame).plan->spots[lines.at(find_line(lines, evening(frame).here)).due.spot].feature;
  CHECK(frame.measuring().hand().view().drawn.find(fixed(feature.nominal_mm / 25.4, 4) + " in") != std::string::npos);
  const ReadingKey first = *evening(frame).here;
  const std::string inches = fixed(feature.nominal_mm / 25.4 + 0.0035, 4);
  type(frame, inches);
  CHECK(taken_at(evening(frame), first)->reading.reading_mm == *parse_number(inches) * 25.4);
  const ReadingKey second = *evening(frame).here;
  type(frame, drawn_here(evening(frame), 0.05) + " mm");  // says its own unit
  CHECK(fixed(taken_at(evening(frame), second)->reading.reading_mm, 6).ends_with("0000"));
  const ReadingKey tenfold = *evening(frame).here;
  const double drawn_in = *parse_number(drawn_here(evening(frame), 0.0)) / 25.4;
  type(frame, fixed(10 * drawn_in, 3));
  REQUIRE(frame.measuring().hand().view().doubts.size() == 1);
  CHECK(frame.measuring().hand().view().doubts.front().keys.find(fixed(drawn_in, 4).substr(0, 5)) != std::string::npos);
  choose(frame, act_take);
  CHECK(taken_at(evening(frame), tenfold)->reading.reading_mm == Approx(drawn_in * 25.4).margin(0.003));
  // Another unit is no step: what was done before can still be taken back, and the record says the same.
  const std::string held = holds(frame);
  choose(frame, act_inches);
  CHECK(frame.measuring().hand().view().drawn.find(" in") == std::string::npos);
  CHECK(holds(frame) == held);
  choose(frame, act_undo);
  CHECK(taken_at(evening(frame), tenfold)->reading.reading_mm > 9 * drawn_in * 25.4);
}
