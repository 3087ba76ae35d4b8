// Torsion, limits, life, stock and bench test out of checked values.
#include <numbers>

#include "io/frame_file/frame_parts.h"
#include "tests/catch.h"

namespace tubewright::read_studies_test {

namespace {

struct Read {
  Frame frame;
  Diagnostics diagnostics;    ///< of the readers
  Diagnostics already_known;  ///< of the check against the table
};

Read read(const std::string& more, bool sae = false) {
  Read r;
  const auto root = parse_strict_yaml(
      "frame: Cart\nnodes: {A: [0, 0, 0]}\nmembers: {m: {from: A, to: A, section: s}}\n" + more,
      r.already_known);
  INFO(more);
  REQUIRE(root.has_value());
  const CheckedValue top = check_frame_keys(*root, r.already_known);
  REQUIRE(top.group != nullptr);
  read_torsion(top, r.frame);
  read_limits(top, r.frame);
  read_life(top, r.frame);
  read_stock(top, r.frame);
  read_groups(top, r.frame);
  read_bench_test(top, FileAxes{sae}, r.frame, r.diagnostics);
  return r;
}

}  // namespace

TEST_CASE("studies that a file does not ask for are not made") {
  const Frame f = read("").frame;
  CHECK_FALSE(f.torsion);
  CHECK_FALSE(f.life);
  CHECK_FALSE(f.stock);
  CHECK_FALSE(f.bench_test);
  CHECK(f.limits.yield_factor == Limits().yield_factor);
  CHECK_FALSE(f.limits.mass);
}

TEST_CASE("torsion names left and right of front and rear, and its couple in N m") {
  const Frame f = read("torsion: {front: [FL, FR], rear: [RL, RR], couple: 0.25 kN m}\n").frame;
  REQUIRE(f.torsion);
  CHECK(f.torsion->front == std::array<std::string, 2>{"FL", "FR"});
  CHECK(f.torsion->rear == std::array<std::string, 2>{"RL", "RR"});
  CHECK(f.torsion->couple == 250);
  CHECK(f.torsion->place.line == 4);
  // Half a pair is none: nothing is read past its end.
  CHECK_FALSE(read("torsion: {front: [FL], rear: [RL, RR]}\n").frame.torsion);
  CHECK_FALSE(read("torsion: {rear: [RL, RR]}\n").frame.torsion);
}

TEST_CASE("limits are SI, and those not given stay open") {
  const Frame f =
      read("limits: {yield_factor: 2, torsional_stiffness: 100, deflection: 4, frequency: 9}\n")
          .frame;
  CHECK(f.limits.yield_factor == 2);
  CHECK_THAT(*f.limits.torsional_stiffness, WithinRel(100 * 180 / std::numbers::pi, 1e-14));
  CHECK_THAT(*f.limits.deflection, WithinRel(0.004, 1e-14));
  CHECK(*f.limits.frequency == 9);
  CHECK_FALSE(f.limits.mass);
  CHECK(*read("limits: {mass: 20 lb}\n").frame.limits.mass == 20 * 0.45359237);  // NIST SP 811
}

TEST_CASE("a life keeps its blocks in order, each with both ends of its cycle") {
  const Frame f = read(
                      "life: {category: 50, design: damage_tolerant, consequence: low, spectrum: "
                      "[{case: up, from: "
                      "down, cycles: 1000}, {vertical: 1.5, cycles: 2e6}]}\n")
                      .frame;
  REQUIRE(f.life);
  CHECK_THAT(f.life->category, WithinRel(50e6, 1e-14));
  CHECK(f.life->damage_tolerant);
  CHECK_FALSE(f.life->high_consequence);
  REQUIRE(f.life->spectrum.size() == 2);
  CHECK(f.life->spectrum[0].load_case == "up");
  CHECK(f.life->spectrum[0].from == "down");
  CHECK(f.life->spectrum[0].cycles == 1000);
  CHECK(f.life->spectrum[0].vertical == 0);
  CHECK(f.life->spectrum[1].load_case.empty());
  CHECK(f.life->spectrum[1].vertical == 1.5);
  CHECK(f.life->spectrum[1].cycles == 2e6);
  const Frame by_default = read("life: {}\n").frame;
  REQUIRE(by_default.life);
  CHECK_FALSE(by_default.life->damage_tolerant);
  CHECK(by_default.life->high_consequence);
}

TEST_CASE("stock has bars by size in the order of the file, with a price or without") {
  const Frame f = read(
                      "stock: {length: 5 m, kerf: 1, end_trim: 0, sizes: [{shape: round_tube, "
                      "diameter: 30, wall: "
                      "2, price: 7.5}, {shape: flat_bar, height: 40, width: 4}]}\n")
                      .frame;
  REQUIRE(f.stock);
  CHECK(f.stock->length == 5);
  CHECK_THAT(f.stock->kerf, WithinRel(0.001, 1e-14));
  CHECK(f.stock->end_trim == 0);
  REQUIRE(f.stock->sizes.size() == 2);
  CHECK(f.stock->sizes[0].shape == Shape::round_tube);
  CHECK_THAT(f.stock->sizes[0].height, WithinRel(0.030, 1e-14));
  CHECK_THAT(f.stock->sizes[0].wall, WithinRel(0.002, 1e-14));
  CHECK(f.stock->sizes[0].price == 7.5);
  CHECK(f.stock->sizes[1].shape == Shape::flat_bar);
  CHECK_THAT(f.stock->sizes[1].width, WithinRel(0.004, 1e-14));
  CHECK_FALSE(f.stock->sizes[1].price);
  CHECK_FALSE(read("stock: {length: long}\n").frame.stock);
}

TEST_CASE("a stock size of given properties is read in SI, what it does not give as not there") {
  const Frame f = read(
                      "stock: {sizes: [{shape: properties, A: 250, Iy: 3e4, Wply: 1800, Az: 130, "
                      "price: 9}, {shape: properties, A: 1 in2}]}\n")
                      .frame;
  REQUIRE(f.stock);
  REQUIRE(f.stock->sizes.size() == 2);
  const StockSize& size = f.stock->sizes[0];
  CHECK(size.shape == Shape::properties);
  CHECK(size.price == 9);
  CHECK_THAT(size.given.A, WithinRel(250e-6, 1e-14));
  CHECK_THAT(size.given.Iy, WithinRel(3e-8, 1e-14));
  CHECK_THAT(size.given.Wply, WithinRel(1.8e-6, 1e-14));
  CHECK_THAT(size.given.Az, WithinRel(130e-6, 1e-14));
  CHECK(size.given.Iz == 0);
  CHECK(size.given.It == 0);
  CHECK(size.given.Ay == rigid);
  CHECK_THAT(f.stock->sizes[1].given.A, WithinRel(0.0254 * 0.0254, 1e-14));
}

TEST_CASE("groups and what is kept are lists of members at their places in the file") {
  const Frame f = read("groups:\n  rails: [rail_l, rail_r]\n  posts: [post]\nkeep: [hoop]\n").frame;
  REQUIRE(f.groups.size() == 2);
  CHECK(f.groups[0].name == "rails");
  CHECK(f.groups[0].members == std::vector<std::string>{"rail_l", "rail_r"});
  CHECK(f.groups[0].place.line == 5);
  CHECK(f.groups[1].name == "posts");
  CHECK(f.keep.members == std::vector<std::string>{"hoop"});
  CHECK(f.keep.place.line == 7);
  CHECK(read("").frame.groups.empty());
  CHECK(read("").frame.keep.members.empty());
}

TEST_CASE("limits of displacement are read by case, node and direction") {
  const Frame f = read(
                      "limits:\n  displacement:\n    standing: {A: {x: 5, z: 1 cm}, B: {y: 2}}\n"
                      "    turning: {A: {z: 3}}\n")
                      .frame;
  REQUIRE(f.limits.displacements.size() == 3);
  const DisplacementLimit& first = f.limits.displacements[0];
  CHECK(first.load_case == "standing");
  CHECK(first.node == "A");
  CHECK_THAT(*first.most[0], WithinRel(0.005, 1e-14));
  CHECK_FALSE(first.most[1]);
  CHECK_THAT(*first.most[2], WithinRel(0.01, 1e-14));
  CHECK(first.place.line == 6);
  CHECK(f.limits.displacements[1].node == "B");
  CHECK(f.limits.displacements[2].load_case == "turning");
}

TEST_CASE("readings go to the gauge of their node, with the sign of ISO axes") {
  const std::string text =
      "bench_test: {weights: {B: 10, C: -5}, gauges: {A: x, B: y, C: z, D: z}, readings: {C: 3, A: "
      "1, B: 2}}\n";
  const Read iso = read(text), sae = read(text, true);
  REQUIRE(iso.frame.bench_test);
  REQUIRE(sae.frame.bench_test);
  CHECK(iso.frame.bench_test->weights ==
        std::vector<std::pair<std::string, double>>{{"B", 10}, {"C", -5}});
  const auto& gauges = iso.frame.bench_test->gauges;
  REQUIRE(gauges.size() == 4);
  for (std::size_t i = 0; i < 3; ++i) {
    CHECK(gauges[i].direction == static_cast<int>(i));
    CHECK_THAT(*gauges[i].reading, WithinRel(1e-3 * (1.0 + static_cast<double>(i)), 1e-14));
    // Half a turn about x: y and z change sign.
    const double sign = i == 0 ? 1 : -1;
    CHECK(*sae.frame.bench_test->gauges[i].reading == sign * *gauges[i].reading);
  }
  CHECK_FALSE(gauges[3].reading);
  CHECK(iso.diagnostics.empty());
}

TEST_CASE("a reading where no gauge stands is a fault at its place") {
  const Read r = read("bench_test:\n  weights: {B: 10}\n  gauges: {A: x}\n  readings: {B: 1}\n");
  REQUIRE(r.diagnostics.size() == 1);
  CHECK(r.diagnostics[0].place.line == 7);
  CHECK_THAT(r.diagnostics[0].message, ContainsSubstring("a reading at `B`"));
}

}  // namespace tubewright::read_studies_test
