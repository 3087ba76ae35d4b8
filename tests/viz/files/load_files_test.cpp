#include "viz/files/load_files.h"

#include <sys/resource.h>

#include <csignal>
#include <filesystem>
#include <fstream>

#include "tests/catch.h"
#include "tests/viz/files/known_frames.h"
#include "tests/viz/files/scratch.h"

namespace tubewright::load_files_test {

namespace fs = std::filesystem;

TEST_CASE("each case makes one file of lines and one of skin, and the index lists them all") {
  const Scratch scratch("names");
  REQUIRE_FALSE(write_load_files(analysed(cantilever_frame()), scratch.path.string()));
  const auto files = files_in(scratch.path);
  CHECK(files.size() == 9);
  for (const char* stem :
       {"loads_01_tip-down.1", "loads_02_mid", "loads_03_twist_rare", "loads_04_pull"}) {
    for (const char* ending : {"_tubes.vtp", "_skin.vtu"}) {
      const std::string name = std::string(stem) + ending;
      CHECK(files.count(name) == 1);
      CHECK_THAT(files.at("loads.pvd"), ContainsSubstring("file=\"" + name + "\""));
    }
  }
}

TEST_CASE("the same analysis gives the same bytes") {
  const Scratch first("bytes_1"), second("bytes_2");
  REQUIRE_FALSE(write_load_files(analysed(mixed_frame()), first.path.string()));
  REQUIRE_FALSE(write_load_files(analysed(mixed_frame()), second.path.string()));
  CHECK(files_in(first.path) == files_in(second.path));
}

TEST_CASE("a missing directory is made") {
  const Scratch scratch("made");
  const fs::path inner = scratch.path / "a" / "b";
  REQUIRE_FALSE(write_load_files(analysed(cantilever_frame()), inner.string()));
  CHECK(fs::exists(inner / "loads.pvd"));
}

TEST_CASE("a directory that cannot be is named with the system's reason") {
  const Scratch scratch("file_as_directory");
  std::ofstream(scratch.path / "plain") << "a file";
  const std::string directory = (scratch.path / "plain" / "out").string();
  const auto failure = write_load_files(analysed(cantilever_frame()), directory);
  REQUIRE(failure);
  CHECK_THAT(failure->path, ContainsSubstring("plain"));
  CHECK_THAT(failure->reason, ContainsSubstring("Not a directory"));
}

TEST_CASE("a case file that cannot be written leaves the earlier index and no half-written file") {
  const Scratch scratch("blocked");
  std::ofstream(scratch.path / "loads.pvd") << "earlier index";
  fs::create_directories(scratch.path / "loads_02_mid_skin.vtu" / "in the way");
  const auto failure = write_load_files(analysed(cantilever_frame()), scratch.path.string());
  REQUIRE(failure);
  CHECK(fs::path(failure->path).filename() == "loads_02_mid_skin.vtu");
  CHECK_FALSE(failure->reason.empty());
  CHECK(bytes_of(scratch.path / "loads.pvd") == "earlier index");
  for (const auto& [name, bytes] : files_in(scratch.path))
    CHECK(fs::path(name).extension() != ".part");
}

TEST_CASE("a file that cannot be written to its end is reported and leaves nothing half-written") {
  const Scratch scratch("full");
  rlimit before{};
  REQUIRE(getrlimit(RLIMIT_FSIZE, &before) == 0);
  const auto on_excess = std::signal(SIGXFSZ, SIG_IGN);
  rlimit few_bytes = before;
  few_bytes.rlim_cur = 1000;
  setrlimit(RLIMIT_FSIZE, &few_bytes);
  const auto failure = write_load_files(analysed(cantilever_frame()), scratch.path.string());
  setrlimit(RLIMIT_FSIZE, &before);
  std::signal(SIGXFSZ, on_excess);
  REQUIRE(failure);
  CHECK_THAT(failure->reason, ContainsSubstring("File too large"));
  CHECK(files_in(scratch.path).empty());
}

TEST_CASE("a case name of any length and letters makes a file name that a file system takes") {
  const Scratch scratch("long");
  Frame frame = cantilever_frame();
  frame.cases.resize(2);
  frame.cases[0].name = std::string(400, 'x');
  frame.cases[1].name = "../../b r\xC3\xBC/cke\"<&>";
  REQUIRE_FALSE(write_load_files(analysed(frame), scratch.path.string()));
  const auto files = files_in(scratch.path);
  CHECK(files.size() == 5);
  CHECK(files.count("loads_02_.._.._b_r___cke_____tubes.vtp") == 1);
}

TEST_CASE("an analysis without cases gives an index that lists nothing") {
  const Scratch scratch("none");
  Analysis analysis = analysed(cantilever_frame());
  analysis.cases.clear();
  REQUIRE_FALSE(write_load_files(analysis, scratch.path.string()));
  CHECK(files_in(scratch.path).size() == 1);
  CHECK_THAT(bytes_of(scratch.path / "loads.pvd"), !ContainsSubstring("DataSet"));
}

}  // namespace tubewright::load_files_test
