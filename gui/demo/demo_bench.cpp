#include "demo_bench.hpp"

#include <cmath>
#include <stdexcept>

#include "base/number.hpp"
#include "correct/algebra.hpp"
#include "design/design.hpp"
#include "mesh/mesh.hpp"
#include "practice/true_feature.hpp"
#include "reading/csv.hpp"
#include "record/kept_estimate.hpp"
#include "record/life.hpp"
#include "record/proof.hpp"
#include "record/waiting_copies.hpp"
#include "report/estimate_report.hpp"

namespace fitwright {

using namespace record;

namespace {

constexpr const char* program = "demo";

/// The value, or a defect.
template <class T>
T must(Result<T> result) {
  if (!result) throw std::logic_error("the demo record: " + result.problems().front().text());
  return std::move(*result);
}

}  // namespace

DemoPrinter DemoBench::printer(const std::string& name, double bed_mm, const StepsPerMm& steps, const std::string& at) {
  Printer p;
  p.name = name;
  p.bed_x_mm = p.bed_y_mm = bed_mm;
  p.steps_x = steps.x;
  p.steps_y = steps.y;
  p.steps_z = steps.z;
  p.steps_e = steps.e;
  DemoPrinter out;
  out.id = must(add(record_, p, at)).thing;
  out.steps = steps;
  return out;
}

Id DemoBench::material(const std::string& name, double density_g_cm3, const std::string& at) {
  Material m;
  m.name = name;
  m.density_g_cm3 = density_g_cm3;
  return must(add(record_, m, at)).thing;
}

Id DemoBench::spool(const std::string& name, const Id& material, const std::string& colour, const std::string& batch,
                    double price_per_kg, const std::string& at) {
  Spool s;
  s.material = material;
  s.name = name;
  s.colour = colour;
  s.batch = batch;
  s.price_per_kg = price_per_kg;
  s.currency = "EUR";
  return must(add(record_, s, at)).thing;
}

Id DemoBench::caliper(const std::string& name, const std::string& at) {
  Caliper c;
  c.name = name;
  return must(add(record_, c, at)).thing;
}

DemoSetup DemoBench::setup(const std::string& name, const DemoPrinter& printer, const Id& spool, double nozzle_c,
                           double bed_c, const State& state, const std::string& at) {
  Setup s;
  s.name = name;
  s.printer = printer.id;
  s.spool = spool;
  s.nozzle_c = nozzle_c;
  s.bed_c = bed_c;
  s.state = to_json(state);
  DemoSetup out;
  out.id = must(add(record_, s, at)).thing;
  out.printer = &printer;
  return out;
}

Id DemoBench::coupon(const std::string& design, const std::string& at) {
  const Coupon made = must(make_coupon(design));
  MadeCoupon c;
  c.design = made.design;
  std::string parameters;
  for (const auto& [name, value] : made.values)
    parameters += (parameters.empty() ? "{\"" : ", \"") + name + "\": " + shortest(value);
  c.parameters = parameters + '}';
  c.features = features_csv(made);
  c.file_hash = content_hash(to_stl(mesh_of(made.solid)));
  c.grams = made.grams;
  const Id id = must(add(record_, c, at)).thing;
  features_[id.text] = made.features;
  return id;
}

void DemoBench::check_caliper(const Id& caliper, double zero_mm, const std::string& at) {
  struct Reference {
    const char* kind;
    const char* name;
    double true_mm, bias_mm;
  };
  constexpr double display_mm = 0.01;
  Session session;
  session.caliper = caliper;
  session.began = at;
  const Id of = must(add(record_, session, at)).thing;
  for (const Reference& r :
       {Reference{"zero", "jaws", 0, 0}, {"gauge", "G10", 10.002, 0}, {"ring", "R20", 20.001, -0.012}})
    for (int repeat = 1; repeat <= 3; ++repeat) {
      SteelReading s;
      s.caliper = caliper;
      s.session = of;
      s.kind = r.kind;
      s.feature_id = r.name;
      s.true_mm = r.true_mm;
      s.repeat = repeat;
      constexpr double hand_mm = 0.005;  // one repeat a little low, one a little high
      s.reading_mm = std::round((r.true_mm + r.bias_mm + zero_mm + hand_mm * (repeat - 2)) / display_mm) * display_mm;
      must(add(record_, s, at));
    }
}

void DemoBench::note(const Id& about, const std::string& words, const std::string& at) {
  Remark r;
  r.about = about;
  r.words = words;
  must(add(record_, r, at));
}

void DemoBench::travel(const DemoPrinter& printer, double commanded_mm, const std::string& at) {
  constexpr double read_mm = 0.05;
  for (const auto& [axis, machine] : {std::pair{"x", printer.machine_x}, {"y", printer.machine_y}})
    must(
        add(record_,
            Travelled{printer.id, axis, commanded_mm, std::round(commanded_mm * (1 + machine) / read_mm) * read_mm, {}},
            at));
}

Truth DemoBench::truth_of(const DemoSetup& setup, const State& state, const Id& coupon) const {
  const DemoPrinter& p = *setup.printer;
  State usual;
  usual.steps_per_mm = p.steps;
  const auto scale = [&](double machine) { return (1 + machine) * (1 - setup.shrink) - 1; };
  const PlanarOutcome now = outcome(usual, state, {scale(p.machine_x), scale(p.machine_y), setup.edge_mm});
  Truth truth = default_truth();
  truth.scale = {now.gain_x - 1, now.gain_y - 1, -setup.shrink};
  truth.edge_growth_mm = now.edge_mm;
  truth.skew_rad = p.skew_rad;
  truth.typo_rate = 0;
  truth.repeats = 2;
  truth.features.clear();
  TrueFeature jaws;
  jaws.id = "jaws";
  jaws.kind = Kind::zero;
  jaws.axis = Axis::n;
  jaws.lengths_mm = {0};
  truth.features.push_back(jaws);
  for (const Feature& f : features_.at(coupon.text)) truth.features.push_back(true_feature(f));
  return truth;
}

Id DemoBench::print(const DemoSetup& setup, const Id& coupon, int turned_deg, const std::string& printed_at,
                    const Id& caliper, double zero_mm, const std::string& read_at) {
  constexpr std::size_t date_length = 10;
  const StateInForce now = must(state_in_force(record_, setup.id, printed_at));
  Copy copy;
  copy.setup = setup.id;
  copy.coupon = coupon;
  copy.print = 1;
  for (const auto& other : must(all_of<Copy>(record_, "setup", setup.id)))
    if (other.value.printed_on == printed_at.substr(0, date_length) && other.value.coupon != coupon)
      copy.print = std::max(copy.print, other.value.print);
    else
      copy.print = std::max(copy.print, other.value.print + 1);
  copy.turned_deg = turned_deg;
  copy.state = to_json(now.state);
  copy.printed_on = printed_at.substr(0, date_length);
  const Id id = must(add(record_, copy, printed_at)).thing;
  const int number = ++printed_[{setup.printer->id.text, coupon.text}];
  if (read_at.empty()) return id;

  // The seed is the printer's: the faces of one file are off by the same amounts on each of its copies.
  Truth truth = truth_of(setup, now.state, coupon);
  truth.caliper_zero_mm = zero_mm;
  truth.copies = number;
  truth.turned_deg = std::vector<int>(static_cast<std::size_t>(number), turned_deg);
  ReadingSet read = simulate(truth, setup.printer->seed);
  std::erase_if(read.rows, [&](const Reading& r) { return r.copy != number; });
  for (Reading& r : read.rows) r.copy = 1;
  KeepOptions options;
  options.setup = setup.id;
  options.copy = id;
  options.caliper = caliper;
  options.at = read_at;
  must(keep_on_waiting_copies(record_, read, options));
  return id;
}

Id DemoBench::propose(const DemoSetup& setup, Policy policy, const std::string& at) {
  const SetupEstimate e = must(estimate_setup(record_, setup.id));
  FindingOptions told;
  told.state = e.from.printed_with;
  const std::string result = estimate_json(e.estimates, e.from.readings, findings(e.estimates, e.from.readings, told));
  const Id estimate = must(keep_estimate(record_, e, result, program, at)).thing;
  CorrectOptions options;
  options.policy = policy;
  options.beyond = beyond_readings(e.estimates, e.from.readings);
  const Correction c = must(correct(e.estimates, e.from.printed_with, options));
  return must(record::propose(record_, setup.id, estimate, c, {}, at)).correction.thing;
}

void DemoBench::apply(const Id& correction, const std::string& at) {
  must(record::apply(record_, correction, {.reason = {}, .at = at, .force = false}));
}

void DemoBench::prove(const Id& correction, const std::string& at) {
  const ProofKept kept =
      must(record::prove(record_, correction, std::vector<Id>{}, {.reason = {}, .at = at, .force = false}));
  if (kept.proof.verdict != Verdict::proved) throw std::logic_error("the demo record: " + kept.proof.text);
}

void DemoBench::withdraw(const Id& correction, const std::string& reason, const std::string& at) {
  must(record::withdraw(record_, correction, {.reason = reason, .at = at, .force = false}));
}

}  // namespace fitwright
