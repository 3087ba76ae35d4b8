// The keys of attachments as the file has them, read from text to frame.
#include <Eigen/Geometry>

#include "io/frame_file/read_frame.h"
#include "io/yaml/render_diagnostics.h"
#include "tests/catch.h"

namespace tubewright::frame_keys_attachments_test {

namespace {

std::string file_with(const std::string& attachment) {
  return "frame: Cart\n"
         "sections: {rail: {shape: square_tube, side: 40, wall: 2.5, material: S235}}\n"
         "nodes: {A: [0, 0, 0], B: [1000, 0, 0]}\n"
         "members: {rail: {from: A, to: B, section: rail}}\n"
         "attachments:\n  ear: " +
         attachment + "\n";
}

Attachment sound(const std::string& attachment) {
  const FrameText file{"cart.yaml", file_with(attachment)};
  const FrameReading reading = read_frame(file);
  INFO(render(reading.diagnostics, file));
  REQUIRE(reading.sound());
  REQUIRE(reading.frame.attachments.size() == 1);
  return reading.frame.attachments[0];
}

std::string faults(const std::string& attachment) {
  const FrameText file{"cart.yaml", file_with(attachment)};
  const FrameReading reading = read_frame(file);
  CHECK(!reading.sound());
  return render(reading.diagnostics, file);
}

}  // namespace

TEST_CASE("a tab is read with all its keys, in metres") {
  const Attachment a = sound(
      "{kind: tab, on: rail, at: 0.35, face: bottom, thickness: 4, length: 40, hole: 25, along: 3, "
      "aside: -2, edge: 15, bolt: {size: M10, grade: 10.9, preload: 9 kN, washer: 24}, "
      "weld_throat: 3, material: S355}");
  CHECK(a.kind == AttachmentKind::tab);
  CHECK(a.on == "rail");
  CHECK(a.at == 0.35);
  CHECK(a.face == Face::bottom);
  CHECK_THAT(a.thickness, WithinRel(0.004, 1e-12));
  CHECK_THAT(a.length, WithinRel(0.040, 1e-12));
  CHECK_THAT(a.hole, WithinRel(0.025, 1e-12));
  CHECK_THAT(a.along, WithinRel(0.003, 1e-12));
  CHECK_THAT(a.aside, WithinRel(-0.002, 1e-12));
  CHECK_THAT(*a.edge, WithinRel(0.015, 1e-12));
  CHECK_THAT(*a.weld_throat, WithinRel(0.003, 1e-12));
  CHECK(a.material == "S355");
  REQUIRE(a.bolt);
  CHECK_THAT(a.bolt->diameter, WithinRel(0.010, 1e-12));
  CHECK(a.bolt->grade == "10.9");
  CHECK_THAT(*a.bolt->preload, WithinRel(9000.0, 1e-12));
  CHECK_THAT(*a.bolt->washer, WithinRel(0.024, 1e-12));
}

TEST_CASE(
    "the other kinds have the sizes of their own; a bolt is of 8.8 unless it says otherwise") {
  const Attachment pair = sound(
      "{kind: pair, on: rail, at: 0.5, face: top, thickness: 4, length: 40, gap: 12, hole: 25}");
  CHECK_THAT(pair.gap, WithinRel(0.012, 1e-12));
  CHECK(pair.material == "S235");  // of the tube
  const Attachment sleeve =
      sound("{kind: sleeve, node: B, face: left, diameter: 16, hole: 15, bolt: {size: M8}}");
  CHECK_THAT(sleeve.length, WithinRel(0.016, 1e-12));
  CHECK(sleeve.axis_node == "B");
  CHECK(sleeve.bolt->grade == "8.8");
  const Attachment bolt = sound(
      "{kind: bolt, on: rail, at: 0.5, face: left, hole: 15, bolt: {size: M8}, spacer: true}");
  CHECK(bolt.spacer);
  CHECK(sound("{kind: nut, on: rail, at: 0.5, face: left, hole: 5, diameter: 13}").kind ==
        AttachmentKind::nut);
  CHECK(sound("{kind: cross_tab, on: rail, at: 0.5, face: top, hole: 20, thickness: 4, length: 25}")
            .kind == AttachmentKind::cross_tab);
  CHECK(sound("{kind: saddle, on: rail, at: 0.5, face: top, hole: 20, thickness: 3, length: 40}")
            .kind == AttachmentKind::saddle);
  CHECK(sound("{kind: through_plate, on: rail, at: 0.5, face: top, hole: 20, thickness: 4, "
              "length: 25}")
            .kind == AttachmentKind::through_plate);
}

TEST_CASE("other parts may name an attachment wherever a node is named") {
  const FrameText file{
      "cart.yaml",
      file_with("{kind: tab, on: rail, at: 0.5, face: top, thickness: 4, length: 40, hole: 25}") +
          "supports: {A: fixed, ear: [y]}\n"
          "masses: {horn: {mass: 1, at: [500, 0, 45], on: [ear]}}\n"
          "cases: {blow: {kind: static, forces: {ear: [1, 0, 0]}, moments: {ear: [0, 1, 0]}, "
          "line_loads: {rail: [0, 0, -1]}}}\n"};
  const FrameReading reading = read_frame(file);
  INFO(render(reading.diagnostics, file));
  CHECK(reading.sound());
}

TEST_CASE("faults of an attachment are told with their place") {
  const std::string face =
      faults("{kind: tab, on: rail, at: 0.5, face: front, thickness: 4, length: 40, hole: 25}");
  CHECK_THAT(face, ContainsSubstring("cart.yaml:6:3"));
  CHECK_THAT(face, ContainsSubstring("`top`, `bottom`, `left` and `right`"));
  CHECK_THAT(faults("{kind: tab, on: rail, at: 0.5, face: top, thickness: 4, hole: 25}"),
             ContainsSubstring("`length`"));
  CHECK_THAT(faults("{kind: bolt, on: rail, at: 0.5, face: top, hole: 25}"),
             ContainsSubstring("`bolt`"));
  CHECK_THAT(faults("{kind: tag, on: rail, at: 0.5, face: top, hole: 25}"),
             ContainsSubstring("did you mean `tab`"));
  CHECK_THAT(faults("{kind: bolt, on: rail, at: 0.5, face: top, hole: 5, bolt: {size: M7}}"),
             ContainsSubstring("`size` cannot be `M7`"));
}

namespace {

FrameReading with_gusset(const std::string& gusset) {
  return read_frame({"cart.yaml",
                     "frame: Cart\n"
                     "sections: {rail: {shape: square_tube, side: 40, wall: 2.5, material: S235}}\n"
                     "nodes: {A: [0, 0, 0], B: [1000, 0, 0], C: [0, 0, 500]}\n"
                     "members:\n"
                     "  rail: {from: A, to: B, section: rail}\n"
                     "  post: {from: A, to: C, section: rail}\n"
                     "gussets:\n  corner: " +
                         gusset + "\n"});
}

std::string gusset_faults(const std::string& gusset) {
  const FrameReading reading = with_gusset(gusset);
  CHECK(!reading.sound());
  std::string text;
  for (const Diagnostic& d : reading.diagnostics) {
    text += std::to_string(d.place.line) + ": " + d.message + " | " + d.advice + '\n';
  }
  return text;
}

}  // namespace

TEST_CASE("a gusset is read with all its keys, in metres") {
  const FrameReading reading = with_gusset(
      "{at: A, between: [rail, post], legs: [80, 50], thickness: 3, place: sides, "
      "material: S355, weld_throat: 2}");
  REQUIRE(reading.sound());
  const Gusset& g = reading.frame.gussets.at(0);
  CHECK(g.name == "corner");
  CHECK(g.node == "A");
  CHECK(g.legs[0].tube == "rail");
  CHECK(g.legs[1].length == 0.050);
  CHECK(g.thickness == 0.003);
  CHECK(g.at_sides);
  CHECK(g.material == "S355");
  CHECK(g.weld_throat == 0.002);
}

TEST_CASE("one length is that of both legs; a gusset is of its first tube's material") {
  const FrameReading reading =
      with_gusset("{at: A, between: [rail, post], legs: 60, thickness: 3}");
  REQUIRE(reading.sound());
  const Gusset& g = reading.frame.gussets.at(0);
  CHECK(g.legs[0].length == 0.060);
  CHECK(g.legs[1].length == 0.060);
  CHECK_FALSE(g.at_sides);
  CHECK(g.material == "S235");
}

TEST_CASE("faults of a gusset are told with their place") {
  CHECK_THAT(gusset_faults("{at: A, between: [rail, post], thickness: 3}"),
             ContainsSubstring("8: gusset `corner` has no `legs`"));
  CHECK_THAT(gusset_faults("{at: A, between: [rail], legs: 60, thickness: 3}"),
             ContainsSubstring("two member names"));
  CHECK_THAT(gusset_faults("{at: A, between: [rail, post], legs: [60, 60, 60], thickness: 3}"),
             ContainsSubstring("a length, 60, or one for each tube, [80, 50]"));
  CHECK_THAT(gusset_faults("{at: B, between: [rail, post], legs: 60, thickness: 3}"),
             ContainsSubstring("8: gusset `corner` is between tubes of which `post` does not end"));
  CHECK_THAT(gusset_faults("{at: A, between: [rail, post], legs: 60, thickness: 36}"),
             ContainsSubstring("takes 36 mm of a face that has 35 mm between its walls"));
}

}  // namespace tubewright::frame_keys_attachments_test
