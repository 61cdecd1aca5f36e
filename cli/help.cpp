#include "help.hpp"

#include <memory>

#include "report/layout.hpp"

namespace fitw {
namespace {

constexpr std::size_t name_column = 28;

class HelpLayout : public CLI::Formatter {
 public:
  HelpLayout() {
    column_width(name_column);
    label("Positionals", "Takes");
  }

  std::string make_usage(const CLI::App* app, std::string) const override {
    if (app->get_parent() == nullptr) return "\nUsage: fitw COMMAND ...\n";
    std::string words;
    for (const CLI::Option* option : app->get_options([](const CLI::Option* o) { return o->get_positional(); }))
      words += ' ' + option->get_name(true);
    std::string path = app->get_name();
    for (const CLI::App* above = app->get_parent(); above->get_parent() != nullptr; above = above->get_parent())
      path = above->get_name() + ' ' + path;
    if (!app->get_subcommands([](const CLI::App*) { return true; }).empty()) words += " COMMAND ...";
    return "\nUsage: fitw " + path + words + " [options]\n";
  }
};

}  // namespace

void set_help(CLI::App& app, const std::string& purpose, const std::string& examples) {
  std::string text = fitwright::paragraph(purpose, "", "");
  text.pop_back();  // the parser ends the line itself
  app.description(text);
  app.footer(examples);
  app.formatter(std::make_shared<HelpLayout>());
  app.set_help_flag("--help,-h", "This text");
  app.set_version_flag("--version", FITWRIGHT_VERSION, "The version");
}

std::string beside_name(const std::string& meaning) {
  std::string text = fitwright::paragraph(meaning, "", "", fitwright::page_width - name_column);
  text.pop_back();
  return text;
}

}  // namespace fitw
