#include "calib/record/scratch.hpp"

#include <fcntl.h>
#include <signal.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <stdexcept>

#include "record/schema.hpp"

namespace scratch {
namespace {

namespace fs = std::filesystem;
using namespace fitwright;
using namespace fitwright::record;

template <class T>
Id put_in(Record& record, const T& value) {
  const auto kept = add(record, value);
  if (!kept) throw std::runtime_error(told(kept.problems()));
  return kept->thing;
}

}  // namespace

Folder::Folder(bool in_memory) {
  const fs::path memory = "/dev/shm";
  path_ = ((in_memory && fs::is_directory(memory) ? memory : fs::temp_directory_path()) / "fitwright-record-XXXXXX")
              .string();
  if (::mkdtemp(path_.data()) == nullptr) throw std::runtime_error("no folder for the test");
}

Folder::~Folder() {
  std::error_code none;
  fs::remove_all(path_, none);
}

Bench fill(Record& record, int readings) {
  Bench b;
  Printer heron;
  heron.name = "Heron";
  b.printer = put_in(record, heron);
  Material pla;
  pla.name = "PLA";
  Spool spool;
  spool.material = put_in(record, pla);
  spool.name = "PLA slate, batch 14";
  Setup setup;
  setup.name = "Heron, slate";
  setup.printer = b.printer;
  setup.spool = put_in(record, spool);
  setup.state = R"({"size_factor":1})";
  b.setup = put_in(record, setup);
  Caliper caliper;
  caliper.name = "blue box";
  b.caliper = put_in(record, caliper);
  MadeCoupon coupon;
  coupon.design = "frame";
  coupon.parameters = R"({"side_mm":100})";
  coupon.features = "feature_id,kind,axis,nominal_mm\nX1,outer,x,20\n";
  b.coupon = put_in(record, coupon);
  Copy copy;
  copy.setup = b.setup;
  copy.coupon = b.coupon;
  copy.state = setup.state;
  copy.printed_on = "2026-11-25";
  b.copy = put_in(record, copy);
  Session session;
  session.setup = b.setup;
  session.caliper = b.caliper;
  session.began = "2026-11-25T19:00:00.000Z";
  const Id evening = put_in(record, session);
  std::vector<StoredReading> values;
  for (int k = 0; k < readings; ++k) {
    StoredReading r;
    r.copy = b.copy;
    r.session = evening;
    r.feature_id = "X" + std::to_string(k % 14 + 1);
    r.repeat = k / 14 + 1;
    r.reading_mm = 20 + 0.01 * (k % 7);
    values.push_back(r);
  }
  const auto kept = add_all(record, values);
  if (!kept) throw std::runtime_error(told(kept.problems()));
  for (std::size_t k = 0; k < kept->size(); k += 10) {
    StoredReading better = (*kept)[k].value;
    better.reading_mm = *better.reading_mm + 0.02;
    if (!amend(record, (*kept)[k], better, "misread")) throw std::runtime_error("not amended");
  }
  return b;
}

std::string content_of(Database& database) {
  std::string text;
  for (const std::string& table : thing_tables()) {
    text += table + '\n';
    database.each("SELECT * FROM " + table + " ORDER BY id", [&](Statement& row) {
      for (int k = 0; k < row.columns(); ++k) text += (row.is_null(k) ? "none" : '"' + row.text(k) + '"') + '|';
      text += '\n';
    });
  }
  return text;
}

Record opened(const std::string& path) {
  OpenOptions options;
  options.keep_backups = false;
  auto record = open_record(path, options);
  if (!record) throw std::runtime_error(told(record.problems()));
  return std::move(*record);
}

std::string bytes_of(const std::string& path) {
  std::ifstream in(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(in), std::istreambuf_iterator<char>()};
}

void put(const std::string& path, const std::string& bytes) {
  std::ofstream(path, std::ios::binary | std::ios::trunc) << bytes;
}

std::string told(const Problems& problems) {
  std::string text;
  for (const Problem& problem : problems) text += problem.text() + '\n';
  return text;
}

Writer::Writer(const std::vector<std::string>& words) {
  int from_child[2], to_child[2];
  if (::pipe2(from_child, O_CLOEXEC) != 0 || ::pipe2(to_child, O_CLOEXEC) != 0) throw std::runtime_error("no pipe");
  std::vector<std::string> all{FW_RECORD_WRITER};
  all.insert(all.end(), words.begin(), words.end());
  std::vector<char*> arguments;
  for (std::string& word : all) arguments.push_back(word.data());
  arguments.push_back(nullptr);
  child_ = ::fork();
  if (child_ == 0) {
    ::dup2(from_child[1], 1);
    ::dup2(to_child[0], 0);
    ::execv(arguments[0], arguments.data());
    ::_exit(127);
  }
  ::close(from_child[1]);
  ::close(to_child[0]);
  out_ = from_child[0];
  in_ = to_child[1];
  if (child_ < 0) throw std::runtime_error("no other program");
}

Writer::~Writer() {
  if (child_ > 0) {
    kill();
    wait();
  }
  ::close(out_);
  ::close(in_);
}

bool Writer::more() {
  char block[4096];
  const ssize_t n = ::read(out_, block, sizeof block);
  if (n > 0) held_.append(block, static_cast<std::size_t>(n));
  return n > 0;
}

std::string Writer::line() {
  while (held_.find('\n') == std::string::npos)
    if (!more()) return {};
  const std::size_t end = held_.find('\n');
  std::string first = held_.substr(0, end);
  held_.erase(0, end + 1);
  return first;
}

std::vector<std::string> Writer::rest() {
  std::vector<std::string> lines;
  for (std::string next = line(); !next.empty(); next = line()) lines.push_back(next);
  return lines;
}

void Writer::go() {
  if (::write(in_, "\n", 1) != 1) throw std::runtime_error("the other program does not listen");
}

void Writer::kill() { ::kill(child_, SIGKILL); }

int Writer::wait() {
  int status = 0;
  ::waitpid(child_, &status, 0);
  child_ = -1;
  return WIFEXITED(status) ? WEXITSTATUS(status) : -1;
}

}  // namespace scratch
