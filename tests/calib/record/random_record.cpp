#include "calib/record/random_record.hpp"

#include <catch2/catch.hpp>
#include <limits>
#include <type_traits>
#include <vector>

#include "record/exchange.hpp"
#include "record/mapping.hpp"
#include "record/store.hpp"

using namespace fitwright;
using namespace fitwright::record;

namespace fitwright_test {
namespace {

using Random = std::mt19937_64;

int below(Random& random, int n) { return static_cast<int>(random() % static_cast<std::uint64_t>(n)); }

template <class T>
const T& one_of(Random& random, const std::vector<T>& items) {
  return items[random() % items.size()];
}

std::string text(Random& random) {
  static const std::vector<std::string> odd{
      "",
      "PLA slate, batch 14",
      "\"quoted\" and 'single' and \\ and /",
      "two\nlines\r\nand\ta tab",
      "=SUM(A1:A9)",
      "+1",
      "-1",
      "@x",
      "größe Ø 5 µm, 寸法, размер, قياس, 𝄞, e\u0301",
      "{\"x\":{\"kind\":\"belt\"}}",
      std::string("nul\0 and \x01\x1f\x7f", 12),
      "\u2028 line separator, \uFEFF, \uFFFD",
      "  blanks at the ends  ",
      std::string(3000, 'w'),
      "NaN",
      "null",
  };
  return one_of(random, odd);
}

double number(Random& random) {
  using Limits = std::numeric_limits<double>;
  static const std::vector<double> odd{0.0,
                                       1,
                                       -1,
                                       0.1,
                                       1.0 / 3,
                                       40.05,
                                       Limits::min(),
                                       Limits::max(),
                                       Limits::lowest(),
                                       Limits::denorm_min(),
                                       Limits::epsilon(),
                                       9007199254740993.0,
                                       1e22,
                                       1e23,
                                       123456789012345678.0,
                                       5e-324,
                                       2.2250738585072011e-308,
                                       Limits::infinity(),
                                       -Limits::infinity()};
  if (random() % 3) return one_of(random, odd);
  return std::uniform_real_distribution<double>(-300, 300)(random);
}

/// Few moments, so that some are equal.
std::string moment(Random& random) {
  std::string at = "2026-11-2xT1y:00:00.000Z";
  at[9] = static_cast<char>('0' + below(random, 6));
  at[12] = static_cast<char>('0' + below(random, 10));
  return at;
}

template <class T>
Id any(Record& record, Random& random) {
  const auto things = all<T>(record);
  REQUIRE(things.ok());
  if (things->empty()) return {};
  return one_of(random, *things).thing;
}

void set_special(Record&, Random&, ...) {}
void set_special(Record& r, Random& random, Spool* v) { v->material = any<Material>(r, random); }
void set_special(Record& r, Random& random, Setup* v) {
  v->printer = any<Printer>(r, random);
  v->spool = any<Spool>(r, random);
}
void set_special(Record& r, Random& random, Travelled* v) {
  v->printer = any<Printer>(r, random);
  v->axis = one_of(random, std::vector<std::string>{"x", "y", "z"});
}
void set_special(Record& r, Random& random, Copy* v) {
  v->setup = any<Setup>(r, random);
  v->coupon = any<MadeCoupon>(r, random);
  v->turned_deg = 90 * below(random, 4);
}
void set_special(Record& r, Random& random, Session* v) {
  v->setup = random() % 2 ? any<Setup>(r, random) : Id{};
  v->caliper = random() % 2 ? any<Caliper>(r, random) : Id{};
}
void set_special(Record& r, Random& random, StoredReading* v) {
  v->copy = any<Copy>(r, random);
  v->session = random() % 2 ? any<Session>(r, random) : Id{};
  v->standing = one_of(random, std::vector<std::string>{"read", "skipped", "damaged"});
  v->reading_mm.reset();
  if (v->standing == "read") v->reading_mm = number(random);
}
void set_special(Record& r, Random& random, SteelReading* v) {
  v->caliper = random() % 2 ? any<Caliper>(r, random) : Id{};
  v->session = any<Session>(r, random);
  v->kind = one_of(random, std::vector<std::string>{"zero", "gauge", "ring"});
}
void set_special(Record& r, Random& random, StoredEstimate* v) { v->setup = any<Setup>(r, random); }
void set_special(Record& r, Random& random, StoredCorrection* v) {
  v->setup = any<Setup>(r, random);
  v->estimate = random() % 2 ? any<StoredEstimate>(r, random) : Id{};
  v->origin = one_of(random, std::vector<std::string>{"estimate", "re-expression", "by hand"});
}
void set_special(Record& r, Random& random, CorrectionEvent* v) {
  v->correction = any<StoredCorrection>(r, random);
  v->what = one_of(random, std::vector<std::string>{"proposed", "applied", "proved", "withdrawn"});
}
void set_special(Record& r, Random& random, Remark* v) { v->about = any<Setup>(r, random); }
void set_special(Record& r, Random& random, Trial* v) {
  v->setup = any<Setup>(r, random);
  v->copy = random() % 2 ? any<Copy>(r, random) : Id{};
  v->grade = below(random, 5);
}
void set_special(Record& r, Random& random, DrawnSize* v) { v->setup = any<Setup>(r, random); }

template <class T>
T any_value(Record& record, Random& random, int names) {
  T value{};
  Mapping<T>::visit(value, [&](const char* column, auto& field) {
    using Field = std::remove_reference_t<decltype(field)>;
    if constexpr (std::is_same_v<Field, std::string>)
      field =
          names > 0 && std::string(column) == "name" ? "name " + std::to_string(below(random, names)) : text(random);
    if constexpr (std::is_same_v<Field, double>) field = number(random);
    if constexpr (std::is_same_v<Field, int>) field = 1 + below(random, 1000);
    if constexpr (std::is_same_v<Field, std::optional<double>>)
      if (random() % 2) field = number(random);
  });
  set_special(record, random, &value);
  return value;
}

template <class T>
void add_one(Record& record, Random& random, int names) {
  const auto added = add(record, any_value<T>(record, random, names), moment(random));
  REQUIRE(added.ok());
}

template <class T>
void amend_one(Record& record, Random& random, int names) {
  const auto things = all<T>(record);
  REQUIRE(things.ok());
  if (things->empty()) return;
  const auto& seen = one_of(random, *things);
  REQUIRE(amend(record, seen, any_value<T>(record, random, names), text(random), moment(random)).ok());
}

template <class T>
void end_one(Record& record, Random& random, int) {
  const auto things = all<T>(record);
  REQUIRE(things.ok());
  if (things->size() < 2) return;  // one is left for others to refer to
  REQUIRE(end(record, one_of(random, *things), text(random), moment(random)).ok());
}

using Step = void (*)(Record&, Random&, int);

template <class... T>
struct Kinds {
  static std::vector<Step> adding() { return {&add_one<T>...}; }
  static std::vector<Step> amending() { return {&amend_one<T>...}; }
  static std::vector<Step> ending() { return {&end_one<T>...}; }
};
// Those that others refer to first.
using All = Kinds<Printer, Material, Spool, Caliper, Setup, Travelled, MadeCoupon, Copy, Session, StoredReading,
                  SteelReading, StoredEstimate, StoredCorrection, CorrectionEvent, Remark, Trial, DrawnSize>;

}  // namespace

void change_randomly(Record& record, std::uint64_t seed, int steps, int names) {
  Random random(seed);
  for (int k = 0; k < steps; ++k) {
    const int what = below(random, 10);
    one_of(random, what < 5 ? All::adding() : what < 9 ? All::amending() : All::ending())(record, random, names);
  }
}

Record random_record(std::uint64_t seed, int steps) {
  Record record = record_in_memory();
  Random random(seed);
  for (int round = 0; round < 2; ++round)
    for (const Step add : All::adding()) add(record, random, 0);
  change_randomly(record, random(), steps);
  return record;
}

Record copy_of(Record& record) {
  Record copy = record_in_memory();
  const auto report = import_json_text(copy, exported(record), "a copy");
  if (!report.ok()) FAIL(report.problems().front().text());
  return copy;
}

std::string exported(Record& record) {
  const auto text = export_json_text(record);
  if (!text.ok()) FAIL(text.problems().front().text());
  return *text;
}

}  // namespace fitwright_test
