#include "base/file.hpp"

#include <sys/stat.h>
#include <unistd.h>

#include <catch2/catch.hpp>
#include <filesystem>
#include <string>

using namespace fitwright;

namespace {

/// A folder of its own that goes away with the test.
struct Folder {
  std::string path = (std::filesystem::temp_directory_path() / "fitwright-test-XXXXXX").string();
  Folder() { REQUIRE(::mkdtemp(path.data()) != nullptr); }
  ~Folder() { std::filesystem::remove_all(path); }
};

std::size_t entries(const std::string& folder) {
  return static_cast<std::size_t>(std::distance(std::filesystem::directory_iterator(folder), {}));
}

}  // namespace

TEST_CASE("What is written is read back, and replaces what was there") {
  const Folder folder;
  const std::string path = folder.path + "/a.csv", bytes("a\0\n\xFF", 4);
  REQUIRE(write_whole(path, "first and longer").ok());
  REQUIRE(write_whole(path, bytes).ok());
  CHECK(*read_whole(path) == bytes);
  CHECK(entries(folder.path) == 1);
}

TEST_CASE("A replaced file keeps its permissions") {
  const Folder folder;
  const std::string path = folder.path + "/a.csv";
  REQUIRE(write_whole(path, "x").ok());
  REQUIRE(::chmod(path.c_str(), 0640) == 0);
  REQUIRE(write_whole(path, "y").ok());
  struct stat now {};
  REQUIRE(::stat(path.c_str(), &now) == 0);
  CHECK((now.st_mode & 0777) == 0640);
}

TEST_CASE("What cannot be read or written is told, and nothing is left behind") {
  const Folder folder;
  const auto absent = read_whole(folder.path + "/absent");
  REQUIRE_FALSE(absent.ok());
  CHECK(absent.problems()[0].code == Code::io);
  CHECK(absent.problems()[0].text() ==
        folder.path +
            "/absent: could not be opened (No such file or directory); check the name and that you may read it");
  CHECK(read_whole(folder.path).problems()[0].code == Code::io);
  CHECK(write_whole(folder.path + "/no/such/folder", "x").problems()[0].code == Code::io);
  CHECK(write_whole(folder.path, "x").problems()[0].code == Code::io);  // a folder is not replaced by a file
  CHECK(entries(folder.path) == 0);
  REQUIRE(write_whole(folder.path + "/big", "123456").ok());
  const auto big = read_whole(folder.path + "/big", 5);
  REQUIRE_FALSE(big.ok());
  CHECK(big.problems()[0].code == Code::bad_input);
}

TEST_CASE("A file in the making is there whole after commit(), and not at all without") {
  const Folder folder;
  const std::string path = folder.path + "/a.json", piece(1000, 'p'), large(200000, 'l');
  {
    auto file = FileInMaking::begin(path);
    REQUIRE(file.ok());
    file->append("lost");
  }
  CHECK(entries(folder.path) == 0);
  auto file = FileInMaking::begin(path);
  REQUIRE(file.ok());
  std::string whole;
  for (int k = 0; k < 300; ++k) {
    file->append(k == 150 ? large : piece);
    whole += k == 150 ? large : piece;
  }
  CHECK_FALSE(file->failed());
  REQUIRE(file->commit().ok());
  CHECK(*read_whole(path) == whole);
  CHECK(entries(folder.path) == 1);
  CHECK(FileInMaking::begin(folder.path + "/no/such/folder/a").problems()[0].code == Code::io);
}
