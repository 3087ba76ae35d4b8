// Slips of units and factors: each of a sound frame changed in one place.
#include "cases/lint/input_doubts.h"

#include "cases/lint/lint.h"
#include "tests/cases/clad_frames.h"
#include "tests/cases/small_vehicles.h"
#include "tests/catch.h"

namespace tubewright::input_doubts_test {

using namespace tubewright::testing;

namespace {

std::string doubts(const Frame& f) { return text_of(input_doubts(f)); }

Frame scaled(Frame f, double factor) {
  for (Node& n : f.nodes) n.at *= factor;
  return f;
}

}  // namespace

TEST_CASE("sound frames and vehicles raise no doubt about their input") {
  CHECK(doubts(braced_rectangle()).empty());
  CHECK(doubts(box_vehicle()).empty());
}

TEST_CASE("coordinates in metres or in hundredths of a millimetre are told") {
  CHECK_THAT(doubts(scaled(braced_rectangle(), 1e-3)), ContainsSubstring("is this in metres?"));
  CHECK_THAT(doubts(scaled(braced_rectangle(), 100)),
             ContainsSubstring("the whole frame measures"));
}

TEST_CASE("a member shorter than a millimetre is told") {
  Frame f = braced_rectangle();
  add_node(f, "E", 0.6, 0.4, 1e-12);
  add_member(f, "nothing", "C", "E");
  CHECK_THAT(doubts(f), ContainsSubstring("member `nothing` is"));
}

TEST_CASE("masses in grams are told") {
  Frame f = box_vehicle();
  f.masses[0].mass = 85000;
  CHECK_THAT(doubts(f), ContainsSubstring("85000 kg"));
}

TEST_CASE("a friction that no tyre has is told, ice and slicks are not") {
  Frame f = box_vehicle();
  for (const double mu : {0.0, 0.001, 70.0}) {
    f.vehicle->friction = mu;
    CHECK_THAT(doubts(f), ContainsSubstring("is none that a tyre has"));
  }
  for (const double mu : {0.1, 0.8, 1.6}) {
    f.vehicle->friction = mu;
    CHECK(doubts(f).empty());
  }
}

TEST_CASE("a factor below 1 on the loads is told, of the file and of a case") {
  Frame f = braced_rectangle();
  f.limits.yield_factor = 0.01;
  CHECK_THAT(doubts(f), ContainsSubstring("`limits.yield_factor` asks for 0.01 times"));
  f.limits.yield_factor = 1;
  CHECK(doubts(f).empty());
  add_case(f, "easy").yield_factor = 0.5;
  CHECK_THAT(doubts(f), ContainsSubstring("`yield_factor` of case `easy`"));
}

TEST_CASE(
    "a sheet inside its tubes, or farther off than they are deep, is told; none given is not") {
  Frame f = clad_ladder();  // 1.2 mm on tubes that are square
  const double side = f.sections.front().height, touching = side / 2 + 0.0006;
  for (const double far : {touching - 0.0011, touching + side + 0.0001, 1.0}) {
    for (const double sign : {1.0, -1.0}) {
      f.sheets.front().offset = sign * far;
      INFO(far);
      CHECK_THAT(doubts(f), ContainsSubstring("sheet `floor`"));
    }
  }
  for (const double near : {0.0, touching - 0.0009, touching, touching + side - 0.0001}) {
    f.sheets.front().offset = near;
    INFO(near);
    CHECK(doubts(f).empty());
  }
}

TEST_CASE("doubts about the input are among the warnings of lint()") {
  Frame f = braced_rectangle();
  f.limits.yield_factor = 0.01;
  const Diagnostics all = lint(f);
  CHECK_THAT(text_of(all), ContainsSubstring("yield_factor"));
  for (const Diagnostic& d : all) CHECK(d.severity == Severity::warning);
}

}  // namespace tubewright::input_doubts_test
