#include "record_fields.hpp"

#include "base/text.hpp"

namespace fitw {

using fitwright::quote;

Fields& Fields::text(const std::string& name, std::string& into) {
  setters_[name] = [&into](Words&, const std::string&, const std::string& typed) { into = typed; };
  return *this;
}

Fields& Fields::number(const std::string& name, std::optional<double>& into) {
  setters_[name] = [&into](Words& words, const std::string& field, const std::string& typed) {
    into = number_in(words, "--set " + field, typed);
  };
  return *this;
}

Fields& Fields::positive(const std::string& name, double& into) {
  setters_[name] = [&into](Words& words, const std::string& field, const std::string& typed) {
    const auto number = number_in(words, "--set " + field, typed);
    if (number && *number > 0)
      into = *number;
    else if (number)
      words.complain("--set " + field + ": " + quote(typed) + " is not above zero", "give a number above zero");
  };
  return *this;
}

Fields& Fields::positive(const std::string& name, std::optional<double>& into) {
  setters_[name] = [&into](Words& words, const std::string& field, const std::string& typed) {
    const auto number = number_in(words, "--set " + field, typed);
    if (number && *number <= 0)
      words.complain("--set " + field + ": " + quote(typed) + " is not above zero", "give a number above zero");
    into = number;
  };
  return *this;
}

Fields& Fields::knobs(fitwright::State& into, bool with_steps) {
  for (const auto& [knob, value] : fitwright::by_knob(into)) {
    if (knob.starts_with("steps_per_mm") && !with_steps) continue;
    setters_[std::string(knob)] = [&into](Words& words, const std::string& field, const std::string& typed) {
      if (const auto number = number_in(words, "--set " + field, typed)) fitwright::set_knob(into, field, *number);
    };
  }
  return *this;
}

void Fields::take(Words& words) const {
  for (const auto& [name, typed] : words.settings("--set")) {
    const auto setter = setters_.find(name);
    if (setter != setters_.end()) {
      setter->second(words, name, typed);
      continue;
    }
    std::vector<std::string_view> known;
    for (const auto& [field, unused] : setters_) known.push_back(field);
    const std::string_view near = fitwright::nearest(name, known);
    words.complain("--set " + quote(name) + " is not known", near.empty()
                                                                 ? "give " + fitwright::alternatives(known)
                                                                 : "perhaps " + std::string(near) + " is meant");
  }
}

}  // namespace fitw
