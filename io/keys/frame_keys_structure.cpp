// The keys of what the frame is made of: materials, sections, members, supports, masses, sheets.

#include "io/keys/choice_words.h"
#include "io/keys/frame_key_parts.h"
#include "io/keys/frame_kinds.h"

namespace tubewright {

using namespace kinds;

namespace {

std::vector<std::string> six_words(const std::array<const char*, 6>& words) {
  return {words.begin(), words.end()};
}

Key needed(const std::string& key, const Measure& m, const std::string& help) {
  return {key, quantity(m, positive), required, "", help};
}

Key section_material() {
  return {"material", name_with_spaces("a material name"), required, "",
          "a material of this file or a built-in one, such as S235"};
}

Key section_filler() {
  return {"weld_filler", quantity(measure::stress, positive), optional, "",
          "ultimate strength of the metal its ends are welded with, MPa; absent: that of the tube, "
          "480 where that has more than 560"};
}

Key section_shear() {
  return {"shear", flag(), optional, "true",
          "true: with shear deformation (Timoshenko, Cowper's coefficient); false: without"};
}

Key tube_corners() {
  return {"corners", choice(words_in(corner_words)), optional, "cold_formed",
          "corner radii: of EN 10219-2, of EN 10210-2, or none"};
}

KeyGroup section_of_shape(const std::string& shape) {
  KeyGroup section{"section", shape_title(shape), shape_keys(shape), shape};
  if (shape == "square_tube" || shape == "rectangular_tube") section.keys.push_back(tube_corners());
  // Cold formed or hot finished also decides a round tube's buckling curve.
  if (shape == "round_tube") section.keys.push_back(tube_corners());
  section.keys.push_back(section_shear());
  section.keys.push_back(section_material());
  section.keys.push_back(section_filler());
  return section;
}

/// From `shape` to `Wplz`; `stiffness`: whether moments of area and moduli must be given.
std::vector<Key> properties_keys(bool stiffness) {
  const auto key = [](const std::string& name, const Measure& m, bool must, std::string help) {
    return Key{name, quantity(m, positive), must, "", std::move(help)};
  };
  using namespace measure;
  return {
      {"shape", choice({"properties"}), required, "", "the kind of section"},
      key("A", area, required, "area, mm2"),
      key("Iy", second_moment, stiffness, "second moment of area about y (bending along z), mm4"),
      key("Iz", second_moment, stiffness, "second moment of area about z (bending along y), mm4"),
      key("It", second_moment, stiffness, "St Venant torsion constant, mm4"),
      key("Wy", section_modulus, stiffness, "elastic section modulus about y, mm3"),
      key("Wz", section_modulus, stiffness, "elastic section modulus about z, mm3"),
      key("Wt", section_modulus, stiffness, "torsion modulus, mm3"),
      key("Ay", area, optional,
          "shear area for a force along y, mm2; absent: no shear deformation"),
      key("Az", area, optional,
          "shear area for a force along z, mm2; absent: no shear deformation"),
      key("Wply", section_modulus, optional, "plastic section modulus about y, mm3"),
      key("Wplz", section_modulus, optional, "plastic section modulus about z, mm3")};
}

KeyGroup section_of_properties() {
  KeyGroup section{"section", "a section of given properties", properties_keys(required),
                   "properties"};
  section.keys.push_back(section_shear());
  section.keys.push_back(section_material());
  section.keys.push_back(section_filler());
  return section;
}

SharedKind node_name() { return name("a node name"); }

Key member_end(const std::string& key, const std::string& help) {
  return {key, node_name(), required, "", help};
}

Key member_section() {
  return {"section", name("a section name"), required, "", "the name of its section"};
}

Key released_end(const std::string& key, const std::string& help) {
  std::vector<Key> springs;
  for (const char* force : {"Fx", "Fy", "Fz"}) {
    springs.push_back({force, quantity(measure::rate, not_negative), optional, "",
                       "stiffness of the joint along the local axis, N/mm"});
  }
  for (const char* moment : {"Mx", "My", "Mz"}) {
    springs.push_back({moment, quantity(measure::turning_rate, not_negative), optional, "",
                       "stiffness of the joint about the local axis, N m/deg"});
  }
  const std::string expected =
      "a list of what is free, [My, Mz], or a map of stiffnesses, {My: 500}";
  return {key,
          by_form(nullptr, list_of(choice(six_words(release_names)), 0, 6, expected),
                  group("release", "a release", std::move(springs)), expected),
          optional, "", help};
}

Key buckling_length() {
  const SharedKind factor = quantity(measure::number, positive);
  const std::string expected = "a number, 1, or two for bending about y and z, [1, 0.8]";
  return {"buckling_length",
          by_form(factor, sequence_of(factor, 2, expected, 2), nullptr, expected), optional, "",
          "effective length over length for buckling; absent: 1, or more where the frame sways"};
}

Key cap() {
  const std::string expected = "from, to or both, or a list of from and to";
  return {"cap",
          by_form(choice({"from", "to", "both"}), list_of(choice({"from", "to"}), 0, 2, expected),
                  nullptr, expected),
          optional, "", "ends that a welded plate closes, as thick as the wall"};
}

std::vector<Key> beam_keys() {
  return {
      {"kind", choice({"beam"}), optional, "beam", "what the member carries"},
      member_section(),
      {"roll", quantity(measure::angle), optional, "0",
       "turns the section about the member's axis, right hand, degrees"},
      released_end("release_from", "what is free at the start: any of Fx Fy Fz Mx My Mz"),
      released_end("release_to", "what is free at the end: any of Fx Fy Fz Mx My Mz"),
      buckling_length(),
      {"weld_throat", quantity(measure::length, positive), optional, "",
       "throat of the welds at its ends, mm; absent: as strong as the wall, and no more than the "
       "wall counts"},
      cap()};
}

KeyGroup beam_member() {
  KeyGroup beam{"member", "a beam", beam_keys(), "beam"};
  beam.keys.insert(beam.keys.begin() + 1, {member_end("from", "the node where it starts"),
                                           member_end("to", "the node where it ends")});
  return beam;
}

Key bend() {
  const std::string expected =
      "a radius, 100, or one for each node between the ends, [100, 0, 80], 0 for a mitre";
  return {
      "bend",
      by_form(quantity(measure::length, positive),
              sequence_of(quantity(measure::length, not_negative), 1, expected), nullptr, expected),
      optional, "",
      "radius of the centre line where the tube is bent round its corners, mm; absent: mitred"};
}

KeyGroup path_member() {
  KeyGroup tube{"member", "a member with a `path`", beam_keys(), "beam", "path"};
  tube.keys.insert(tube.keys.begin() + 1,
                   {"path", sequence_of(node_name(), 2, "a list of node names, [A, B, C]"),
                    required, "", "the nodes that one continuous tube runs through"});
  tube.keys.insert(tube.keys.begin() + 2, bend());
  return tube;
}

KeyGroup axial_member(const std::string& kind, const std::string& help, Key last) {
  return {"member",
          "a " + kind,
          {{"kind", choice({kind}), required, "", help},
           member_end("from", "the node where it starts"),
           member_end("to", "the node where it ends"),
           std::move(last)},
          kind};
}

KeyGroup spring_member() {
  KeyGroup spring = axial_member("spring", "a spring along its axis",
                                 needed("rate", measure::rate, "force per length, N/mm"));
  spring.keys.push_back({"damping", quantity(measure::damping, not_negative), optional, "0",
                         "of the damper beside it, for rides, N s/mm"});
  return spring;
}

Key sheet_rivet() {
  using namespace measure;
  return {"rivet",
          group("rivet", "`rivet`",
                {needed("diameter", length, "diameter of the rivet, mm"),
                 needed("pitch", length, "distance from rivet to rivet, mm"),
                 {"stiffness", quantity(fastener_rate, positive), optional, "",
                  "shear stiffness of one rivet in its joint, kN/mm"},
                 {"shear_strength", quantity(force, positive), optional, "",
                  "shear strength of one rivet, N"}}),
          optional, "", "a row of rivets"};
}

Key sheet_bond() {
  using namespace measure;
  return {"bond",
          group("bond", "`bond`",
                {needed("width", length, "width of the glue line, mm"),
                 needed("thickness", length, "thickness of the glue, mm"),
                 needed("shear_modulus", stress, "shear modulus of the glue, MPa"),
                 {"shear_strength", quantity(stress, positive), optional, "",
                  "shear strength of the glue, MPa"}}),
          optional, "", "a glue line; acts in parallel with rivets"};
}

}  // namespace

std::vector<Key> stock_properties_keys() {
  std::vector<Key> keys = properties_keys(optional);
  for (Key& key : keys) {
    if (key.name == "shape" || key.name == "A") continue;
    key.help = key.help.substr(0, key.help.find(';')) + "; absent: that of the section";
  }
  return keys;
}

std::string shape_title(const std::string& shape) {
  if (shape == "properties") return "a size of given properties";
  if (shape == "square_tube") return "a square tube";
  if (shape == "rectangular_tube") return "a rectangular tube";
  if (shape == "round_tube") return "a round tube";
  return shape == "round_bar" ? "a round bar" : "a flat bar";
}

std::vector<Key> shape_keys(const std::string& shape) {
  using namespace measure;
  std::vector<Key> keys = {{"shape", choice({shape}), required, "", "the kind of section"}};
  if (shape == "square_tube") {
    keys.push_back(needed("side", length, "outer side, mm"));
  } else if (shape == "rectangular_tube") {
    keys.push_back(needed("height", length, "outer height, along local z, mm"));
    keys.push_back(needed("width", length, "outer width, along local y, mm"));
  } else if (shape == "flat_bar") {
    keys.push_back(needed("height", length, "height, along local z, mm"));
    keys.push_back(needed("width", length, "width, along local y, mm"));
  } else {
    keys.push_back(needed("diameter", length, "outer diameter, mm"));
  }
  if (shape.ends_with("_tube")) keys.push_back(needed("wall", length, "wall thickness, mm"));
  return keys;
}

SharedKind materials_kind() {
  using namespace measure;
  return named_entries_with_spaces(
      group(
          "material", "a material",
          {needed("E", stress, "modulus of elasticity, MPa"),
           {"G", quantity(stress, positive), optional, "", "shear modulus, MPa; or give `nu`"},
           {"nu", quantity(number, poisson), optional, "", "Poisson's ratio; or give `G`"},
           needed("density", density, "density, kg/m3"),
           {"yield", quantity(stress, positive), optional, "",
            "yield strength or 0.2 % proof strength, MPa"},
           {"ultimate", quantity(stress, positive), optional, "", "ultimate tensile strength, MPa"},
           {"metal", choice(words_in(metal_words)), optional, "",
            "whose rules hold for it; absent: steel with E of 180 GPa and more, aluminium with 60 "
            "to 80, other between"},
           {"heat_affected_yield", quantity(stress, positive), optional, "",
            "0.2 % proof strength of aluminium beside a weld, MPa"},
           {"heat_affected_ultimate", quantity(stress, positive), optional, "",
            "ultimate strength of aluminium beside a weld, MPa"}}),
      "a map of material names, {NAME: {E: 210000, ...}}");
}

SharedKind sections_kind() {
  std::vector<KeyGroup> shapes;
  for (const auto& [word, shape] : shape_words) {
    shapes.push_back(shape == Shape::properties ? section_of_properties() : section_of_shape(word));
  }
  return entries_of(variants(std::move(shapes), "shape"),
                    "a map of section names, {NAME: {shape: square_tube, ...}}");
}

SharedKind members_kind() {
  return entries_of(
      variants({beam_member(), path_member(),
                axial_member("link", "a pin-ended bar: axial force only", member_section()),
                axial_member("cable", "a cable: carries tension only", member_section()),
                spring_member()},
               "kind", "beam"),
      "a map of member names, {NAME: {from: A, to: B, section: S}}", 1);
}

SharedKind supports_kind() {
  std::vector<Key> prescribed;
  for (const char* direction : {"x", "y", "z"}) {
    prescribed.push_back({direction, quantity(measure::length), optional, "",
                          "prescribed displacement along the axis, mm"});
  }
  for (const char* direction : {"rx", "ry", "rz"}) {
    prescribed.push_back({direction, quantity(measure::angle), optional, "",
                          "prescribed rotation about the axis, degrees"});
  }
  const std::string expected =
      "`fixed`, `pinned`, a list of directions, [x, y, z], or a map of displacements, {z: -2}";
  return entries_of(by_form(choice({"fixed", "pinned"}),
                            list_of(choice(six_words(direction_names)), 1, 6, expected),
                            group("support", "a support", std::move(prescribed)), expected),
                    "a map of node names, {NODE: fixed}");
}

SharedKind masses_kind() {
  using namespace measure;
  return entries_of(group("mass", "a carried mass",
                          {needed("mass", mass, "the mass, kg"),
                           {"at", vector(length), required, "", "its centre, mm"},
                           {"on", list_of(node_name(), 1, 1000, "a list of node names, [A, B]"),
                            required, "", "the nodes that carry it"},
                           {"inertia", vector(inertia, not_negative), optional, "",
                            "moments of inertia about its own centre, kg m2"}}),
                    "a map of names, {NAME: {mass: 75, at: [x, y, z], on: [A, B]}}");
}

SharedKind sheets_kind() {
  using namespace measure;
  return entries_of(
      group("sheet", "a sheet",
            {{"material", name_with_spaces("a material name"), required, "",
              "a material of this file or a built-in one, such as EN AW-5754-H22"},
             needed("thickness", length, "thickness, mm"),
             {"edges", choice(words_in(sheet_edge_words)), optional, "simply_supported",
              "how the edges are held against buckling"},
             {"side", choice(words_in(sheet_side_words)), optional, "corners",
              "the side of the tubes it lies on: the one that the order of the corners points to "
              "by the right hand, or the upper or lower one"},
             {"offset", quantity(length), optional, "",
              "distance of its middle from the plane of the tube axes, toward `side`, mm; absent: "
              "it touches the deepest of its tubes; 0: in the plane of the axes"},
             {"joint", group("joint", "`joint`", {sheet_rivet(), sheet_bond()}), optional, "",
              "how the edges are joined; absent: a perfect edge"}}),
      "a map of sheet names, {NAME: {material: M, thickness: 1.2}}");
}

SharedKind panels_kind() {
  return entries_of(group("panel", "a panel",
                          {{"corners", list_of(node_name(), 4, 4, "four node names, [A, B, C, D]"),
                            required, "", "its corners, in order round the panel"},
                           {"sheet", name("a sheet name"), required, "", "the name of its sheet"}}),
                    "a map of panel names, {NAME: {corners: [A, B, C, D], sheet: S}}");
}

}  // namespace tubewright
