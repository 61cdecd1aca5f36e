// Every command that the guide shows does what it is shown for.

#include <catch2/catch.hpp>
#include <filesystem>
#include <fstream>
#include <sstream>

#include "fitw.hpp"

TEST_CASE("every command of the guide runs") {
  namespace fs = std::filesystem;
  int ran = 0;
  for (const auto& entry : fs::directory_iterator(FW_SOURCE "/docs/guide")) {
    if (entry.path().extension() != ".md") continue;
    const Bench bench;
    bench.write("state.json", R"({"size_factor": 1.0, "steps_per_mm": {"x": 80, "y": 80}})");
    std::ifstream page(entry.path());
    for (std::string line; std::getline(page, line);) {
      if (line.rfind("    fitw ", 0) != 0) continue;
      std::istringstream words(line.substr(line.find("fitw ") + 5));
      std::vector<std::string> arguments;
      for (std::string word; words >> word;) {
        if (word.rfind("gui/demo/", 0) == 0) word.insert(0, FW_SOURCE "/");
        arguments.push_back(word);
      }
      const Run run = bench.fitw(arguments);
      INFO(entry.path().filename().string() << ": " << line << "\n" << run.err);
      CHECK(run.code == 0);
      ++ran;
    }
  }
  CHECK(ran >= 7);
}
