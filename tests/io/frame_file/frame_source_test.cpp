// The text of a frame file from disk, from a pipe and from what cannot be read.
#include "io/frame_file/frame_source.h"

#include <fcntl.h>
#include <stdlib.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cstring>
#include <filesystem>
#include <fstream>
#include <thread>

#include "io/yaml/strict_yaml.h"
#include "tests/catch.h"

namespace tubewright::frame_source_test {

namespace {

namespace fs = std::filesystem;

/// A directory of its own, gone at the end.
struct Directory {
  fs::path path;
  Directory() {
    std::string name = (fs::temp_directory_path() / "tubewright-XXXXXX").string();
    REQUIRE(mkdtemp(name.data()) != nullptr);
    path = name;
  }
  ~Directory() { fs::remove_all(path); }
  Directory(const Directory&) = delete;
  Directory& operator=(const Directory&) = delete;
};

/// Standard input is the end of a pipe into which a thread writes `text`, piece by piece.
Outcome<FrameText, std::string> read_standard_input(const std::string& text) {
  int ends[2];
  REQUIRE(pipe(ends) == 0);
  const int before = dup(STDIN_FILENO);
  dup2(ends[0], STDIN_FILENO);
  close(ends[0]);
  std::thread writer([&] {
    const std::size_t middle = text.size() / 2;
    (void)!write(ends[1], text.data(), middle);
    std::this_thread::sleep_for(std::chrono::milliseconds(20));
    (void)!write(ends[1], text.data() + middle, text.size() - middle);
    close(ends[1]);
  });
  auto source = read_source("-");
  writer.join();
  if (before >= 0) {
    dup2(before, STDIN_FILENO);
    close(before);
  } else {
    close(STDIN_FILENO);
  }
  return source;
}

FrameText text_of(const Outcome<FrameText, std::string>& source) {
  REQUIRE(source.has_value());
  return *source;
}

std::string reason_of(const Outcome<FrameText, std::string>& source) {
  REQUIRE(!source);
  return *source.error();
}

}  // namespace

TEST_CASE("a frame file is read byte for byte and keeps the name it was asked for by") {
  const Directory directory;
  const std::string path = (directory.path / "my frame.yaml").string();
  const std::string text = std::string(
                               "\xEF\xBB\xBF"
                               "a: 1\r\n\0b\xFF",
                               12) +
                           std::string(200000, 'x');
  std::ofstream(path, std::ios::binary) << text;
  const FrameText source = text_of(read_source(path));
  CHECK(source.name == path);
  CHECK(source.text == text);
  std::ofstream(path, std::ios::trunc | std::ios::binary) << "";
  CHECK(text_of(read_source(path)).text.empty());
}

TEST_CASE("a frame comes through standard input in as many pieces as it likes") {
  const std::string text = "frame: Stool\n# " + std::string(3000, 'y') + "\n";
  const FrameText source = text_of(read_standard_input(text));
  CHECK(source.name == "<stdin>");
  CHECK(source.text == text);
}

TEST_CASE("a file that cannot be read is told of in the system's words") {
  const Directory directory;
  CHECK(reason_of(read_source((directory.path / "none.yaml").string())) == std::strerror(ENOENT));
  CHECK(reason_of(read_source(directory.path.string())) == std::strerror(EISDIR));
  std::ofstream(directory.path / "file") << "x";
  CHECK(reason_of(read_source((directory.path / "file" / "a").string())) == std::strerror(ENOTDIR));
}

TEST_CASE("an endless stream ends just beyond the size that a frame file may have") {
  const FrameText endless = text_of(read_source("/dev/zero"));
  CHECK(endless.text.size() > most_bytes);  // so that whoever parses it sees that it is too large
  CHECK(endless.text.size() <= most_bytes + (1U << 20U));
  Diagnostics diagnostics;
  CHECK_FALSE(parse_strict_yaml(endless.text, diagnostics));
  CHECK_FALSE(diagnostics.empty());
}

TEST_CASE("who asks for other than frame files says how much may be read") {
  const FrameText endless = text_of(read_source("/dev/zero", 100'000));
  CHECK(endless.text.size() > 100'000);
  CHECK(endless.text.size() < 1'000'000);
}

}  // namespace tubewright::frame_source_test
