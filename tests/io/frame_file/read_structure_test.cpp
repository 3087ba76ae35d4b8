// Materials, sections, nodes, members and the mirror out of checked values, sound and unsound.
#include <algorithm>
#include <cmath>
#include <numbers>

#include "io/frame_file/frame_parts.h"
#include "tests/catch.h"

namespace tubewright::read_structure_test {

namespace {

struct Read {
  Frame frame;
  Diagnostics diagnostics;    ///< of the readers
  Diagnostics already_known;  ///< of the check against the table
};

Read read(const std::string& text, bool sae = false) {
  Read r;
  const auto root = parse_strict_yaml(text, r.already_known);
  INFO(text);
  REQUIRE(root.has_value());
  const CheckedValue top = check_frame_keys(*root, r.already_known);
  REQUIRE(top.group != nullptr);
  read_materials(top, r.frame, r.diagnostics);
  read_sections(top, r.frame);
  read_nodes(top, FileAxes{sae}, r.frame);
  read_members(top, r.frame, r.diagnostics);
  read_mirror(top, r.frame);
  return r;
}

/// A material of these keys.
Read material(const std::string& keys) {
  return read("materials: {own: {density: 7850, " + keys + "}}\n");
}

}  // namespace

TEST_CASE("the shear modulus follows from Poisson's ratio by isotropic elasticity") {
  for (const double nu : {-0.5, 0.0, 0.25, 0.3, 0.5}) {
    const Read r = material("E: 210000, nu: " + std::to_string(nu));
    INFO(nu);
    CHECK(r.diagnostics.empty());
    CHECK_THAT(r.frame.materials.at(0).properties.G, WithinRel(210e9 / (2 * (1 + nu)), 1e-12));
  }
  CHECK(material("E: 210000").diagnostics.size() == 1);
}

TEST_CASE("G and nu may both be given if they agree to two decimals") {
  // E/(2 G) - 1 = 0.3 with G = 80769 MPa.
  for (const char* nu : {"0.30", "0.295", "0.305"}) {
    CHECK(material("E: 210000, G: 80769, nu: " + std::string(nu)).diagnostics.empty());
  }
  for (const char* nu : {"0.28", "0.32"}) {
    const Read r = material("E: 210000, G: 80769, nu: " + std::string(nu));
    REQUIRE(r.diagnostics.size() == 1);
    CHECK_THAT(r.diagnostics[0].message, ContainsSubstring("make it 0.30"));
    CHECK(r.diagnostics[0].place.line == 1);
  }
  // A fault of a number is told by the table, not again as a disagreement.
  const Read faulty = material("E: 210000, G: soft, nu: 0.1");
  CHECK(faulty.diagnostics.empty());
}

TEST_CASE("a metal that is not named is known by its modulus, one that is by its word") {
  // Common practice, no source: steels have 190 to 215 GPa, aluminium alloys 68 to 75, titanium
  // about 110, magnesium about 45.
  const auto metal = [](const std::string& keys) {
    return material("nu: 0.3, " + keys).frame.materials.at(0).metal;
  };
  for (const char* E : {"190000", "215000"}) CHECK(metal("E: " + std::string(E)) == Metal::steel);
  for (const char* E : {"68000", "75000"}) CHECK(metal("E: " + std::string(E)) == Metal::aluminium);
  for (const char* E : {"45000", "110000"}) CHECK(metal("E: " + std::string(E)) == Metal::other);
  CHECK(metal("E: 70000, metal: stainless") == Metal::stainless);
  CHECK(metal("E: 210000, metal: other") == Metal::other);
}

TEST_CASE("given properties of a section keep their powers of a millimetre") {
  const Read r = read(
      "sections: {own: {shape: properties, A: 2, Iy: 3, Iz: 4, It: 5, Wy: 6, Wz: 7, Wt: 8, Ay: 9, "
      "Wplz: 10, material: S235, shear: false}}\n");
  const SectionEntry& entry = r.frame.sections.at(0);
  CHECK(entry.shape == Shape::properties);
  CHECK_FALSE(entry.shear);
  const Section& s = entry.given;
  const double mm = 1e-3;
  CHECK_THAT(s.A, WithinRel(2 * std::pow(mm, 2), 1e-12));
  CHECK_THAT(s.Iy, WithinRel(3 * std::pow(mm, 4), 1e-12));
  CHECK_THAT(s.Iz, WithinRel(4 * std::pow(mm, 4), 1e-12));
  CHECK_THAT(s.It, WithinRel(5 * std::pow(mm, 4), 1e-12));
  CHECK_THAT(s.Wy, WithinRel(6 * std::pow(mm, 3), 1e-12));
  CHECK_THAT(s.Wz, WithinRel(7 * std::pow(mm, 3), 1e-12));
  CHECK_THAT(s.Wt, WithinRel(8 * std::pow(mm, 3), 1e-12));
  CHECK_THAT(s.Ay, WithinRel(9 * std::pow(mm, 2), 1e-12));
  CHECK(s.Az == rigid);  // absent: no shear deformation
  CHECK(s.Wply == 0);
  CHECK_THAT(s.Wplz, WithinRel(10 * std::pow(mm, 3), 1e-12));
}

TEST_CASE("a path of n nodes is n - 1 members end to end, released at the ends of the tube") {
  const Read r = read(
      "members: {t: {path: [A, B, C, D, A], section: s, release_from: [Mx], release_to: {Fz: 2}, "
      "buckling_length: [0.5, 2]}}\n");
  const std::vector<Member>& pieces = r.frame.members;
  REQUIRE(pieces.size() == 4);
  for (std::size_t i = 0; i < pieces.size(); ++i) {
    CHECK(pieces[i].name == "t." + std::to_string(i + 1));
    CHECK(pieces[i].tube == "t");
    if (i > 0) CHECK(pieces[i].from == pieces[i - 1].to);
    CHECK((pieces[i].release_from == welded) == (i != 0));
    CHECK((pieces[i].release_to == welded) == (i != 3));
    CHECK(pieces[i].buckling_length == std::array<std::optional<double>, 2>{0.5, 2.0});
  }
  CHECK(pieces[0].release_from == EndConnection{rigid, rigid, rigid, 0, rigid, rigid});
  CHECK(pieces[3].release_to == EndConnection{rigid, rigid, 2000, rigid, rigid, rigid});
  CHECK(pieces[0].from == "A");
  CHECK(pieces[3].to == "A");
}

TEST_CASE("what cannot be read leaves its name behind for those who refer to it") {
  const Read r = read(
      "materials: {m: 3}\nsections: {s: [1]}\nnodes: {A: top, B: [1, x, 3]}\n"
      "members: {a: 7, b: {path: [A], section: s}, c: {from: A, section: s}}\n");
  CHECK_FALSE(r.already_known.empty());
  CHECK(r.diagnostics.empty());
  CHECK(r.frame.materials.at(0).name == "m");
  CHECK(r.frame.sections.at(0).name == "s");
  REQUIRE(r.frame.nodes.size() == 2);
  CHECK(r.frame.nodes[1].at == Eigen::Vector3d(0.001, 0, 0.003));
  REQUIRE(r.frame.members.size() == 3);
  CHECK(r.frame.members[1].name == "b");
  CHECK(r.frame.members[2].from == "A");
  CHECK(r.frame.members[2].to.empty());
}

TEST_CASE("a mirror is taken only if its rule is whole") {
  const Read whole = read("mirror: {from: _l, to: _r}\n");
  REQUIRE(whole.frame.mirror);
  CHECK(whole.frame.mirror->from == "_l");
  CHECK(whole.frame.mirror->to == "_r");
  CHECK_FALSE(read("mirror: {from: _l}\n").frame.mirror);
  CHECK_FALSE(read("frame: none\n").frame.mirror);
}

TEST_CASE("a path bends to one radius at all its corners or to one of each") {
  const std::string path = "members: {hoop: {path: [a, b, c, d], section: t, bend: ";
  const auto radii = [](const Read& r) {
    std::vector<double> list;
    for (const Member& m : r.frame.members) list.push_back(m.bend);
    return list;
  };
  CHECK(radii(read(path + "100}}\n")) == std::vector{0.1, 0.1, 0.0});
  CHECK(radii(read(path + "[0, 80]}}\n")) == std::vector{0.0, 0.08, 0.0});
  CHECK(radii(read("members: {hoop: {path: [a, b, c], section: t}}\n")) == std::vector{0.0, 0.0});
  const Read wrong = read(path + "[80]}}\n");
  REQUIRE(wrong.diagnostics.size() == 1);
  CHECK_THAT(wrong.diagnostics[0].message, ContainsSubstring("1 radii in `bend` for 2 nodes"));
}

}  // namespace tubewright::read_structure_test
