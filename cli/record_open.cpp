#include "record_open.hpp"

#include <algorithm>
#include <charconv>

#include "base/number.hpp"
#include "base/text.hpp"
#include "learn/caliper.hpp"

namespace fitw {

namespace rec = fitwright::record;
using fitwright::Code;
using fitwright::Problem;
using fitwright::quote;
using fitwright::Result;

namespace {

constexpr std::size_t shown_digits = 8, fewest_digits = 4, all_digits = 32, most_named = 12;

std::string lower(std::string text) {
  for (char& c : text)
    if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
  return text;
}

bool could_be_id(const std::string& text) {
  return text.size() >= fewest_digits && text.size() <= all_digits &&
         text.find_first_not_of("0123456789abcdef") == std::string::npos;
}

template <class T>
struct Called {
  static const char* kind();
  static std::string name(const T& value) { return value.name; }
};
#define FITW_CALLED(Type, text)           \
  template <>                             \
  const char* Called<rec::Type>::kind() { \
    return text;                          \
  }
FITW_CALLED(Printer, "printer")
FITW_CALLED(Material, "material")
FITW_CALLED(Spool, "spool")
FITW_CALLED(Caliper, "caliper")
FITW_CALLED(Setup, "setup")
#undef FITW_CALLED
template <>
struct Called<rec::MadeCoupon> {
  static const char* kind() { return "coupon"; }
  static std::string name(const rec::MadeCoupon& value) { return value.design; }
};

std::string listed(const std::vector<std::string>& names) {
  std::string out;
  for (std::size_t i = 0; i < names.size() && i < most_named; ++i) out += (i == 0 ? "" : ", ") + names[i];
  return names.size() > most_named ? out + " and more" : out;
}

/// What the typed words name among `all`: exactly one, or a problem.
template <class Item, class Name, class IdOf>
Result<Item> pick(const std::string& typed, const char* kind, const std::vector<Item>& all, Name&& name, IdOf&& id) {
  std::vector<const Item*> found;
  for (const Item& item : all)
    if (lower(name(item)) == lower(typed)) found.push_back(&item);
  if (found.empty() && could_be_id(typed))
    for (const Item& item : all)
      if (id(item).text.ends_with(typed)) found.push_back(&item);
  if (found.size() == 1) return *found.front();
  if (found.size() > 1) {
    std::vector<std::string> ids;
    for (const Item* item : found) ids.push_back(short_id(id(*item)));
    return Problem{Code::bad_input,
                   {},
                   std::to_string(found.size()) + ' ' + kind + "s are called " + quote(typed),
                   "name one by its id: " + listed(ids)};
  }
  std::vector<std::string> names;
  for (const Item& item : all) names.push_back(quote(name(item)));
  std::sort(names.begin(), names.end());
  names.erase(std::unique(names.begin(), names.end()), names.end());
  return Problem{Code::bad_input,
                 {},
                 std::string("the record has no ") + kind + ' ' + quote(typed),
                 names.empty() ? std::string("there is none yet: fitw record add ") + kind + " --help"
                               : "it has " + listed(names)};
}

}  // namespace

void declare_record(Words& words) {
  words.declare("--record", "FILE", "The record's file (the one in your data folder)");
}

std::string take_record_path(Words& words, Outcome& outcome) {
  if (const auto given = words.text("--record")) return *given;
  const auto own = rec::default_record_path();
  if (own) return *own;
  add(outcome.problems, own.problems());
  return {};
}

std::optional<rec::Record> open_for(Use use, const std::string& path, Outcome& outcome) {
  rec::OpenOptions options;
  options.read_only = use == Use::look;
  options.keep_backups = use != Use::look;
  options.must_exist = use != Use::begin;
  auto opened = rec::open_record(path, options);
  if (!opened) {
    add(outcome.problems, opened.problems());
    return std::nullopt;
  }
  for (const std::string& note : opened->notes()) outcome.notes.push_back(path + ": " + note);
  return std::move(*opened);
}

void declare_at(Words& words, const std::string& meaning) {
  words.declare("--at", "TIME", meaning + ": 2026-11-25 or 2026-11-25T19:04, UTC");
}

std::string take_at(Words& words, bool end_of_day) {
  const auto typed = words.text("--at");
  if (!typed) return {};
  constexpr std::size_t date_length = 10;
  const std::string pattern = "0000-00-00T00:00:00.000";
  std::string time = *typed;
  if (!time.empty() && time.back() == 'Z') time.pop_back();
  if (time.size() == date_length) time += end_of_day ? "T23:59:59.999" : "T12:00:00.000";
  const bool whole = time.size() == 16 || time.size() == 19 || time.size() == pattern.size();
  if (whole) time += pattern.substr(time.size());
  bool fits = whole && fitwright::day_number(time.substr(0, date_length)).has_value();
  for (std::size_t i = 0; fits && i < pattern.size(); ++i)
    fits = pattern[i] == '0' ? time[i] >= '0' && time[i] <= '9' : time[i] == pattern[i];
  const auto two = [&](std::size_t at) { return (time[at] - '0') * 10 + (time[at + 1] - '0'); };
  if (fits) fits = two(11) < 24 && two(14) < 60 && two(17) < 60;
  if (fits) return time + 'Z';
  words.complain("--at: " + quote(*typed) + " is no date and no time", "give 2026-11-25 or 2026-11-25T19:04 (UTC)");
  return {};
}

template <class T>
Result<rec::Kept<T>> find(rec::Record& record, const std::string& typed) {
  const auto all = rec::all<T>(record);
  if (!all) return all.problems();
  return pick(
      typed, Called<T>::kind(), *all, [](const rec::Kept<T>& k) { return Called<T>::name(k.value); },
      [](const rec::Kept<T>& k) { return k.thing; });
}

template Result<rec::Kept<rec::Printer>> find<rec::Printer>(rec::Record&, const std::string&);
template Result<rec::Kept<rec::Material>> find<rec::Material>(rec::Record&, const std::string&);
template Result<rec::Kept<rec::Spool>> find<rec::Spool>(rec::Record&, const std::string&);
template Result<rec::Kept<rec::Caliper>> find<rec::Caliper>(rec::Record&, const std::string&);
template Result<rec::Kept<rec::Setup>> find<rec::Setup>(rec::Record&, const std::string&);
template Result<rec::Kept<rec::MadeCoupon>> find<rec::MadeCoupon>(rec::Record&, const std::string&);

Result<rec::Kept<rec::Setup>> find_setup(rec::Record& record, const std::string& typed) {
  if (!typed.empty()) return find<rec::Setup>(record, typed);
  const auto all = rec::all<rec::Setup>(record);
  if (!all) return all.problems();
  if (all->size() == 1) return all->front();
  std::vector<std::string> names;
  for (const auto& setup : *all) names.push_back(quote(setup.value.name));
  return Problem{
      Code::usage,
      {},
      "which setup is meant is not said",
      names.empty() ? "there is none yet: fitw record add setup --help" : "--setup with one of " + listed(names)};
}

Result<rec::CorrectionLife> find_correction(rec::Record& record, const std::string& typed,
                                            const std::vector<rec::Standing>& standings) {
  const auto all = rec::all<rec::StoredCorrection>(record);
  if (!all) return all.problems();
  if (all->empty())
    return Problem{Code::bad_input, {}, "the record has no correction yet", "propose one: fitw correct --setup NAME"};
  if (typed == "last") {
    for (auto kept = all->rbegin(); kept != all->rend(); ++kept) {
      auto life = rec::life_of(record, kept->thing);
      if (!life || standings.empty() ||
          std::find(standings.begin(), standings.end(), life->standing) != standings.end())
        return life;
    }
    std::vector<std::string_view> words;
    for (const rec::Standing standing : standings) words.push_back(rec::word(standing));
    return Problem{Code::unanswerable,
                   {},
                   "no correction of the record is " + fitwright::alternatives(words),
                   "fitw record list tells how each stands"};
  }
  const auto one = pick(
      typed, "correction", *all, [](const auto& k) { return short_id(k.thing); },
      [](const auto& k) { return k.thing; });
  if (!one) return one.problems();
  return rec::life_of(record, one->thing);
}

Result<rec::Kept<rec::Copy>> find_copy(rec::Record& record, const rec::Id& setup, const std::string& typed) {
  const auto all = rec::all_of<rec::Copy>(record, "setup", setup);
  if (!all) return all.problems();
  if (const auto number = fitwright::parse_whole(typed); number && typed.size() < fewest_digits) {
    std::vector<rec::Kept<rec::Copy>> of_print;
    for (const auto& copy : *all)
      if (copy.value.print == *number) of_print.push_back(copy);
    if (of_print.size() == 1) return of_print.front();
    std::vector<std::string> there;
    for (const auto& copy : of_print.empty() ? *all : of_print)
      there.push_back(of_print.empty() ? std::to_string(copy.value.print) : short_id(copy.thing));
    return Problem{Code::bad_input,
                   {},
                   of_print.empty() ? "the setup has no print " + typed
                                    : std::to_string(of_print.size()) + " copies belong to print " + typed,
                   of_print.empty() ? (there.empty() ? std::string("it has none yet: fitw record add copy --help")
                                                     : "it has " + listed(there))
                                    : "name one by its id: " + listed(there)};
  }
  return pick(
      typed, "copy", *all, [](const auto& k) { return short_id(k.thing); }, [](const auto& k) { return k.thing; });
}

std::string short_id(const rec::Id& id) {
  return id.text.size() > shown_digits ? id.text.substr(id.text.size() - shown_digits) : id.text;
}

std::string moment(const std::string& at) {
  constexpr std::size_t date_length = 10, minutes_end = 16;
  if (at.size() < minutes_end) return at;
  return at.substr(0, date_length) + ' ' + at.substr(date_length + 1, minutes_end - date_length - 1);
}

}  // namespace fitw
