#pragma once
// The tool library's bench as the practice printer has it: what is bought, printed, read and corrected, and when.

#include <map>
#include <string>
#include <vector>

#include "correct/correction.hpp"
#include "practice/simulate.hpp"
#include "record/record.hpp"
#include "record/things.hpp"

namespace fitwright {

/// What a printer really does, whatever is set.
struct DemoPrinter {
  record::Id id;
  double machine_x = 0, machine_y = 0;  ///< travelled to commanded, less 1, at the steps it came with
  double skew_rad = 0;
  StepsPerMm steps;
  std::uint64_t seed = 0;
};

/// What a setup's material does on its printer.
struct DemoSetup {
  record::Id id;
  const DemoPrinter* printer = nullptr;
  double shrink = 0;   ///< k: what a length in plane loses
  double edge_mm = 0;  ///< edge growth at the usual settings
};

class DemoBench {
 public:
  explicit DemoBench(record::Record& record) : record_(record) {}

  DemoPrinter printer(const std::string& name, double bed_mm, const StepsPerMm& steps, const std::string& at);
  record::Id material(const std::string& name, double density_g_cm3, const std::string& at);
  record::Id spool(const std::string& name, const record::Id& material, const std::string& colour,
                   const std::string& batch, double price_per_kg, const std::string& at);
  record::Id caliper(const std::string& name, const std::string& at);
  DemoSetup setup(const std::string& name, const DemoPrinter& printer, const record::Id& spool, double nozzle_c,
                  double bed_c, const State& state, const std::string& at);
  record::Id coupon(const std::string& design, const std::string& at);
  /// Closed jaws, a gauge of 10.002 mm and a ring of 20.001 mm.
  void check_caliper(const record::Id& caliper, double zero_mm, const std::string& at);
  void note(const record::Id& about, const std::string& words, const std::string& at);
  void travel(const DemoPrinter& printer, double commanded_mm, const std::string& at);

  /// A copy in the state in force; `read_at` empty: it waits to be read.
  record::Id print(const DemoSetup& setup, const record::Id& coupon, int turned_deg, const std::string& printed_at,
                   const record::Id& caliper, double zero_mm, const std::string& read_at);
  /// The newest copies' estimate and the correction it leads to, both kept. The correction's id.
  record::Id propose(const DemoSetup& setup, Policy policy, const std::string& at);
  void apply(const record::Id& correction, const std::string& at);
  /// Throws unless it is proved.
  void prove(const record::Id& correction, const std::string& at);
  void withdraw(const record::Id& correction, const std::string& reason, const std::string& at);

 private:
  record::Record& record_;
  std::map<std::string, std::vector<Feature>> features_;        ///< of a coupon by its id
  std::map<std::pair<std::string, std::string>, int> printed_;  ///< copies of a coupon on a printer

  [[nodiscard]] Truth truth_of(const DemoSetup& setup, const State& state, const record::Id& coupon) const;
};

}  // namespace fitwright
