#include "words.hpp"

#include <algorithm>
#include <stdexcept>
#include <string_view>

#include "base/number.hpp"
#include "base/text.hpp"
#include "help.hpp"

namespace fitw {

using fitwright::Code;
using fitwright::quote;

Words::Words(CLI::App& root, const std::string& command, const std::string& purpose, const std::string& footer)
    : app_(root.add_subcommand(command)), command_(command) {
  for (const CLI::App* above = &root; above->get_parent() != nullptr; above = above->get_parent())
    command_ = above->get_name() + ' ' + command_;
  set_help(*app_, purpose, footer);
  app_->group("Commands");
  app_->require_subcommand(0, 1);
  app_->allow_extras();  // told by us, together with the other mistakes
}

void Words::no_command_below() {
  std::vector<std::string> names;
  for (const CLI::App* below : app_->get_subcommands([](const CLI::App*) { return true; }))
    names.push_back(below->get_name());
  const std::vector<std::string_view> known(names.begin(), names.end());
  const auto typed = app_->remaining();
  if (typed.empty()) {
    complain("what to do is missing after fitw " + command_, "give " + fitwright::alternatives(known));
    return;
  }
  if (typed.front().starts_with('-')) {
    complain(quote(typed.front()) + " stands where a command should", "options come after the command; " + ask_help());
    return;
  }
  const std::string_view near = fitwright::nearest(typed.front(), known);
  complain(quote(typed.front()) + " is not a command of fitw " + command_,
           near.empty() ? "give " + fitwright::alternatives(known)
                        : "perhaps " + std::string(near) + " is meant; " + ask_help());
}

void Words::declare_word(const std::string& placeholder, const std::string& meaning) {
  word_placeholder_ = placeholder;
  app_->add_option(placeholder, words_, beside_name(meaning))->option_text(" ")->expected(0, -1);
}

void Words::declare(const std::string& option, const std::string& placeholder, const std::string& meaning) {
  Declared& d = declared_.emplace_back();
  d.option = option;
  d.placeholder = placeholder;
  // A missing value is taken as an empty one, and a second one is kept, so that both can be told in our words.
  app_->add_option(option, d.values, beside_name(meaning))
      ->option_text(placeholder)
      ->expected(0, 1)
      ->allow_extra_args(false)
      ->multi_option_policy(CLI::MultiOptionPolicy::TakeAll);
}

void Words::declare_settings(const std::string& option, const std::string& placeholder, const std::string& meaning) {
  declare(option, placeholder, meaning);
  declared_.back().settings = true;
}

void Words::declare_flag(const std::string& option, const std::string& meaning) {
  Declared& d = declared_.emplace_back();
  d.option = option;
  app_->add_flag(option, d.given_flag, beside_name(meaning));
}

const Words::Declared& Words::find(const std::string& option) const {
  const auto found =
      std::find_if(declared_.begin(), declared_.end(), [&](const Declared& d) { return d.option == option; });
  if (found == declared_.end()) throw std::logic_error("option was not declared: " + option);
  return *found;
}

std::string Words::ask_help() const { return "fitw " + command_ + " --help tells more"; }

void Words::complain(const std::string& what, const std::string& remedy) {
  problems_.push_back({Code::usage, {}, what, remedy});
}

void Words::note_unknown_options() {
  for (const CLI::App* above = app_->get_parent(); above->get_parent() != nullptr; above = above->get_parent())
    for (const std::string& early : above->remaining())
      complain(quote(early) + " stands where a command should",
               "options come after the command: fitw " + command_ + " ... " + early);
  for (const std::string& extra : app_->remaining()) {
    if (!extra.starts_with('-')) {
      words_.push_back(extra);
      continue;
    }
    const std::string name = extra.substr(0, extra.find('='));
    std::vector<std::string_view> known;
    for (const Declared& d : declared_) known.push_back(d.option);
    const std::string_view near = fitwright::nearest(name, known);
    complain("fitw " + command_ + " has no option " + quote(name),
             near.empty() ? ask_help() : "perhaps " + std::string(near) + " is meant; " + ask_help());
  }
}

std::string Words::word() {
  const std::string given = optional_word();
  if (given.empty() && !word_placeholder_.empty())
    complain(word_placeholder_ + " is missing", "fitw " + command_ + ' ' + word_placeholder_ + " ...; " + ask_help());
  return given;
}

std::string Words::optional_word() {
  note_unknown_options();
  if (word_placeholder_.empty()) {
    for (const std::string& w : words_) complain("fitw " + command_ + " takes no word " + quote(w), ask_help());
    return {};
  }
  if (words_.size() > 1) move_settings_out_of_words();
  if (words_.empty()) return {};
  for (std::size_t i = 1; i < words_.size(); ++i)
    complain(quote(words_[i]) + " is one word too many after " + quote(words_.front()),
             "give one " + word_placeholder_ + " at a time");
  return words_.front();
}

/// In "--set A=1 B=2 frame" the parser takes only A=1 for the option: it cannot know whether the next word is the
/// option's or the command's. A word with '=' goes to the option when another is left for the command.
void Words::move_settings_out_of_words() {
  const auto option = std::find_if(declared_.begin(), declared_.end(),
                                   [](const Declared& d) { return d.settings && !d.values.empty(); });
  if (option == declared_.end()) return;
  for (auto at = words_.begin(); at != words_.end() && words_.size() > 1;) {
    if (at->find('=') == std::string::npos) {
      ++at;
    } else {
      option->values.push_back(*at);
      at = words_.erase(at);
    }
  }
}

bool Words::flag(const std::string& option) const { return find(option).given_flag; }

std::optional<std::string> Words::text(const std::string& option) {
  const Declared& d = find(option);
  if (d.values.empty()) return std::nullopt;
  if (d.values.size() > 1) complain(option + " is given more than once", "give it once");
  if (d.values.front().empty()) {
    complain(option + " has no value", option + ' ' + d.placeholder);
    return std::nullopt;
  }
  return d.values.front();
}

std::string Words::required(const std::string& option) {
  const Declared& d = find(option);
  if (d.values.empty()) complain(option + " is missing", "fitw " + command_ + " ... " + option + ' ' + d.placeholder);
  return text(option).value_or("");
}

std::optional<double> number_in(Words& words, const std::string& option, const std::string& typed) {
  const auto number = fitwright::parse_number(typed);
  if (!number)
    words.complain(option + ": " + quote(typed) + " is not a number",
                   typed.find(',') == std::string::npos ? "give digits, with '.' before decimals"
                                                        : "on the command line '.' stands before decimals");
  return number;
}

double Words::positive(const std::string& option, double otherwise) {
  const auto typed = text(option);
  if (!typed) return otherwise;
  const auto number = number_in(*this, option, *typed);
  if (!number) return otherwise;
  if (*number > 0) return *number;
  complain(option + ": " + quote(*typed) + " is not above zero", "give a length in mm above zero");
  return otherwise;
}

int Words::whole(const std::string& option, int otherwise, int least, int most) {
  const auto typed = text(option);
  if (!typed) return otherwise;
  const auto number = fitwright::parse_whole(*typed);
  if (number && *number >= least && *number <= most) return *number;
  complain(option + ": " + quote(*typed) + " is not a whole number from " + std::to_string(least) + " to " +
               std::to_string(most),
           "give one");
  return otherwise;
}

std::string Words::choice(const std::string& option, const std::vector<std::string>& choices) {
  const auto typed = text(option);
  if (!typed) return choices.front();
  if (std::find(choices.begin(), choices.end(), *typed) != choices.end()) return *typed;
  const std::vector<std::string_view> views(choices.begin(), choices.end());
  complain(option + ": " + quote(*typed) + " is not known", "give " + fitwright::alternatives(views));
  return choices.front();
}

std::vector<Setting> Words::settings(const std::string& option) {
  std::vector<Setting> list;
  const Declared& d = find(option);
  for (const std::string& typed : d.values) {
    const std::size_t equals = typed.find('=');
    if (typed.empty())
      complain(option + " has no value", option + ' ' + d.placeholder);
    else if (equals == std::string::npos || equals == 0)
      complain(option + ": " + quote(typed) + " is not " + d.placeholder,
               "give a name, '=' and the value, without blanks");
    else if (std::any_of(list.begin(), list.end(),
                         [&](const Setting& s) { return s.first == typed.substr(0, equals); }))
      complain(option + ' ' + typed.substr(0, equals) + " is given more than once", "give it once");
    else
      list.emplace_back(typed.substr(0, equals), typed.substr(equals + 1));
  }
  return list;
}

}  // namespace fitw
