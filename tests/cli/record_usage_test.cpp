// Mistakes at the record: exit codes 2 to 5, one clear sentence each, nothing written.

#include <sys/stat.h>
#include <unistd.h>

#include <catch2/catch.hpp>

#include "record_bench.hpp"

using nlohmann::json;

namespace {

struct Mistake {
  int code = 0;
  std::vector<std::string> arguments;
  std::vector<std::string> told;  ///< each must stand in the message
};

}  // namespace

TEST_CASE("mistakes at the record: what is wrong and what to do, and nothing is written") {
  const RecordBench b;
  b.first_evening();
  b.bench.write("a.csv", "feature_id,kind,axis,nominal_mm,copy,repeat,reading_mm\nX40,outer,x,40,1,1,40.12\n");
  b.bench.write("other.json", "{}");
  b.bench.write("text.fitwright", "no record at all\n");
  const std::vector<Mistake> mistakes{
      {2, {"record", "lsit"}, {"\"lsit\" is not a command of fitw record", "perhaps list"}},
      {2, {"record", "add", "spol"}, {"\"spol\" is not a command of fitw record add", "perhaps spool"}},
      {2, {"record", "add", "printer"}, {"NAME is missing", "fitw record add printer"}},
      {2, {"record", "add", "printer", "Wren", "--set", "bed_mm=180"}, {"bed_mm", "perhaps bed_"}},
      {2, {"record", "add", "printer", "Wren", "--set", "bed_x_mm=0"}, {"not above zero"}},
      {2, {"record", "add", "printer", "Wren", "--at", "yesterday"}, {"\"yesterday\" is no date"}},
      {2, {"record", "add", "printer", "Wren", "--at", "2026-02-30"}, {"is no date"}},
      {2, {"record", "add", "spool", "x"}, {"--material is missing"}},
      {2, {"record", "add", "copy", "--setup", "slate on Heron"}, {"--coupon is missing"}},
      {2, {"record", "add", "copy", "--setup", "slate on Heron", "--coupon", "frame", "--turned", "45"}, {"\"45\""}},
      {2, {"record", "add", "gauge", "10", "--caliper", "tool library"}, {"--reads is missing"}},
      {2,
       {"record", "add", "gauge", "10", "--caliper", "tool library", "--reads", "10.0,x"},
       {"\"x\" is not a number"}},
      {2, {"record", "add", "coupon", "hexagon"}, {"hexagon"}},
      {2, {"record", "show"}, {"NAME|ID is missing"}},
      {2, {"record", "withdraw", "last"}, {"--reason is missing"}},
      {2, {"record", "export"}, {"FILE.json is missing"}},
      {2, {"record", "export", "a.json", "--readings", "b.csv"}, {"different files"}},
      {2, {"record", "export", "a.json", "--setup", "slate on Heron"}, {"--setup is for"}},
      {2, {"record", "list", "--jsn"}, {"fitw record list has no option \"--jsn\"", "perhaps --json"}},
      {2, {"estimate", "a.csv", "--setup", "slate on Heron"}, {"two sources"}},
      {2, {"correct", "--setup", "slate on Heron", "--policy", "shrink", "--state", "s.json"}, {"two sources"}},

      {3, {"record", "add", "printer", "Heron"}, {"has a printer \"Heron\" already"}},
      {3, {"record", "add", "spool", "x", "--material", "ABS"}, {"no material \"ABS\"", "\"PLA\""}},
      {3, {"record", "add", "setup", "x", "--printer", "Wren", "--spool", "y"}, {"no printer \"Wren\"", "\"Heron\""}},
      {3, {"record", "add", "copy", "--setup", "slate", "--coupon", "frame"}, {"no setup \"slate\""}},
      {3, {"record", "add", "readings", "a.csv", "--copy", "4"}, {"has no print 4"}},
      {3, {"record", "show", "Kestrel"}, {"nothing called \"Kestrel\"", "fitw record list"}},
      {3, {"record", "apply", "last"}, {"no correction yet"}},
      {3, {"record", "import", "other.json"}, {"other.json"}},
      {3, {"record", "merge", "text.fitwright"}, {"text.fitwright"}},
      {3, {"record", "restore", "text.fitwright"}, {"text.fitwright"}},
      {3, {"record", "backup", "a.csv"}, {"a.csv"}},
      {3, {"estimate", "--setup", "clear on Wren"}, {"no setup \"clear on Wren\"", "\"slate on Heron\""}},

      {2, {"record", "amend", "Heron", "--reason", "x"}, {"--set is missing"}},
      {2, {"record", "amend", "Heron", "--reason", "x", "--set", "colour=red"}, {"colour", "not known"}},
      {2, {"record", "end", "Heron"}, {"--reason is missing"}},
      {2, {"record", "change", "slate on Heron", "--reason", "x"}, {"--set or --state is missing"}},
      {2, {"record", "change", "slate on Heron", "--reason", "x", "--set", "flow=1"}, {""}},
      {3, {"record", "end", "Heron", "--reason", "sold"}, {"in use by \"slate on Heron\""}},
      {2, {"record", "end", "frame", "--reason", "x"}, {"a coupon cannot be amended"}},

      {4, {"estimate", "--setup", "slate on Heron"}, {"no copy was printed"}},
      {4, {"correct", "--setup", "slate on Heron", "--policy", "shrink"}, {"no copy was printed"}},
      {4, {"record", "show", "tool library"}, {""}},

      {5, {"record", "add", "readings", "missing.csv"}, {"missing.csv"}},
      {5, {"record", "add", "note", "lifted", "--about", "Heron", "--picture", "missing.jpg"}, {"missing.jpg"}},
      {5, {"record", "import", "missing.json"}, {"missing.json"}},
      {5, {"record", "export", "no-folder/a.json"}, {"no-folder"}},
  };
  const json before = b.json({"record", "list"});
  for (const Mistake& mistake : mistakes) {
    const Run run = b.attempt(mistake.arguments);
    std::string typed = "fitw";
    for (const std::string& argument : mistake.arguments) typed += ' ' + argument;
    INFO(typed << "\n" << run.err);
    CHECK(run.code == mistake.code);
    CHECK(run.out.empty());
    for (const std::string& piece : mistake.told) CHECK(run.err.find(piece) != std::string::npos);
    for (const char* foreign : {"CLI::", "json.exception", "SQL", "sqlite", "constraint"})
      CHECK(run.err.find(foreign) == std::string::npos);
  }
  CHECK(b.json({"record", "list"}) == before);
  CHECK_FALSE(b.bench.has("a.json"));
}

TEST_CASE("what to do with the record is missing") {
  const Bench bench;
  for (const auto& [words, told] :
       {std::pair{std::vector<std::string>{"record"}, "is missing after fitw record; give list"},
        {{"record", "add"}, "is missing after fitw record add; give printer"}}) {
    const Run run = bench.fitw(words);
    INFO(run.err);
    CHECK(run.code == 2);
    CHECK(run.err.find(told) != std::string::npos);
  }
  const Run before = bench.fitw({"record", "--json", "list"});
  CHECK(before.code == 2);
  CHECK(before.err.find("options come after") != std::string::npos);
}

TEST_CASE("a record that is not there is told, not made, but where one begins") {
  const RecordBench b;
  for (const std::vector<std::string>& arguments : {std::vector<std::string>{"record", "list"},
                                                    {"record", "check"},
                                                    {"record", "export", "a.json"},
                                                    {"record", "add", "spool", "x", "--material", "PLA"},
                                                    {"estimate", "--setup", "x"}}) {
    const Run run = b.attempt(arguments);
    INFO(run.err);
    CHECK((run.code == 3 || run.code == 5));
    CHECK(run.err.find("r.fitwright") != std::string::npos);
    CHECK_FALSE(b.bench.has("r.fitwright"));
  }
  b.run({"record", "add", "printer", "Heron"});
  CHECK(b.bench.has("r.fitwright"));
}

TEST_CASE("two things of one name: both are told, and an id tells them apart") {
  const RecordBench b;
  b.first_evening();
  RecordBench other;  // another bench has a Heron of its own
  other.run({"record", "add", "printer", "Heron", "--set", "bed_x_mm=200"});
  other.run({"record", "export", "o.json"});
  b.bench.write("o.json", other.bench.read("o.json"));
  const json merged = b.json({"record", "merge", "o.json"});
  CHECK(merged["new_conflicts"] == 1);
  const Run run = b.attempt({"record", "show", "Heron"});
  INFO(run.err);
  CHECK(run.code == 3);
  CHECK(run.err.find("2 printers are called \"Heron\"") != std::string::npos);
  const json printers = b.json({"record", "list"})["printers"];
  REQUIRE(printers.size() == 2);
  for (const json& printer : printers) {
    const std::string id = printer["id"];
    const std::string last = id.substr(id.size() - 8);
    CHECK(run.err.find(last) != std::string::npos);
    CHECK(b.json({"record", "show", last})["id"] == id);
  }
}

TEST_CASE("a thing renamed, ended, and settings changed by hand") {
  const RecordBench b;
  b.first_evening();
  b.run({"record", "amend", "Heron", "--set", "name=Heron, basement", "--reason", "there are two"});
  CHECK(b.attempt({"record", "show", "Heron"}).code == 3);
  CHECK(b.json({"record", "show", "heron, basement"})["name"] == "Heron, basement");
  const std::string told = b.run(
      {"record", "change", "slate on Heron", "--set", "steps_per_mm.x=80.2", "flow=0.97", "--reason", "new belts"});
  CHECK(told.find("80.2000") != std::string::npos);
  CHECK(told.find("Take care") != std::string::npos);
  const json setup = b.json({"record", "show", "slate on Heron"});
  CHECK(setup["state"]["steps_per_mm"]["x"] == 80.2);
  CHECK(setup["state"]["flow"] == 0.97);
  CHECK(setup["corrections"][0]["origin"] == "by hand");
  // As it was before: dates count.
  CHECK(b.json({"record", "show", "slate on Heron", "--at", "2020-01-01"})["state"]["flow"] == 1.0);
  b.run({"record", "end", "slate on Heron", "--reason", "spool is empty"});
  CHECK(b.json({"record", "list"})["setups"].empty());
  b.run({"record", "end", "heron, basement", "--reason", "sold"});
  CHECK(b.json({"record", "list"})["printers"].empty());
  b.run({"record", "check"});
}

TEST_CASE("a record that can only be read: looked at, and told when it is to be written") {
  if (geteuid() == 0) return;  // for root everything can be written
  const RecordBench b;
  b.first_evening();
  b.print("one.csv", {}, json::object(), 5, 1);
  b.run({"record", "add", "readings", "one.csv"});
  chmod(b.bench.path(b.record).c_str(), 0400);
  chmod(b.bench.path(".").c_str(), 0500);
  CHECK(b.attempt({"record", "list"}).code == 0);
  CHECK(b.attempt({"record", "add", "printer", "Wren"}).code == 5);
  const Run estimate = b.attempt({"estimate", "--setup", "slate on Heron"});
  CHECK(estimate.code == 0);
  CHECK(estimate.err.find("nothing of this is kept") != std::string::npos);
  chmod(b.bench.path(".").c_str(), 0700);
}

TEST_CASE("a reading typed wrong is amended by the file put right, and the old value is kept") {
  const RecordBench b;
  b.first_evening();
  b.print("one.csv", {}, json::object(), 5, 1);
  std::string csv = b.bench.read("one.csv");
  const std::size_t at = csv.find("\nX40,outer,x,40,1,1,") + std::string("\nX40,outer,x,40,1,1,").size();
  const std::string right = csv.substr(at, csv.find(',', at) - at);
  csv.replace(at, right.size(), "40.99");
  b.bench.write("slip.csv", csv);
  b.run({"record", "add", "readings", "slip.csv"});
  const json again = b.json({"record", "add", "readings", "one.csv"});
  CHECK(again["added"] == 0);
  CHECK(again["amended"] == 1);
  b.run({"record", "export", "--readings", "all.csv", "--all-rows"});
  CHECK(b.bench.read("all.csv").find("40.99") != std::string::npos);
  b.run({"record", "export", "--readings", "now.csv"});
  CHECK(b.bench.read("now.csv").find("40.99") == std::string::npos);
}

TEST_CASE("backup and the way back") {
  const RecordBench b;
  b.first_evening();
  b.run({"record", "backup", "copy.fitwright"});
  CHECK(b.attempt({"record", "backup", "copy.fitwright"}).code == 3);
  b.run({"record", "add", "printer", "Wren"});
  b.run({"record", "backup", "copy2.fitwright"});
  const json back = b.json({"record", "restore", "copy.fitwright"});
  CHECK(b.bench.has(back["set_aside"].get<std::string>().substr(back["set_aside"].get<std::string>().rfind('/') + 1)));
  CHECK(b.json({"record", "list"})["printers"].size() == 1);
  CHECK_FALSE(b.json({"record", "backup"})["backups"].empty());
}

TEST_CASE("a caliper's log: zero, gauge and ring, and what it can judge") {
  const RecordBench b;
  b.first_evening();
  const auto gauge = [&](const std::string& mm, const std::string& reads, const std::string& at, bool ring) {
    std::vector<std::string> words{"record", "add",       "gauge",        mm,     "--reads",
                                   reads,    "--caliper", "tool library", "--at", at};
    if (ring) words.push_back("--ring");
    b.run(words);
  };
  gauge("0", "0.00,0.01,0.00", "2026-11-02", false);
  gauge("10.002", "10.00,10.01", "2026-11-02", false);
  gauge("20.001", "19.98,19.99", "2026-11-02", true);
  gauge("0", "0.01,0.01,0.00", "2026-11-09", false);
  const json log = b.json({"record", "show", "tool library", "--tolerance", "0.1"});
  REQUIRE(log["series"].size() == 3);
  CHECK(log["series"][0]["kind"] == "zero");
  CHECK(log["series"][0]["sessions"].size() == 2);
  CHECK(log["series"][2]["sessions"][0]["error_mm"].get<double>() == Approx(-0.016));
  CHECK(log["because"].get<std::string>().find("JCGM 106:2012") != std::string::npos);
}

TEST_CASE("help of every action of the record") {
  const Bench bench;
  const Run all = bench.fitw({"record", "--help"});
  CHECK(all.code == 0);
  CHECK(all.out.find("Usage: fitw record COMMAND") != std::string::npos);
  for (const char* action : {"list", "show", "add", "apply", "prove", "withdraw", "change", "amend", "end", "export",
                             "import", "merge", "check", "backup", "restore"}) {
    INFO(action);
    CHECK(all.out.find(std::string("\n  ") + action) != std::string::npos);
    const Run help = bench.fitw({"record", action, "--help"});
    CHECK(help.code == 0);
    CHECK(help.out.find(std::string("Usage: fitw record ") + action) != std::string::npos);
    CHECK(help.out.find("Examples:") != std::string::npos);
  }
  for (const char* kind :
       {"printer", "material", "spool", "caliper", "setup", "coupon", "copy", "readings", "gauge", "travel", "note"}) {
    const Run help = bench.fitw({"record", "add", kind, "--help"});
    INFO(kind);
    CHECK(help.code == 0);
    CHECK(help.out.find(std::string("Usage: fitw record add ") + kind) != std::string::npos);
    CHECK(help.out.find("Examples:") != std::string::npos);
  }
  CHECK(bench.fitw({"record", "apply", "--help"}).out.find("power switch") != std::string::npos);
  CHECK(bench.fitw({"record", "withdraw", "--help"}).out.find("power switch") != std::string::npos);
}
