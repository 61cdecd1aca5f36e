#pragma once
// --set NAME=VALUE for the things of the record.

#include <functional>
#include <map>
#include <optional>
#include <string>

#include "correct/state.hpp"
#include "words.hpp"

namespace fitw {

/// What may be set, bound to where it goes. Bind all, then take().
class Fields {
 public:
  Fields& text(const std::string& name, std::string& into);
  Fields& number(const std::string& name, std::optional<double>& into);
  /// Above zero.
  Fields& positive(const std::string& name, double& into);
  Fields& positive(const std::string& name, std::optional<double>& into);
  /// Every knob of a state; the steps per mm, which are the printer's, only if asked for.
  Fields& knobs(fitwright::State& into, bool with_steps = false);
  /// Takes the settings of `words`; mistakes are noted there.
  void take(Words& words) const;

 private:
  using Setter = std::function<void(Words& words, const std::string& name, const std::string& typed)>;
  std::map<std::string, Setter> setters_;
};

}  // namespace fitw
