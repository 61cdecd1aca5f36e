// How a printer's axes are driven and how far they went: kept once, used by every correction of its setups.

#include <catch2/catch.hpp>

#include "record_bench.hpp"

using nlohmann::json;

TEST_CASE("travels and drives of the record serve the machine policy as those of the command line do") {
  const RecordBench b;
  b.run({"record", "add", "printer", "Heron", "--drive", "x=teeth:20,pitch:2,microsteps:16"});
  b.run({"record", "add", "material", "PLA"});
  b.run({"record", "add", "spool", "slate", "--material", "PLA"});
  b.run({"record", "add", "setup", "slate on Heron", "--printer", "Heron", "--spool", "slate"});
  b.run({"record", "add", "readings", FW_SOURCE "/gui/demo/heron-slate-14.csv", "--setup", "slate on Heron"});
  const json given =
      b.json({"correct", "--setup", "slate on Heron", "--policy", "machine", "--travel", "x=150:150.12,y=150:149.95"});
  b.run({"record", "add", "travel", "Heron", "--travel", "x=150:150.12,y=150:149.95"});
  const json kept = b.json({"correct", "--setup", "slate on Heron", "--policy", "machine"});
  CHECK(kept["after"] == given["after"]);
  CHECK(kept["changes"] == given["changes"]);
}
