#include "io/text/write_file_atomically.h"

#include <fcntl.h>
#include <stdlib.h>
#include <unistd.h>

#include <algorithm>
#include <fstream>
#include <iterator>

#include "tests/catch.h"

namespace tubewright::write_file_atomically_test {

namespace fs = std::filesystem;

namespace {

class ScratchDirectory {
 public:
  ScratchDirectory() {
    std::string name = (fs::temp_directory_path() / "tubewright-XXXXXX").string();
    REQUIRE(mkdtemp(name.data()) != nullptr);
    path_ = name;
  }
  ~ScratchDirectory() { fs::remove_all(path_); }
  ScratchDirectory(const ScratchDirectory&) = delete;
  ScratchDirectory& operator=(const ScratchDirectory&) = delete;

  const fs::path& path() const { return path_; }
  std::ptrdiff_t file_count() const {
    return std::distance(fs::directory_iterator(path_), fs::directory_iterator());
  }

 private:
  fs::path path_;
};

std::string content(const fs::path& path) {
  std::ifstream file(path);
  return {std::istreambuf_iterator<char>(file), {}};
}

}  // namespace

TEST_CASE("a file is written whole and nothing else is left beside it") {
  const ScratchDirectory scratch;
  const fs::path file = scratch.path() / "results.json";
  CHECK_FALSE(write_file_atomically(file, "first").has_value());
  CHECK_FALSE(write_file_atomically(file, "second").has_value());
  CHECK(content(file) == "second");
  CHECK(scratch.file_count() == 1);
}

TEST_CASE("a new file never replaces one that is there") {
  const ScratchDirectory scratch;
  const fs::path file = scratch.path() / "frame.yaml";
  CHECK_FALSE(write_new(file, "mine").has_value());
  const auto failure = write_new(file, "other");
  REQUIRE(failure.has_value());
  CHECK(failure->path == file);
  CHECK(failure->reason == "File exists");
  CHECK(content(file) == "mine");
  CHECK(scratch.file_count() == 1);
}

TEST_CASE("a new file does not follow a dangling link") {
  const ScratchDirectory scratch;
  fs::create_symlink(scratch.path() / "elsewhere", scratch.path() / "frame.yaml");
  CHECK(write_new(scratch.path() / "frame.yaml", "text").has_value());
  CHECK_FALSE(fs::exists(scratch.path() / "elsewhere"));
}

TEST_CASE("where a directory stands no file is written, and none is left aside") {
  const ScratchDirectory scratch;
  fs::create_directory(scratch.path() / "results.json");
  const auto failure = write_file_atomically(scratch.path() / "results.json", "text");
  REQUIRE(failure.has_value());
  CHECK_FALSE(failure->reason.empty());
  CHECK(scratch.file_count() == 1);
}

TEST_CASE("a missing directory is a failure in the system's words") {
  const auto failure = write_file_atomically("/nonexistent/results.json", "text");
  REQUIRE(failure.has_value());
  CHECK(failure->reason == "No such file or directory");
}

TEST_CASE("a full disk is a failure") {
  const int full = ::open("/dev/full", O_WRONLY);
  REQUIRE(full >= 0);
  CHECK(write_all(full, "text") == "No space left on device");
  ::close(full);
}

TEST_CASE("directories are made with their parents, but not through a file") {
  const ScratchDirectory scratch;
  CHECK_FALSE(make_directory(scratch.path() / "a" / "b").has_value());
  CHECK_FALSE(make_directory(scratch.path() / "a" / "b").has_value());
  CHECK(fs::is_directory(scratch.path() / "a" / "b"));
  REQUIRE_FALSE(write_file_atomically(scratch.path() / "file", "text").has_value());
  CHECK(make_directory(scratch.path() / "file").has_value());
  CHECK(make_directory(scratch.path() / "file" / "c").has_value());
}

}  // namespace tubewright::write_file_atomically_test
