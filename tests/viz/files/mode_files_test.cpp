// What the files hold is checked by read_modes.py.
#include "viz/files/mode_files.h"

#include "tests/cases/clad_frames.h"
#include "tests/catch.h"
#include "tests/viz/files/known_frames.h"
#include "tests/viz/files/known_modes.h"
#include "tests/viz/files/scratch.h"

namespace tubewright::mode_files_test {

namespace fs = std::filesystem;

TEST_CASE("each elastic mode makes eight steps, a swing of time 1, listed in order") {
  const Scratch scratch("mode_names");
  REQUIRE_FALSE(
      write_mode_files(pinned_beam(4), modes_of(pinned_beam(4), 2), scratch.path.string()));
  const auto files = files_in(scratch.path);
  CHECK(files.size() == 2 * 8 + 1);
  const std::string& index = files.at("modes.pvd");
  std::size_t after = 0;
  for (const char* mode : {"1", "2"}) {
    const std::vector<std::string> eighths = {"",   ".125", ".25", ".375",
                                              ".5", ".625", ".75", ".875"};
    for (std::size_t phase = 0; phase < eighths.size(); ++phase) {
      const std::string name = std::string("modes_0") + mode + "_" + std::to_string(phase) + ".vtp";
      INFO(name);
      CHECK(files.count(name) == 1);
      const std::size_t at = index.find("timestep=\"" + (mode + eighths[phase]) +
                                        "\" group=\"\" part=\"0\" file=\"" + name + "\"");
      REQUIRE(at != std::string::npos);
      CHECK(at >= after);
      after = at;
    }
  }
}

TEST_CASE("rigid-body motions are not drawn and not counted") {
  const Scratch scratch("mode_rigid");
  const Frame box = testing::clad_box();
  const FrameModes modes = modes_of(box, 2);
  REQUIRE(modes.modes.size() == 6 + 2);
  REQUIRE(modes.modes.front().rigid);
  REQUIRE_FALSE(write_mode_files(box, modes, scratch.path.string()));
  const auto files = files_in(scratch.path);
  CHECK(files.size() == 2 * 8 + 1);
  CHECK(files.count("modes_01_0.vtp") == 1);
  CHECK(files.count("modes_02_7.vtp") == 1);
}

TEST_CASE(
    "attachments and gussets have a file of their own beside each step, only where there are") {
  const Scratch scratch("mode_fitted");
  const Frame corner = fitted_corner();
  REQUIRE_FALSE(write_mode_files(corner, modes_of(corner, 1), scratch.path.string()));
  const auto files = files_in(scratch.path);
  CHECK(files.size() == 2 * 8 + 1);
  CHECK(files.count("modes_01_7_attachments.vtp") == 1);
  CHECK_THAT(files.at("modes.pvd"), ContainsSubstring("timestep=\"1.875\" group=\"\" part=\"1\" "
                                                      "file=\"modes_01_7_attachments.vtp\""));
}

TEST_CASE("the hundredth mode has a name of its own") {
  const Scratch scratch("mode_hundred");
  FrameModes modes = twist_alone();
  modes.modes.resize(100, modes.modes.front());
  REQUIRE_FALSE(write_mode_files(cantilever_frame(), modes, scratch.path.string()));
  const auto files = files_in(scratch.path);
  CHECK(files.size() == 100 * 8 + 1);
  CHECK(files.count("modes_09_3.vtp") == 1);
  CHECK(files.count("modes_100_3.vtp") == 1);
}

TEST_CASE("the same modes give the same bytes") {
  const Scratch first("mode_bytes_1"), second("mode_bytes_2");
  const FrameModes modes = modes_of(mixed_frame(), 3);
  REQUIRE_FALSE(write_mode_files(mixed_frame(), modes, first.path.string()));
  REQUIRE_FALSE(write_mode_files(mixed_frame(), modes, second.path.string()));
  CHECK(files_in(first.path) == files_in(second.path));
}

TEST_CASE("no elastic modes give an index that lists nothing") {
  const Scratch scratch("mode_none");
  REQUIRE_FALSE(write_mode_files(mixed_frame(), {}, scratch.path.string()));
  CHECK(files_in(scratch.path).size() == 1);
  CHECK_THAT(bytes_of(scratch.path / "modes.pvd"), !ContainsSubstring("DataSet"));
}

TEST_CASE("what an earlier run left is neither listed nor touched") {
  const Scratch scratch("mode_left_over");
  std::ofstream(scratch.path / "modes_07_0.vtp") << "left over";
  REQUIRE_FALSE(
      write_mode_files(pinned_beam(4), modes_of(pinned_beam(4), 1), scratch.path.string()));
  CHECK(bytes_of(scratch.path / "modes_07_0.vtp") == "left over");
  CHECK_THAT(bytes_of(scratch.path / "modes.pvd"), !ContainsSubstring("modes_07"));
}

TEST_CASE("a missing directory for the modes is made") {
  const Scratch scratch("mode_made");
  const fs::path inner = scratch.path / "a" / "b";
  REQUIRE_FALSE(write_mode_files(pinned_beam(4), modes_of(pinned_beam(4), 1), inner.string()));
  CHECK(fs::exists(inner / "modes.pvd"));
}

TEST_CASE("a directory for the modes that cannot be is named with the system's reason") {
  const Scratch scratch("mode_file_as_directory");
  std::ofstream(scratch.path / "plain") << "a file";
  const std::string directory = (scratch.path / "plain" / "out").string();
  const auto failure = write_mode_files(mixed_frame(), {}, directory);
  REQUIRE(failure);
  CHECK_THAT(failure->path, ContainsSubstring("plain"));
  CHECK_THAT(failure->reason, ContainsSubstring("Not a directory"));
}

TEST_CASE("a step that cannot be written leaves the earlier index and no half-written file") {
  const Scratch scratch("mode_blocked");
  std::ofstream(scratch.path / "modes.pvd") << "earlier index";
  fs::create_directories(scratch.path / "modes_01_5.vtp" / "in the way");
  const auto failure =
      write_mode_files(pinned_beam(4), modes_of(pinned_beam(4), 1), scratch.path.string());
  REQUIRE(failure);
  CHECK(fs::path(failure->path).filename() == "modes_01_5.vtp");
  CHECK_FALSE(failure->reason.empty());
  CHECK(bytes_of(scratch.path / "modes.pvd") == "earlier index");
  for (const auto& [name, bytes] : files_in(scratch.path))
    CHECK(fs::path(name).extension() != ".part");
}

}  // namespace tubewright::mode_files_test
