#pragma once
// A small bench for tests: the printer Heron with setups of several spools.

#include <catch2/catch.hpp>
#include <string>

#include "record/life.hpp"
#include "record/store.hpp"

namespace sample {

using namespace fitwright;
using namespace fitwright::record;

/// The value of a result that must be there.
template <class T>
T got(Result<T> result) {
  if (!result.ok()) FAIL(result.problems().front().text());
  return std::move(*result);
}

struct SampleBench {
  Id printer, material, spool;

  explicit SampleBench(Record& record) {
    Printer heron;
    heron.name = "Heron";
    printer = got(add(record, heron, "2026-11-01T10:00:00.000Z")).thing;
    Material pla;
    pla.name = "PLA";
    material = got(add(record, pla, "2026-11-01T10:00:01.000Z")).thing;
    spool = new_spool(record, "PLA slate");
  }

  Id new_spool(Record& record, const std::string& name) const {
    Spool s;
    s.material = material;
    s.name = name;
    return got(add(record, s, "2026-11-01T10:00:02.000Z")).thing;
  }

  Id new_setup(Record& record, const std::string& name, double size_factor = 1.0,
               const std::string& at = "2026-11-01T10:00:03.000Z") const {
    Setup s;
    s.name = name;
    s.printer = printer;
    s.spool = spool;
    State state;
    state.size_factor = size_factor;
    s.state = to_json(state);
    return got(add(record, s, at)).thing;
  }
};

/// A correction that sets what differs between two states, as if made from an estimate.
inline Correction correction(const State& before, const State& after) {
  Correction c;
  c.before = before;
  c.after = after;
  for (const auto& [knob, a, b] : differences(before, after)) {
    Change change;
    change.knob = knob;
    change.old_value = a;
    change.new_value = b;
    change.established = true;
    c.changes.push_back(change);
  }
  return c;
}

inline Id proposed(Record& record, const Id& setup, const State& before, const State& after) {
  return got(propose(record, setup, {}, correction(before, after))).correction.thing;
}

inline State now(Record& record, const Id& setup) { return got(state_in_force(record, setup)).state; }

}  // namespace sample
