#include "io/workshop/cut_files.h"

#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <set>
#include <sstream>

#include "io/workshop/cut_output.h"
#include "io/workshop/sheet_dxf.h"
#include "io/workshop/sheet_svg.h"
#include "tests/cases/sheets/floor_grid.h"
#include "tests/catch.h"

namespace tubewright::cut_files_test {

using namespace tubewright::testing;

namespace {

/// Removed with all that is in it.
struct TemporaryDirectory {
  std::filesystem::path path;
  TemporaryDirectory() {
    std::string name = (std::filesystem::temp_directory_path() / "cut_files_XXXXXX").string();
    REQUIRE(mkdtemp(name.data()) != nullptr);
    path = name;
  }
  ~TemporaryDirectory() { std::filesystem::remove_all(path); }
};

std::string text_in(const std::filesystem::path& path) {
  std::ifstream file(path, std::ios::binary);
  std::stringstream text;
  text << file.rdbuf();
  return text.str();
}

std::set<std::string> names_in(const std::filesystem::path& directory) {
  std::set<std::string> names;
  for (const auto& entry : std::filesystem::directory_iterator(directory)) {
    names.insert(entry.path().filename().string());
  }
  return names;
}

}  // namespace

TEST_CASE("the list and two drawings a piece are written, whole and nothing else") {
  const TemporaryDirectory into;
  Frame frame = floor_grid(2, 1);
  add_sheet(frame, "other").offset = 0.0131;
  frame.panels.back().sheet = "other";
  const CutList list = cut_list(frame);
  const SheetBlanks sheets = sheet_blanks(frame);
  REQUIRE(sheets.blanks.size() == 2);
  CHECK_FALSE(write_cut_files(frame, list, sheets, into.path.string()));
  CHECK(names_in(into.path) == std::set<std::string>{"cut_list.csv", "sheet_floor.dxf",
                                                     "sheet_floor.svg", "sheet_other.dxf",
                                                     "sheet_other.svg"});
  CHECK(text_in(into.path / "cut_list.csv") == cut_csv(frame, list));
  CHECK(text_in(into.path / "sheet_other.dxf") == sheet_dxf(frame, sheets.blanks[1]));
  CHECK(text_in(into.path / "sheet_floor.svg") == sheet_svg(frame, sheets.blanks[0]));
  CHECK_THAT(cut_file_names(sheets),
             ContainsSubstring("sheet_floor.dxf") && ContainsSubstring("1 more"));
}

TEST_CASE("a directory that is not there is told of, not made") {
  const TemporaryDirectory into;
  const Frame frame = rectangle();
  const std::filesystem::path missing = into.path / "missing";
  CHECK(write_cut_files(frame, cut_list(frame), {}, missing.string()));
  CHECK_FALSE(std::filesystem::exists(missing));
  CHECK(cut_file_names({}) == "cut_list.csv");
}

}  // namespace tubewright::cut_files_test
