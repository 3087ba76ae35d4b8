// Every file in bad_frames/ with the exact text that the user reads, in the .txt file beside it.
//
//   text/     cannot be read as text or as YAML, or not as the part of YAML that is allowed
//   shape/    wrong keys, forms, words or numbers: what the JSON Schema refuses as well
//   meaning/  right in form, but it makes no sense: units, references, geometry
#include <algorithm>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <vector>

#include "io/frame_file/read_frame.h"
#include "io/yaml/diagnostics.h"
#include "tests/catch.h"

namespace tubewright::bad_frames_test {

namespace {

namespace fs = std::filesystem;

std::string contents(const fs::path& path) {
  std::ifstream stream(path, std::ios::binary);
  REQUIRE(stream.good());
  return {std::istreambuf_iterator<char>(stream), {}};
}

std::vector<fs::path> bad_frames(const std::string& folder) {
  std::vector<fs::path> paths;
  for (const auto& file :
       fs::directory_iterator(fs::path(TUBEWRIGHT_SOURCE_DIR) / "tests/io/bad_frames" / folder)) {
    if (file.path().extension() == ".yaml") paths.push_back(file.path());
  }
  std::sort(paths.begin(), paths.end());
  return paths;
}

void check_folder(const std::string& folder, std::size_t at_least) {
  const std::vector<fs::path> paths = bad_frames(folder);
  CHECK(paths.size() >= at_least);
  for (const fs::path& path : paths) {
    INFO(path.filename());
    const FrameText file{path.filename().string(), contents(path)};
    const FrameReading reading = read_frame(file);
    CHECK_FALSE(reading.sound());
    CHECK(render(reading.problems, file) == contents(fs::path(path).replace_extension(".txt")));
  }
}

}  // namespace

TEST_CASE("text that is no YAML is refused with the message beside it") {
  check_folder("text", 30);
}

TEST_CASE("a file of the wrong shape is refused with the message beside it") {
  check_folder("shape", 50);
}

TEST_CASE("a frame that makes no sense is refused with the message beside it") {
  check_folder("meaning", 15);
}

}  // namespace tubewright::bad_frames_test
