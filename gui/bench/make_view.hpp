#pragma once
// What the Make place shows: a coupon chosen by the question it answers, its parameters, what it takes, and what is
// wrong with them.

#include <map>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "base/result.hpp"
#include "bench/bench.hpp"
#include "bench/form.hpp"
#include "design/design.hpp"

namespace fitwright {

/// What brings somebody to a coupon, and the design that answers it.
struct MakeQuestion {
  std::string symptom;  ///< "Lengths are off"
  std::string design;
};
const std::vector<MakeQuestion>& make_questions();

/// What is known of the setup, in the fields of a design. Typed values stand before these.
using MakeDefaults = std::map<std::string, std::string>;
MakeDefaults make_defaults(const std::optional<SetupOnBench>& setup);

/// A coupon asked for: values as typed, by parameter; those not typed are the setup's, then the design's own.
struct MakeWish {
  std::string design = "frame";
  std::map<std::string, std::string> typed;
  bool inches = false;
};

/// The fields of a design.
Form make_form(const MakeWish& wish, const MakeDefaults& defaults);

struct Made {
  std::shared_ptr<const Coupon> coupon;       ///< null when something is wrong
  std::map<std::string, std::string> beside;  ///< what is wrong, by field
  std::string wrong;                          ///< what is wrong and belongs to no field
};
/// Makes it. Safe on any thread.
Made make_from(const MakeWish& wish, const MakeDefaults& defaults);

/// What the coupon is and takes, each a few words: size, layers, weight, cost.
struct MakeFacts {
  std::string title;     ///< "Frame"
  std::string question;  ///< what it answers
  std::vector<std::string> facts;
  std::vector<std::string> before;    ///< what to see to before printing
  std::vector<std::string> cautions;  ///< where it can hurt
};
MakeFacts make_facts(const Coupon& coupon, const std::optional<SetupOnBench>& setup);

/// The next copy of a coupon for the setup on the bench.
struct NextCopy {
  record::Id coupon;  ///< in the record already; else empty
  int print = 1;
  int turned_deg = 0;
  int earlier = 0;     ///< copies there are of it, printed in this state
  std::string reason;  ///< why it lies so, in a sentence
};
Result<NextCopy> next_copy(Bench& bench, const Coupon& coupon);

/// It was printed: adds the coupon, unless it is there, and a copy, in one go, with undo on the bench. Errors:
/// Code::usage without a setup on the bench; the record's.
Result<Done> printed(Bench& bench, const Coupon& coupon, int turned_deg, const std::string& date);

/// Saves the solid, by the ending of `path` as STL or 3MF, and what is to be measured beside it as
/// NAME.features.csv. The bytes are those of the command line. Gives the names written. Errors: Code::usage for another
/// ending; Code::io.
Result<std::vector<std::string>> save_solid(const Coupon& coupon, const std::string& path);

}  // namespace fitwright
