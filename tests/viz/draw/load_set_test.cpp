// The files of load cases, written by us and read back: against the frame they were made of and the
// formula for a cantilever; a set that is not whole is refused with the file's name.
#include "viz/draw/load_set.h"

#include <vtkDataArray.h>
#include <vtkPointData.h>

#include <fstream>
#include <stdexcept>

#include "tests/cases/attachments/attachment_frames.h"
#include "tests/cases/clad_frames.h"
#include "tests/catch.h"
#include "tests/viz/files/known_frames.h"
#include "tests/viz/files/scratch.h"
#include "viz/files/load_files.h"

namespace tubewright::load_set_test {

namespace {

namespace fs = std::filesystem;

std::string fault_of(const fs::path& directory) {
  try {
    read_load_set(directory);
  } catch (const std::runtime_error& fault) {
    return fault.what();
  }
  return "";
}

void replace_in(const fs::path& file, const std::string& what, const std::string& by) {
  std::string text = bytes_of(file);
  const std::size_t at = text.find(what);
  REQUIRE(at != std::string::npos);
  std::ofstream(file) << text.replace(at, what.size(), by);
}

}  // namespace

TEST_CASE("what is drawn is what was solved: names, order and the deflection of a cantilever") {
  const Scratch scratch("load_set");
  const Frame frame = cantilever_frame();
  REQUIRE_FALSE(write_load_files(analysed(frame), scratch.path.string()));
  const std::vector<DrawnCase> cases = read_load_set(scratch.path);
  REQUIRE(cases.size() == frame.cases.size());
  for (std::size_t i = 0; i < cases.size(); ++i) {
    CHECK(cases[i].name == frame.cases[i].name);
    CHECK(cases[i].frame == frame.title);
    CHECK(cases[i].member_names == std::vector<std::string>{"arm"});
    CHECK(cases[i].panels == nullptr);
    CHECK(fs::exists(scratch.path / (cases[i].stem + "_skin.vtu")));
    CHECK(cases[i].warp_scale == cases[0].warp_scale);
    CHECK(cases[i].warp_scale > 0);
  }
  CHECK(cases[0].stem == "loads_01_tip-down.1");
  // Tip of a cantilever, Euler-Bernoulli: F L^3 / 3 E I, I = (25^4 - 21^4)/12 mm4; shear adds less
  // than 1 % (12 (1 + nu)/5 times (h/L)^2 at most).
  const double tip = 300 * 1e9 / (3 * 210e3 * (390625.0 - 194481.0) / 12);
  double range[2];
  cases[0].tubes->GetPointData()->GetArray("displacement")->GetRange(range, 2);
  CHECK(-range[0] >= tip * (1 - 1e-6));
  CHECK(-range[0] < tip * 1.01);
  double box[6];
  cases[0].skin->GetBounds(box);
  CHECK_THAT(box[1], WithinAbs(1000.0, 1e-3));  // mm
  CHECK_THAT(box[3] - box[2], WithinAbs(25.0, 1e-3));
}

TEST_CASE("attachments are read with the case they belong to") {
  const Scratch scratch("load_set_attachments");
  Frame f = testing::cantilever_40();
  f.attachments = {testing::tab("ear", "rail", 0.5, Face::top)};
  testing::push(f, "ear", {0, 0, -500});
  REQUIRE_FALSE(write_load_files(analysed(testing::expanded(f)), scratch.path.string()));
  CHECK(fs::exists(scratch.path / "loads_01_push_attachments.vtp"));
  const std::vector<DrawnCase> cases = read_load_set(scratch.path);
  REQUIRE(cases.size() == 1);
  REQUIRE(cases[0].attachments != nullptr);
  CHECK(cases[0].panels == nullptr);
  double box[6];
  cases[0].attachments->GetBounds(box);
  CHECK_THAT(box[4], WithinAbs(20.0, 1e-3));  // mm: on the tube's outside
}

TEST_CASE("sheets are read with the case they belong to") {
  const Scratch scratch("load_set_panels");
  REQUIRE_FALSE(
      write_load_files(analysed(testing::shear_frame(0.5, 0.4, 100)), scratch.path.string()));
  const std::vector<DrawnCase> cases = read_load_set(scratch.path);
  REQUIRE(cases.size() == 1);
  REQUIRE(cases[0].panels != nullptr);
  CHECK(cases[0].panels->GetNumberOfCells() == 1);
  double box[6];
  cases[0].panels->GetBounds(box);
  CHECK_THAT(box[1] - box[0], WithinAbs(500.0, 1e-3));
  CHECK_THAT(box[3] - box[2], WithinAbs(400.0, 1e-3));
}

TEST_CASE("a set of load files that is not whole is refused by the name of what is wrong") {
  const Scratch scratch("load_set_faults");
  CHECK_THAT(fault_of(scratch.path), ContainsSubstring("loads.pvd"));
  REQUIRE_FALSE(write_load_files(analysed(cantilever_frame()), scratch.path.string()));
  const auto sound = files_in(scratch.path);
  const auto write_again = [&] {
    for (const auto& [name, bytes] : sound) std::ofstream(scratch.path / name) << bytes;
  };
  const fs::path index = scratch.path / "loads.pvd";
  std::ofstream(index) << "no XML";
  CHECK_THAT(fault_of(scratch.path), ContainsSubstring("cannot read"));
  std::ofstream(index) << "<VTKFile type=\"Collection\"></VTKFile>";
  CHECK_THAT(fault_of(scratch.path), ContainsSubstring("cannot read"));
  for (const char* attribute : {" part=", " timestep=", " file="}) {
    INFO(attribute);
    write_again();
    CHECK(fault_of(scratch.path).empty());
    replace_in(index, attribute, " other=");
    CHECK_THAT(fault_of(scratch.path), ContainsSubstring("cannot read"));
  }
  write_again();
  replace_in(index, "loads_02_mid_skin.vtu", "elsewhere.vtu");
  CHECK_THAT(fault_of(scratch.path), ContainsSubstring("elsewhere.vtu"));
  for (const char* part : {"tubes.vtp", "skin.vtu"}) {
    write_again();
    const std::string text = bytes_of(index);
    const std::size_t named = text.find("loads_02_mid_" + std::string(part));
    REQUIRE(named != std::string::npos);
    const std::size_t begin = text.rfind('<', named), end = text.find('\n', named);
    std::ofstream(index) << text.substr(0, begin) + text.substr(end);
    CHECK_THAT(fault_of(scratch.path), ContainsSubstring("lists no tubes or no skin"));
  }
  write_again();
  replace_in(scratch.path / "loads_02_mid_tubes.vtp", "Name=\"von_mises\"", "Name=\"stress\"");
  CHECK_THAT(fault_of(scratch.path), ContainsSubstring("has no array von_mises"));
  write_again();
  fs::remove(scratch.path / "loads_04_pull_tubes.vtp");
  CHECK_THAT(fault_of(scratch.path), ContainsSubstring("loads_04_pull_tubes.vtp"));
}

}  // namespace tubewright::load_set_test
