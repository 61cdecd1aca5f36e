#include "bench/bench.hpp"

#include <utility>

#include "base/words.hpp"
#include "bench/measuring/measure_steps.hpp"
#include "record/axes_known.hpp"
#include "record/copy_history.hpp"
#include "record/record_findings.hpp"

namespace fitwright {

using record::Id;

Bench::Bench(record::Record record, std::vector<std::string> notes)
    : record_(std::move(record)), notes_(std::move(notes)) {}

void Bench::take_in(Document document) {
  document.count_from(document_.revision());
  document_ = std::move(document);
  not_kept_.clear();
}

void Bench::begin_anew(Document document) {
  take_in(std::move(document));
  past_.clear();
  future_.clear();
}

void Bench::plan_anew(Document document) {
  take_in(std::move(document));
  // Steps of the earlier plan have nothing to go back to; those of the record still do.
  const auto of_document = [](const std::optional<RecordStep>& step) { return !step; };
  std::erase_if(past_, of_document);
  std::erase_if(future_, of_document);
}

namespace {

Result<SetupOnBench> look_at(record::Record& record, const Id& id) {
  auto setup = record::one<record::Setup>(record, id);
  if (!setup) return setup.problems();
  auto printer = record::one<record::Printer>(record, setup->value.printer);
  if (!printer) return printer.problems();
  auto spool = record::one<record::Spool>(record, setup->value.spool);
  if (!spool) return spool.problems();
  auto material = record::one<record::Material>(record, spool->value.material);
  if (!material) return material.problems();
  auto in_force = record::state_in_force(record, id);
  if (!in_force) return in_force.problems();
  return SetupOnBench{*std::move(setup), *std::move(printer), *std::move(spool), *std::move(material),
                      *std::move(in_force)};
}

}  // namespace

namespace {

/// Which scatter between copies to assume: what this printer's other copies showed, or the typical one.
CopyPrior copy_prior_of(record::Record& record, const Id& printer, const Evening& evening) {
  std::vector<Id> own;
  for (const record::Kept<record::Copy>& copy : evening.copies) own.push_back(copy.thing);
  const auto history = record::copy_history(record, printer, own);
  return history ? history->prior : CopyPrior{};
}

}  // namespace

namespace {

/// What the record knows of the printer's axes. What it cannot say is not known: the readings can be worked out all the
/// same, and Setup tells what is wrong with the drive.
void take_axes(record::Record& record, const SetupOnBench& setup, Content& content) {
  const auto known = record::axes_known(record, setup.printer.thing, setup.in_force);
  content.drive = known ? known->drive : std::map<char, Drive>{};
  content.travel = known ? known->travel : std::map<char, Travel>{};
}

}  // namespace

Result<Done> Bench::lay(const Id& id) {
  auto setup = look_at(record_, id);
  if (!setup) return setup.problems();
  auto evening = evening_of(record_, id, caliper_ ? caliper_->thing : Id{});
  if (!evening) return evening.problems();
  Content content;
  content.wishes = document_.content().wishes;
  content.wishes.tried.clear();
  take_axes(record_, *setup, content);
  content.state = evening->copies.empty() ? setup->in_force.state : evening->printed_with;
  content.copy_prior = copy_prior_of(record_, setup->printer.thing, *evening);
  content = with_measuring(std::move(content), evening->kept);
  setup_ = *std::move(setup);
  evening_ = *std::move(evening);
  begin_anew(Document(std::move(content)));
  find_in_record();
  show_in_unit();
  return Done{};
}

void Bench::use_inches(bool inches) {
  inches_ = inches;
  show_in_unit();
}

/// Every content that comes to the front is shown in the unit of the caliper, whenever it was made.
void Bench::show_in_unit() {
  const auto& plan = document_.content().measuring.plan;
  if (!plan || plan->inches == inches_) return;
  MeasurePlan changed = *plan;
  changed.inches = inches_;
  Content content = document_.content();
  content.measuring.plan = std::make_shared<const MeasurePlan>(std::move(changed));
  if (evening_) evening_->kept.plan = content.measuring.plan;
  document_.put(std::move(content));
}

void Bench::lay_loose(Document document) {
  setup_.reset();
  evening_.reset();
  of_record_.clear();
  begin_anew(std::move(document));
  show_in_unit();
}

Result<Done> Bench::choose_caliper(const Id& id) {
  std::optional<record::Kept<record::Caliper>> caliper;
  if (!id.empty()) {
    auto found = record::one<record::Caliper>(record_, id);
    if (!found) return found.problems();
    caliper = *std::move(found);
  }
  caliper_ = std::move(caliper);
  return setup_ ? look_again() : Result<Done>(Done{});
}

Result<Done> Bench::look_again() {
  if (!setup_) return Done{};
  keep();
  if (!not_kept_.empty()) return not_kept_;
  auto setup = look_at(record_, setup_->setup.thing);
  if (!setup) return setup.problems();
  auto evening = evening_of(record_, setup_->setup.thing, caliper_ ? caliper_->thing : Id{});
  if (!evening) return evening.problems();
  Content content = document_.content();
  take_axes(record_, *setup, content);
  content.state = evening->copies.empty() ? setup->in_force.state : evening->printed_with;
  content.copy_prior = copy_prior_of(record_, setup->printer.thing, *evening);
  setup_ = *std::move(setup);
  evening_ = *std::move(evening);
  if (same_evening(evening_->kept, content.measuring)) {
    // Steps of the evening can still be taken back: their values belong to the same plan.
    evening_->kept = content.measuring;
    document_.put(std::move(content));
  } else {
    plan_anew(Document(with_measuring(std::move(content), evening_->kept)));
  }
  find_in_record();
  show_in_unit();
  return Done{};
}

void Bench::find_in_record() {
  const Wishes& wishes = document_.content().wishes;
  FindingOptions options;
  options.length_mm = wishes.length_mm;
  options.tolerance_mm = wishes.tolerance_mm;
  auto found = record::record_findings(record_, setup_->setup.thing, options);
  of_record_.clear();
  if (found) {
    of_record_ = *std::move(found);
    return;
  }
  for (const Problem& problem : found.problems())
    of_record_.push_back(
        {"record", Severity::act, said("The record could not be asked: {}", problem.what), {}, problem.remedy});
}

void Bench::keep() {
  not_kept_.clear();
  if (!setup_ || !evening_) return;
  if (auto kept = fitwright::keep(record_, *evening_, document_.content().measuring); !kept)
    not_kept_ = kept.problems();
}

void Bench::apply(Edit edit) {
  document_.apply(std::move(edit.next), edit.label);
  past_.emplace_back(std::nullopt);
  future_.clear();
  after_.clear();
  keep();
}

void Bench::made(RecordStep step) {
  past_.emplace_back(std::move(step));
  future_.clear();
  after_.clear();
}

std::string Bench::undo_label() const {
  if (past_.empty()) return before_.empty() ? std::string() : name_of(aside());
  return past_.back() ? past_.back()->label : document_.undo_label();
}

std::string Bench::redo_label() const {
  if (future_.empty()) return after_.empty() ? std::string() : name_of(after_.back());
  return future_.back() ? future_.back()->label : document_.redo_label();
}

Result<Done> Bench::undo() {
  if (past_.empty()) return exchange(before_, after_);
  std::optional<RecordStep> step = past_.back();
  if (step) {
    if (auto undone = step->undo(); !undone) return undone;
  } else {
    document_.undo();
    keep();
  }
  past_.pop_back();
  const bool of_record = step.has_value();
  future_.push_back(std::move(step));
  show_in_unit();
  return of_record ? look_again() : Result<Done>(Done{});
}

Result<Done> Bench::redo() {
  if (future_.empty()) return exchange(after_, before_);
  std::optional<RecordStep> step = future_.back();
  if (step) {
    if (auto again = step->redo(); !again) return again;
  } else {
    document_.redo();
    keep();
  }
  future_.pop_back();
  const bool of_record = step.has_value();
  past_.push_back(std::move(step));
  show_in_unit();
  return of_record ? look_again() : Result<Done>(Done{});
}

}  // namespace fitwright
