// The keys of what the frame is made of, against the data they fill: the words of a choice are
// those that the reader knows, or stand in the order of the DOFs that it makes of them.
#include <algorithm>

#include "cases/frame/frame.h"
#include "io/keys/choice_words.h"
#include "io/keys/frame_key_parts.h"
#include "tests/catch.h"

namespace tubewright::frame_keys_structure_test {

namespace {

using Words = std::vector<std::string>;

const std::vector<std::string> shapes = {"square_tube", "rectangular_tube", "round_tube",
                                         "round_bar", "flat_bar"};

Words names_of(const std::vector<Key>& keys) {
  Words names;
  for (const Key& key : keys) names.push_back(key.name);
  return names;
}

/// The table's kinds are made anew at each call: this one lives as long as the program.
const ValueKind& kept(const SharedKind& kind) {
  static std::vector<SharedKind> kinds;
  kinds.push_back(kind);
  return *kind;
}

/// Of the kinds of a named entry the one that the word chooses.
const KeyGroup& group_of(const ValueKind& kind, const std::string& word) {
  const auto& groups = kind.element->groups;
  const auto found =
      std::find_if(groups.begin(), groups.end(), [&](const KeyGroup& g) { return g.word == word; });
  REQUIRE(found != groups.end());
  return *found;
}

const Key& key_of(const KeyGroup& group, const std::string& name) {
  const Key* key = find_key(group, name);
  INFO(name);
  REQUIRE(key != nullptr);
  return *key;
}

}  // namespace

TEST_CASE("a shape is described by its outline, and a tube by its wall too") {
  for (const std::string& shape : shapes) {
    INFO(shape);
    std::string title = "a " + shape;
    std::replace(title.begin(), title.end(), '_', ' ');
    CHECK(shape_title(shape) == title);
    Words expected = {"shape"};
    if (shape.starts_with("square")) expected.push_back("side");
    if (shape.starts_with("rectangular") || shape.starts_with("flat")) {
      expected.insert(expected.end(), {"height", "width"});
    }
    if (shape.starts_with("round")) expected.push_back("diameter");
    if (shape.ends_with("tube")) expected.push_back("wall");
    const std::vector<Key> keys = shape_keys(shape);
    CHECK(names_of(keys) == expected);
    for (const Key& key : keys) CHECK(key.required);
  }
}

TEST_CASE("a section of every shape has its sizes and a material, corners only where it has any") {
  for (const std::string& shape : shapes) {
    INFO(shape);
    const KeyGroup& group = group_of(kept(sections_kind()), shape);
    for (const Key& size : shape_keys(shape)) CHECK(find_key(group, size.name) != nullptr);
    CHECK(key_of(group, "material").required);
    CHECK((find_key(group, "corners") != nullptr) == shape.ends_with("tube"));
  }
  const KeyGroup& given = group_of(kept(sections_kind()), "properties");
  // What the solver divides by or checks with cannot be left out, the shear areas can.
  for (const char* name : {"A", "Iy", "Iz", "It", "Wy", "Wz", "Wt"}) {
    CHECK(key_of(given, name).required);
  }
  for (const char* name : {"Ay", "Az", "Wply", "Wplz"}) CHECK_FALSE(key_of(given, name).required);
}

TEST_CASE("corners, metals and edges are chosen by the words that the reader knows") {
  const Key& corners = key_of(group_of(kept(sections_kind()), "square_tube"), "corners");
  CHECK(corners.kind->words == words_in(corner_words));
  CHECK(value_for(corner_words, corners.otherwise) == SectionEntry().corners);
  const Key& metal = key_of(kept(materials_kind()).element->groups[0], "metal");
  CHECK(metal.kind->words == words_in(metal_words));
  const Key& edges = key_of(kept(sheets_kind()).element->groups[0], "edges");
  CHECK(edges.kind->words == words_in(sheet_edge_words));
  CHECK(value_for(sheet_edge_words, edges.otherwise) == Sheet().edges);
  const Key& side = key_of(kept(sheets_kind()).element->groups[0], "side");
  CHECK(side.kind->words == words_in(sheet_side_words));
  CHECK(value_for(sheet_side_words, side.otherwise) == Sheet().side);
}

TEST_CASE("directions of supports and releases stand in the order of a node's degrees of freedom") {
  const ValueKind& support = *kept(supports_kind()).element;
  const ValueKind& release = *key_of(group_of(kept(members_kind()), "beam"), "release_to").kind;
  const Words directions(direction_names.begin(), direction_names.end());
  const Words releases(release_names.begin(), release_names.end());
  CHECK(support.list->element->words == directions);
  CHECK(names_of(support.map->groups[0].keys) == directions);
  CHECK(release.list->element->words == releases);
  CHECK(names_of(release.map->groups[0].keys) == releases);
  for (std::size_t d = 0; d < 6; ++d) {  // along, then about
    CHECK(support.map->groups[0].keys[d].kind->measure ==
          (d < 3 ? &measure::length : &measure::angle));
    CHECK(release.map->groups[0].keys[d].kind->measure ==
          (d < 3 ? &measure::rate : &measure::turning_rate));
  }
}

TEST_CASE("a member is a beam unless it says what it is, and only a beam resists bending") {
  const ValueKind& members = kept(members_kind());
  CHECK(members.element->chosen_otherwise == "beam");
  for (const KeyGroup& group : members.element->groups) {
    INFO(group.title);
    const bool beam = group.word == "beam";
    for (const char* name : {"roll", "release_from", "release_to", "buckling_length"}) {
      CHECK((find_key(group, name) != nullptr) == beam);
    }
    CHECK((find_key(group, "rate") != nullptr) == (group.word == "spring"));
    CHECK((find_key(group, "section") != nullptr) == (group.word != "spring"));
    CHECK((find_key(group, "path") != nullptr) == (group.marked_by == "path"));
    CHECK((find_key(group, "from") == nullptr) == (group.marked_by == "path"));
  }
}

TEST_CASE("masses, sheets and panels need what they cannot do without") {
  const KeyGroup& mass = kept(masses_kind()).element->groups[0];
  for (const char* name : {"mass", "at", "on"}) CHECK(key_of(mass, name).required);
  const KeyGroup& sheet = kept(sheets_kind()).element->groups[0];
  for (const char* name : {"material", "thickness"}) CHECK(key_of(sheet, name).required);
  const KeyGroup& joint = key_of(sheet, "joint").kind->groups[0];
  for (const char* name : {"diameter", "pitch"}) {
    CHECK(key_of(key_of(joint, "rivet").kind->groups[0], name).required);
  }
  const ValueKind& corners = *key_of(kept(panels_kind()).element->groups[0], "corners").kind;
  CHECK(corners.least == 4);
  CHECK(corners.most == 4);
  CHECK_FALSE(corners.repeats);
  const KeyGroup& material = kept(materials_kind()).element->groups[0];
  // Isotropic elasticity has two constants: E and one of G and nu, which nu bounds to -1..0.5.
  CHECK(key_of(material, "E").required);
  CHECK_FALSE(key_of(material, "G").required);
  CHECK(key_of(material, "nu").kind->bounds.least == -1);
  CHECK(key_of(material, "nu").kind->bounds.least_excluded);
  CHECK(key_of(material, "nu").kind->bounds.most == 0.5);
}

}  // namespace tubewright::frame_keys_structure_test
