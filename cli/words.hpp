#pragma once
// The words after a command, as typed. The parser only sorts them; every mistake in them is told in our own words.

#include <CLI/CLI.hpp>
#include <list>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "base/result.hpp"

namespace fitw {

using fitwright::Problem;
using fitwright::Problems;

/// NAME=VALUE, both as typed.
using Setting = std::pair<std::string, std::string>;

/// One command's options and words. Declare them first; after parsing, the takers give the values and note what is
/// wrong, all of it, in `problems`.
class Words {
 public:
  /// Adds a command to `root`: its help starts with `purpose` and ends with `footer` (examples, cautions).
  Words(CLI::App& root, const std::string& command, const std::string& purpose, const std::string& footer);
  Words(const Words&) = delete;
  Words& operator=(const Words&) = delete;

  /// The word that stands without a dash ("READINGS.csv").
  void declare_word(const std::string& placeholder, const std::string& meaning);
  /// An option with one value; `option` is "--out".
  void declare(const std::string& option, const std::string& placeholder, const std::string& meaning);
  /// An option with one or more NAME=VALUE, which may be given again.
  void declare_settings(const std::string& option, const std::string& placeholder, const std::string& meaning);
  void declare_flag(const std::string& option, const std::string& meaning);

  [[nodiscard]] bool chosen() const { return app_->parsed(); }
  /// The parser's part, for commands below this one ("record" above "record list").
  [[nodiscard]] CLI::App& app() { return *app_; }

  // Takers, after parsing.

  /// The word; its absence and any surplus words or unknown options are problems.
  std::string word();
  /// The word, or empty when there is none; the rest as for word().
  std::string optional_word();
  /// For a command that only has commands below it: a word that is none of them is a problem.
  void no_command_below();
  [[nodiscard]] bool flag(const std::string& option) const;
  /// The value, or empty when not given.
  std::optional<std::string> text(const std::string& option);
  /// The value; its absence is a problem.
  std::string required(const std::string& option);
  /// A number greater than zero, or `otherwise` when not given.
  double positive(const std::string& option, double otherwise);
  /// A whole number within [least, most], or `otherwise` when not given.
  int whole(const std::string& option, int otherwise, int least, int most);
  /// One of `choices`, or the first of them when not given.
  std::string choice(const std::string& option, const std::vector<std::string>& choices);
  std::vector<Setting> settings(const std::string& option);

  /// Notes a mistake in the use of the command.
  void complain(const std::string& what, const std::string& remedy);
  [[nodiscard]] const Problems& problems() const { return problems_; }

 private:
  struct Declared {
    std::string option;
    std::string placeholder;
    std::vector<std::string> values;
    bool settings = false;  ///< takes NAME=VALUE
    bool given_flag = false;
  };

  CLI::App* app_;
  std::string command_;
  std::string word_placeholder_;
  std::vector<std::string> words_;
  std::list<Declared> declared_;  // a list: the parser keeps addresses
  Problems problems_;

  [[nodiscard]] const Declared& find(const std::string& option) const;
  void move_settings_out_of_words();
  void note_unknown_options();
  [[nodiscard]] std::string ask_help() const;
};

/// A number as an option takes it ('.' as the decimal sign), or a problem that names the option.
std::optional<double> number_in(Words& words, const std::string& option, const std::string& typed);

}  // namespace fitw
