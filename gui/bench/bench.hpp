#pragma once
// The bench: the record, the setup that lies on the bench, its evening of measuring, and undo over all of it. What the
// window shows is computed from here; what a person does goes through here into the record, at once.

#include <functional>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "base/result.hpp"
#include "bench/bench_view.hpp"
#include "bench/document.hpp"
#include "bench/edit.hpp"
#include "bench/evening.hpp"
#include "bench/places.hpp"
#include "correct/finding.hpp"
#include "record/record.hpp"
#include "record/state_in_force.hpp"
#include "record/store.hpp"

namespace fitwright {

/// The setup on the bench with all that belongs to it, as the record has it now.
struct SetupOnBench {
  record::Kept<record::Setup> setup;
  record::Kept<record::Printer> printer;
  record::Kept<record::Spool> spool;
  record::Kept<record::Material> material;
  record::StateInForce in_force;
};

/// Something done to the record that can be taken back: by a fact that says so, never by deleting one.
struct RecordStep {
  std::string label;  ///< "new name of Heron"
  std::function<Result<Done>()> undo, redo;
};

class Bench {
 public:
  explicit Bench(record::Record record, std::vector<std::string> notes = {});

  record::Record& record() { return record_; }
  [[nodiscard]] const record::Record& record() const { return record_; }
  /// What is to be told of opening the record, in sentences.
  [[nodiscard]] const std::vector<std::string>& notes() const { return notes_; }

  /// This is the demo: nothing of it is kept.
  void mark_demo() { demo_ = true; }
  [[nodiscard]] bool demo() const { return demo_; }

  /// The evening and what is asked of it.
  [[nodiscard]] const Document& document() const { return document_; }
  /// Empty for readings of a file, which are in no record.
  [[nodiscard]] const std::optional<SetupOnBench>& setup() const { return setup_; }
  [[nodiscard]] const std::optional<record::Kept<record::Caliper>>& caliper() const { return caliper_; }
  /// Why what was typed last is not in the record yet, and what to do; empty when all is kept.
  [[nodiscard]] const Problems& not_kept() const { return not_kept_; }
  /// What the record knows of the setup and an evening's readings do not (record/record_findings.hpp), as of the last
  /// look; empty without a setup.
  [[nodiscard]] const std::vector<Finding>& of_record() const { return of_record_; }

  /// Puts a setup on the bench, with its newest copies, where it was left. What lay there is put aside with its steps:
  /// undo of the first step here puts it back.
  Result<Done> put_setup(const record::Id& setup);
  /// Puts readings of a file on the bench: nothing of them goes into the record. Put aside as above.
  void put_loose(Document document);
  /// What the caliper in the hand shows: a number typed without a unit is in inches, and lengths while measuring are
  /// shown so. No step: undo leaves it as it is.
  void use_inches(bool inches);
  [[nodiscard]] bool inches() const { return inches_; }
  /// Reads caliper `id` from now on; empty: not known which.
  Result<Done> choose_caliper(const record::Id& id);
  /// Looks again at what the record says of the setup, after a change by someone else or by a place of its own. The
  /// evening goes on; new copies come into its plan, and then steps of the evening can no longer be taken back, only
  /// those of the record.
  Result<Done> look_again();

  /// One step forward. A reading goes into the record in the same moment; when it cannot, the step is made all the
  /// same, not_kept() says why, and the next step tries again.
  void apply(Edit edit);
  /// Notes a step of the record that was made, for undo. After it is undone or done again the bench looks again.
  void made(RecordStep step);

  [[nodiscard]] std::string undo_label() const;
  [[nodiscard]] std::string redo_label() const;
  /// Takes back the last step, whatever it was. Errors: the record's, when it was changed by someone else meanwhile.
  Result<Done> undo();
  Result<Done> redo();

  /// The file of loose readings is saved at `path`.
  void mark_saved(const std::string& path) { document_.mark_saved(path); }
  /// Tries again to keep what is not in the record. Nothing to do is fine.
  void keep();

 private:
  /// What lay on the bench before or after, with its steps.
  struct Aside {
    record::Id setup;  // empty: readings of a file
    Document document;
    std::vector<std::optional<RecordStep>> past, future;
  };
  [[nodiscard]] Aside aside() const;
  [[nodiscard]] std::string name_of(const Aside& aside) const;
  Result<Done> exchange(std::vector<Aside>& from, std::vector<Aside>& to);
  Result<Done> lay(const record::Id& setup);
  void lay_loose(Document document);
  void put_aside();

  void take_in(Document document);
  void begin_anew(Document document);
  void plan_anew(Document document);
  void find_in_record();
  void show_in_unit();

  record::Record record_;
  std::vector<std::string> notes_;
  bool demo_ = false, inches_ = false;
  Document document_;
  std::optional<SetupOnBench> setup_;
  std::optional<record::Kept<record::Caliper>> caliper_;
  std::optional<Evening> evening_;  // of the setup: where its readings are kept
  Problems not_kept_;
  std::vector<Finding> of_record_;
  // The order of steps: one of the document, or one of the record.
  std::vector<std::optional<RecordStep>> past_, future_;
  std::vector<Aside> before_, after_;  // the nearest last
};

/// What the header says: "Heron", "PLA slate, batch 14", "0.4 mm nozzle, 0.2 mm layers", the caliper, the state.
struct BenchHeader {
  std::string printer, material, layers, caliper, state;
  std::string warning;  ///< stale or not kept: in a sentence; empty when all is well
  std::string title;    ///< of the window
  std::string said;     ///< all of it for the screen reader
};
BenchHeader bench_header(const Bench& bench, const std::string& product);

/// A setting at the decimals in which it is told and typed (record::same_setting), without zeros at its end.
std::string knob_shown(std::string_view knob, double value);

/// The settings that decide about sizes: "size factor 1.004, outline offset 0 mm, flow 1, 80 / 80 / 400 steps per mm".
std::string state_words(const State& state);

/// What is done and missing, for the side list. `view` is what is known of the evening now.
std::vector<PlaceLine> place_lines(const Bench& bench, const BenchView& view);

}  // namespace fitwright
