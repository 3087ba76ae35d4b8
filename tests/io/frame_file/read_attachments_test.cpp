// Supports, carried masses, sheets and panels out of checked values, in either axes.
#include <Eigen/Geometry>
#include <numbers>

#include "io/frame_file/frame_parts.h"
#include "tests/catch.h"

namespace tubewright::read_attachments_test {

namespace {

struct Read {
  Frame frame;
  Diagnostics diagnostics;    ///< of the readers
  Diagnostics already_known;  ///< of the check against the table
};

Read read(const std::string& text, bool sae = false) {
  Read r;
  const auto root = parse_strict_yaml(
      "frame: Cart\nnodes: {A: [0, 0, 0]}\nmembers: {m: {from: A, to: A, section: s}}\n" + text,
      r.already_known);
  INFO(text);
  REQUIRE(root.has_value());
  const CheckedValue top = check_frame_keys(*root, r.already_known);
  REQUIRE(top.group != nullptr);
  read_supports(top, FileAxes{sae}, r.frame);
  read_masses(top, FileAxes{sae}, r.frame);
  read_sheets(top, r.frame, r.diagnostics);
  read_panels(top, r.frame);
  return r;
}

std::array<bool, 6> restrained_by(const std::string& support) {
  return read("supports: {A: " + support + "}\n").frame.supports.at(0).restrained;
}

using Six = std::array<bool, 6>;

}  // namespace

TEST_CASE("a support restrains what its word, its list or its map says and nothing else") {
  CHECK(restrained_by("fixed") == Six{true, true, true, true, true, true});
  CHECK(restrained_by("pinned") == Six{true, true, true, false, false, false});
  const std::array<const char*, 6> names = {"x", "y", "z", "rx", "ry", "rz"};
  for (std::size_t d = 0; d < 6; ++d) {
    Six only = {};
    only[d] = true;
    const std::string name = names[d];
    CHECK(restrained_by("[" + name + "]") == only);
    CHECK(restrained_by("{" + name + ": 0}") == only);
  }
}

TEST_CASE("prescribed displacements are metres and radians, one each direction") {
  const SupportEntry s =
      read("supports: {A: {x: 1, y: 2, z: 3, rx: 30, ry: 60, rz: 90}}\n").frame.supports.at(0);
  for (std::size_t d = 0; d < 3; ++d) {
    CHECK_THAT(s.displacement[d], WithinRel(1e-3 * (1.0 + static_cast<double>(d)), 1e-14));
    CHECK_THAT(s.displacement[3 + d],
               WithinRel(std::numbers::pi / 6 * (1.0 + static_cast<double>(d)), 1e-14));
  }
}

TEST_CASE("in SAE axes what is fixed to the frame turns half round the forward axis") {
  const std::string text =
      "supports: {A: {x: 1, y: 2, z: 3, rx: 4, ry: 5, rz: 6}}\n"
      "masses: {m: {mass: 75, at: [10, 20, 30], on: [A], inertia: [1, 2, 3]}}\n";
  const Frame iso = read(text).frame, sae = read(text, true).frame;
  const Eigen::Matrix3d turn =
      Eigen::AngleAxisd(std::numbers::pi, Eigen::Vector3d::UnitX()).toRotationMatrix();
  const auto part = [](const SupportEntry& s, std::size_t first) {
    return Eigen::Vector3d(s.displacement[first], s.displacement[first + 1],
                           s.displacement[first + 2]);
  };
  for (const std::size_t first : {0U, 3U}) {
    CHECK((part(sae.supports[0], first) - turn * part(iso.supports[0], first)).norm() < 1e-15);
  }
  CHECK(sae.supports[0].restrained == iso.supports[0].restrained);
  CHECK((sae.masses[0].at - turn * iso.masses[0].at).norm() < 1e-15);
  // The tensor R J R' of moments about the axes keeps its diagonal.
  const Eigen::Matrix3d J = iso.masses[0].inertia.asDiagonal();
  CHECK((sae.masses[0].inertia - (turn * J * turn.transpose()).diagonal()).norm() < 1e-15);
  CHECK(sae.masses[0].mass == 75);
}

TEST_CASE("a sheet has the joint that is given, in SI units, and no strengths that are not") {
  const Read r = read(
      "sheets:\n"
      "  plain: {material: S235, thickness: 1.5}\n"
      "  both: {material: EN AW-6060, thickness: 2, edges: clamped, side: bottom, offset: 3, "
      "joint: {rivet: "
      "{diameter: 4, pitch: 50, stiffness: 6, shear_strength: 700}, bond: {width: 8, thickness: "
      "0.9, shear_modulus: 10, shear_strength: 11}}}\n"
      "  rivet: {material: S235, thickness: 1, joint: {rivet: {diameter: 4, pitch: 50}}}\n");
  CHECK(r.already_known.empty());
  CHECK(r.diagnostics.empty());
  const auto& sheets = r.frame.sheets;
  REQUIRE(sheets.size() == 3);
  CHECK_THAT(sheets[0].thickness, WithinRel(0.0015, 1e-14));
  CHECK(sheets[0].edges == SheetEdge::simply_supported);
  CHECK_FALSE(sheets[0].offset);
  CHECK(sheets[0].side == SheetSide::by_corners);
  CHECK_FALSE(sheets[0].rivet);
  CHECK_FALSE(sheets[0].bond);
  CHECK(sheets[1].material == "EN AW-6060");
  CHECK(sheets[1].edges == SheetEdge::clamped);
  CHECK(sheets[1].side == SheetSide::bottom);
  CHECK_THAT(*sheets[1].offset, WithinRel(0.003, 1e-14));
  CHECK_THAT(sheets[1].rivet->diameter, WithinRel(0.004, 1e-14));
  CHECK_THAT(sheets[1].rivet->pitch, WithinRel(0.050, 1e-14));
  CHECK_THAT(*sheets[1].rivet->stiffness, WithinRel(6e6, 1e-14));
  CHECK(*sheets[1].rivet->shear_strength == 700);
  CHECK_THAT(sheets[1].bond->width, WithinRel(0.008, 1e-14));
  CHECK_THAT(sheets[1].bond->thickness, WithinRel(0.0009, 1e-14));
  CHECK_THAT(sheets[1].bond->shear_modulus, WithinRel(10e6, 1e-14));
  CHECK_THAT(*sheets[1].bond->shear_strength, WithinRel(11e6, 1e-14));
  REQUIRE(sheets[2].rivet);
  CHECK_FALSE(sheets[2].rivet->stiffness);
  CHECK_FALSE(sheets[2].rivet->shear_strength);
  CHECK_FALSE(sheets[2].bond);
}

TEST_CASE("a joint of nothing is a fault, one with a fault in it is not one more") {
  const Read nothing = read("sheets: {s: {material: S235, thickness: 1, joint: {}}}\n");
  REQUIRE(nothing.diagnostics.size() == 1);
  CHECK_THAT(nothing.diagnostics[0].message, ContainsSubstring("neither `rivet` nor `bond`"));
  CHECK(nothing.diagnostics[0].place.line == 4);
  const Read faulty =
      read("sheets: {s: {material: S235, thickness: 1, joint: {rivet: {diameter: -4}}}}\n");
  CHECK(faulty.diagnostics.empty());
  CHECK(faulty.already_known.size() == 2);
  CHECK_FALSE(faulty.frame.sheets.at(0).rivet);
}

TEST_CASE("masses, sheets and panels that cannot be read keep their names") {
  const Read r = read("masses: {m: 3}\nsheets: {s: thick}\npanels: {p: [A, B, C, D]}\n");
  CHECK(r.already_known.size() == 3);
  CHECK(r.frame.masses.at(0).name == "m");
  CHECK(r.frame.sheets.at(0).name == "s");
  CHECK(r.frame.panels.at(0).name == "p");
  CHECK(r.frame.panels.at(0).place.line == 6);
  const Frame sound = read("panels: {p: {corners: [D, A, B, C], sheet: s}}\n").frame;
  CHECK(sound.panels.at(0).corners == std::vector<std::string>{"D", "A", "B", "C"});
  CHECK(sound.panels.at(0).sheet == "s");
}

}  // namespace tubewright::read_attachments_test
