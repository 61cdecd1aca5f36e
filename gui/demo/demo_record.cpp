// Five weeks at the tool library: the cabinet for small parts, two printers, three spools, one caliper.

#include "demo_record.hpp"

#include <algorithm>
#include <map>
#include <set>
#include <stdexcept>

#include "demo_bench.hpp"
#include "record/exchange.hpp"
#include "record/kept_estimate.hpp"
#include "record/teaching.hpp"

namespace fitwright {
namespace {

constexpr std::size_t id_digits = 32;

std::string digits(std::size_t number, int width) {
  constexpr const char* hex = "0123456789abcdef";
  std::string out(static_cast<std::size_t>(width), '0');
  for (auto at = out.rbegin(); at != out.rend() && number > 0; ++at, number /= 16) *at = hex[number % 16];
  return out;
}

/// The ids of all rows in their order, which is that in which they were made.
std::set<std::string> ids_in(const std::string& json) {
  const std::string key = "\"id\":\"";
  std::set<std::string> out;
  for (std::size_t at = json.find(key); at != std::string::npos; at = json.find(key, at + 1))
    out.insert(json.substr(at + key.size(), id_digits));
  return out;
}

/// The same document with ids that do not depend on when it was made, in the same order.
std::string with_lasting_ids(const std::string& json) {
  constexpr std::size_t began_ms = 0x1a1569b9800;  // 2026-10-20T00:00Z: before anything else was kept
  constexpr int time_width = 12, count_width = 4;
  std::map<std::string, std::string> lasting;
  for (const std::string& id : ids_in(json)) {
    const std::size_t n = lasting.size();
    lasting[id] = digits(began_ms, time_width) + digits(n, count_width) +
                  record::content_hash("demo " + std::to_string(n)).substr(id_digits / 2);
  }
  std::string out;
  for (std::size_t at = 0; at < json.size();) {
    const std::size_t end = std::min(json.find_first_not_of("0123456789abcdef", at), json.size());
    const auto found = end - at == id_digits ? lasting.find(json.substr(at, end - at)) : lasting.end();
    out += found == lasting.end() ? json.substr(at, end - at) : found->second;
    if (end < json.size()) out += json[end];
    at = end + 1;
  }
  return out;
}

void tell(record::Record& record) {
  DemoBench bench(record);
  // What there is.
  DemoPrinter heron = bench.printer("Heron", 220, {80, 80, 400, 93}, "2026-10-20T17:00:00.000Z");
  heron.machine_x = 0.0012;
  heron.machine_y = -0.0008;
  heron.skew_rad = 0.0012;
  heron.seed = 55;
  DemoPrinter wren = bench.printer("Wren", 180, {100, 100, 400, 415}, "2026-10-20T17:01:00.000Z");
  wren.machine_x = -0.0003;
  wren.machine_y = 0.0004;
  wren.skew_rad = -0.0004;
  wren.seed = 56;
  const auto pla = bench.material("PLA", 1.24, "2026-10-20T17:02:00.000Z");
  const auto petg = bench.material("PETG", 1.27, "2026-10-20T17:03:00.000Z");
  const auto slate14 = bench.spool("PLA slate, batch 14", pla, "slate", "14", 22, "2026-10-20T17:04:00.000Z");
  const auto clear3 = bench.spool("PETG clear, batch 3", petg, "clear", "3", 26, "2026-10-20T17:05:00.000Z");
  const auto caliper = bench.caliper("Tool library", "2026-10-20T17:06:00.000Z");
  const auto frame = bench.coupon("frame", "2026-10-20T17:10:00.000Z");
  const auto bores = bench.coupon("bores", "2026-10-20T17:11:00.000Z");
  bench.note(heron.id, "The older one; new belts in spring.", "2026-10-20T17:12:00.000Z");
  bench.check_caliper(caliper, 0.000, "2026-10-20T17:15:00.000Z");

  // The first evening on Heron, the correction and its proof.
  DemoSetup slate = bench.setup("PLA slate 14 on Heron", heron, slate14, 210, 60, {}, "2026-10-20T17:20:00.000Z");
  slate.shrink = 0.0038;
  slate.edge_mm = 0.075;
  bench.print(slate, frame, 0, "2026-10-20T18:30:00.000Z", caliper, 0.002, "2026-10-21T18:00:00.000Z");
  bench.print(slate, bores, 0, "2026-10-20T19:30:00.000Z", caliper, 0.002, "2026-10-21T18:10:00.000Z");
  bench.print(slate, frame, 90, "2026-10-20T20:30:00.000Z", caliper, 0.002, "2026-10-21T18:20:00.000Z");
  const auto first = bench.propose(slate, Policy::shrink, "2026-10-21T18:40:00.000Z");
  bench.apply(first, "2026-10-21T18:45:00.000Z");
  bench.print(slate, frame, 0, "2026-10-22T17:30:00.000Z", caliper, 0.003, "2026-10-22T19:30:00.000Z");
  bench.prove(first, "2026-10-22T19:50:00.000Z");
  bench.check_caliper(caliper, 0.004, "2026-10-27T17:00:00.000Z");

  // Wren with the clear spool; withdrawn, since it was measured with a slack belt.
  bench.travel(wren, 150, "2026-10-27T17:10:00.000Z");
  DemoSetup clear = bench.setup("PETG clear 3 on Wren", wren, clear3, 240, 75, {}, "2026-10-27T17:15:00.000Z");
  clear.shrink = 0.0052;
  clear.edge_mm = 0.11;
  bench.print(clear, frame, 0, "2026-10-27T18:00:00.000Z", caliper, 0.004, "2026-10-28T18:00:00.000Z");
  const auto second = bench.propose(clear, Policy::shrink_only, "2026-10-28T18:30:00.000Z");
  bench.apply(second, "2026-10-28T18:35:00.000Z");
  bench.withdraw(second, "Measured while the belt of X was slack; it is tight now, and will be read again.",
                 "2026-10-30T17:00:00.000Z");
  bench.print(clear, frame, 0, "2026-11-02T17:30:00.000Z", caliper, 0.006, "2026-11-03T18:00:00.000Z");
  bench.print(clear, frame, 90, "2026-11-02T18:30:00.000Z", caliper, 0.006, "2026-11-03T18:15:00.000Z");
  bench.propose(clear, Policy::shrink_only, "2026-11-03T18:40:00.000Z");
  bench.check_caliper(caliper, 0.007, "2026-11-03T19:00:00.000Z");

  // The slate on Wren too: printers and spools can then be told apart.
  DemoSetup slate_wren = bench.setup("PLA slate 14 on Wren", wren, slate14, 205, 60, {}, "2026-11-04T17:00:00.000Z");
  slate_wren.shrink = slate.shrink;
  slate_wren.edge_mm = 0.05;
  bench.print(slate_wren, frame, 0, "2026-11-04T17:30:00.000Z", caliper, 0.007, "2026-11-05T18:00:00.000Z");
  bench.print(slate_wren, frame, 90, "2026-11-04T18:30:00.000Z", caliper, 0.007, "2026-11-05T18:15:00.000Z");

  // Is Heron still what it was: the same file again, week by week.
  bench.print(slate, frame, 0, "2026-11-09T17:30:00.000Z", caliper, 0.009, "2026-11-10T18:00:00.000Z");
  bench.check_caliper(caliper, 0.009, "2026-11-10T18:30:00.000Z");
  bench.print(slate, frame, 0, "2026-11-16T17:30:00.000Z", caliper, 0.010, "2026-11-17T18:00:00.000Z");
  bench.check_caliper(caliper, 0.011, "2026-11-17T18:30:00.000Z");

  // The next spool begins with what the last one taught; one copy is read, the other waits.
  const auto slate15 = bench.spool("PLA slate, batch 15", pla, "slate", "15", 23, "2026-11-23T17:00:00.000Z");
  DemoSetup next = bench.setup("PLA slate 15 on Heron", heron, slate15, 210, 60, {}, "2026-11-23T17:05:00.000Z");
  next.shrink = 0.0031;
  next.edge_mm = 0.08;
  bench.print(next, frame, 0, "2026-11-23T17:30:00.000Z", caliper, 0.011, "2026-11-24T18:00:00.000Z");
  bench.print(next, frame, 90, "2026-11-23T18:30:00.000Z", caliper, 0.011, {});
  bench.propose(next, Policy::shrink_only, "2026-11-24T18:30:00.000Z");
  bench.note(next.id, "For the drawers of the cabinet. The second copy is still to be read.",
             "2026-11-24T18:40:00.000Z");
}

}  // namespace

std::string make_demo_record() {
  record::Record record = record::record_in_memory();
  tell(record);
  const auto json = record::export_json_text(record);
  if (!json) throw std::logic_error("the demo record: " + json.problems().front().text());
  return with_lasting_ids(*json);
}

}  // namespace fitwright
