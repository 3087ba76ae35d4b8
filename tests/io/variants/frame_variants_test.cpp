// Variants against frames read from files written by hand with the same values.
#include "io/variants/frame_variants.h"

#include "io/frame_file/read_frame.h"
#include "tests/cases/small_frames.h"
#include "tests/catch.h"

namespace tubewright::frame_variants_test {

using namespace tubewright::testing;

namespace {

constexpr const char* rack = R"(frame: Rack
materials:
  mine: {E: 210000, G: 81000, nu: 0.2963, density: 7850, yield: 235, ultimate: 360}
sections:
  rail: {shape: square_tube, side: 25, wall: 2, material: S235}
  big: {shape: square_tube, side: 40, wall: 2, material: S235}
nodes:
  root: [0, 0, 0]
  A_l: [500, 300, 0]
members:
  arm_l: {from: root, to: A_l, section: rail}
mirror: {plane: xz, from: _l, to: _r}
supports: {root: fixed}
cases:
  push: {kind: static, forces: {A_l: [0, 0, -10]}}
)";

std::vector<VaryVariable> sets(const std::vector<std::string>& texts) {
  std::vector<VaryVariable> variables;
  for (const std::string& text : texts) variables.push_back(answer_of(read_set(text)));
  return variables;
}

FrameVariants variants(const std::vector<std::string>& texts, const std::string& file = rack) {
  return answer_of(frame_variants({"rack.yaml", file}, sets(texts)));
}

std::string faults(const std::vector<std::string>& texts) {
  const auto outcome = frame_variants({"rack.yaml", rack}, sets(texts));
  REQUIRE(outcome.error() != nullptr);
  return text_of(*outcome.error());
}

std::size_t count(const std::string& text, const std::string& part) {
  std::size_t times = 0;
  for (std::size_t at = text.find(part); at != std::string::npos; at = text.find(part, at + 1)) {
    ++times;
  }
  return times;
}

const Node& node(const Frame& f, const std::string& name) {
  for (const Node& n : f.nodes) {
    if (n.name == name) return n;
  }
  FAIL("no node " << name);
  return f.nodes.front();
}

}  // namespace

TEST_CASE("a variant is what the reader makes of the file with the value in it") {
  const FrameVariants v = variants({"sections.rail.wall=1.5,0.05 in,3", "nodes.A_l.z=10,20"});
  const Frame f = answer_of(variant_of(v, 5));
  CHECK_THAT(f.sections.front().wall, WithinAbs(0.003, 1e-15));
  CHECK_THAT(node(f, "A_l").at.z(), WithinAbs(0.020, 1e-15));
  CHECK_THAT(node(f, "A_r").at.z(), WithinAbs(0.020, 1e-15));  // the image follows
  CHECK_THAT(node(f, "A_r").at.y(), WithinAbs(-0.3, 1e-15));
  std::string by_hand = rack;
  by_hand.replace(by_hand.find("wall: 2,"), 8, "wall: 3,");
  by_hand.replace(by_hand.find("[500, 300, 0]"), 13, "[500, 300, 20]");
  const Frame same = read_frame(FrameText{"rack.yaml", by_hand}).frame;
  CHECK(f.sections.front().wall == same.sections.front().wall);
  CHECK(node(f, "A_l").at == node(same, "A_l").at);
}

TEST_CASE("names, words, absent keys and switches can be set like numbers") {
  const FrameVariants v = variants({"members.arm_l.section=rail,big", "sections.big.corners=sharp",
                                    "sections.rail.material=S355", "sections.rail.shear=false",
                                    "frame='A, B'", "supports.root=pinned"});
  const Frame f = answer_of(variant_of(v, 1));
  CHECK(f.members.front().section == "big");
  CHECK(f.members.back().section == "big");
  CHECK(f.sections.back().corners == Corners::sharp);
  CHECK(f.sections.front().material == "S355");
  CHECK_FALSE(f.sections.front().shear);
  CHECK(f.title == "A, B");
  CHECK_FALSE(f.supports.front().restrained[3]);
}

TEST_CASE("each variant has the standard cases that its own values give") {
  CHECK(answer_of(variant_of(variants({"gravity=9.81"}), 0)).gravity == 9.81);
}

TEST_CASE("paths that lead nowhere and values that are refused are told all at once") {
  const std::string text = faults({"sections.ral.wall=1", "nodes.A_l.q=2", "gravty=9",
                                   "sections.rail.wall=abc,2,1 kg", "sections.rail.material=S999"});
  CHECK_THAT(text, ContainsSubstring("did you mean `rail`?"));
  CHECK_THAT(text, ContainsSubstring("has no `q`"));
  CHECK_THAT(text, ContainsSubstring("`--set gravty=9`: unknown key `gravty`") &&
                       ContainsSubstring("did you mean `gravity`?"));
  CHECK_THAT(text, ContainsSubstring("`--set sections.rail.wall=abc`: `abc` is not a length"));
  CHECK_THAT(text, ContainsSubstring("`--set sections.rail.wall=1 kg`"));
  CHECK_THAT(text, ContainsSubstring("`--set sections.rail.material=S999`") &&
                       ContainsSubstring("which does not exist"));
  CHECK(count(text, "\n") == 6);
}

TEST_CASE("a misspelt key is told once, however many values it is given") {
  CHECK(count(faults({"sections.rail.wal=1..2/9"}), "did you mean `wall`?") == 1);
}

TEST_CASE("the same place cannot be set twice, nor a place within one that is set") {
  CHECK_THAT(faults({"nodes.A_l.z=1,2", "nodes.A_l.2=3"}), ContainsSubstring("sets what"));
  CHECK_THAT(faults({"supports=fixed", "supports.root=pinned"}), ContainsSubstring("sets what"));
}

TEST_CASE("a value that only goes together with another is no fault") {
  // A wall of 5 leaves no hole in a tube of 9, but one in a tube of 40.
  const FrameVariants v = variants({"sections.big.side=9,40", "sections.big.wall=5,2"});
  const auto refused = variant_of(v, 0);
  REQUIRE(refused.error() != nullptr);
  CHECK_FALSE(reason_of(*refused.error()).empty());
  for (const std::size_t k : {1U, 2U, 3U}) CHECK(variant_of(v, k));
  // E alone and G alone disagree with the other two; together they agree.
  const FrameVariants moduli = variants({"materials.mine.E=105000", "materials.mine.G=40500"});
  CHECK(variant_of(moduli, 0));
}

TEST_CASE("a reason is the first error and the number of the others") {
  CHECK(reason_of({{"a is wrong", "mend it"}}) == "a is wrong");
  CHECK(reason_of({{"a is wrong", ""}, {"b is wrong", ""}}) == "a is wrong (and 1 more)");
  CHECK_FALSE(reason_of({}).empty());
}

}  // namespace tubewright::frame_variants_test
