#pragma once
// Which knobs are turned, which are left alone, and why: the judgement between the estimates and the algebra.

#include <map>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "correct/correction.hpp"
#include "correct/evidence.hpp"
#include "correct/flow_evidence.hpp"
#include "correct/plan.hpp"

namespace fitwright {

struct Decision {
  Plan plan;
  Evidence scale_x, scale_y, shared, difference, edge;
  std::optional<FlowEvidence> flow;
  std::map<std::string, std::string> because;                   ///< by knob that is turned
  std::vector<std::pair<std::string, std::string>> left_alone;  ///< knob and reason, in the order they are told

  [[nodiscard]] std::string because_of(const std::string& knob) const;
};

/// The decision for checked options (travel that can be true).
Decision decide(const Estimates& estimates, const State& state, const CorrectOptions& options,
                const std::optional<FlowEvidence>& flow, const UncertainErrors& errors);

}  // namespace fitwright
