#include "cases/studies/bench_study.h"

#include <cmath>

#include "cases/model/build_model.h"
#include "tests/cases/clad_frames.h"
#include "tests/catch.h"
#include "tests/truth.h"

namespace tubewright::bench_study_test {

using namespace tubewright::testing;

namespace {

constexpr Source closed_form = rederived("P L3/(3 E I), any handbook");

BenchStudy studied(const Frame& frame) { return answer_of(bench_study(frame)); }

/// A box twisted by 20 kg on each side of its front end, held at the rear.
Frame on_the_bench(Frame f) {
  f.bench_test = BenchTest{
      {{"l1_l", 20}, {"l1_r", -20}},
      {{"l1_l", 2, {}}, {"l1_r", 2, {}}, {"l2_l", 2, {}}, {"l4_l", 2, {}}, {"l4_r", 2, {}}}};
  return f;
}

/// The frame with the readings that another frame would give.
Frame with_readings_of(Frame f, const Frame& truth) {
  const BenchStudy s = studied(truth);
  for (size_t i = 0; i < s.gauges.size(); ++i) {
    f.bench_test->gauges[i].reading = s.gauges[i].predicted;
  }
  return f;
}

}  // namespace

TEST_CASE("a gauge at the tip of a cantilever reads P L^3/(3 E I) and the shear", "[truth]") {
  Frame f = empty_frame();
  add_node(f, "wall", 0, 0, 0);
  add_node(f, "tip", 0.8, 0, 0);
  add_member(f, "arm", "wall", "tip");
  f.sections.front().shear = false;
  f.supports.push_back({"wall", {true, true, true, true, true, true}, {}, {}});
  f.bench_test = BenchTest{{{"tip", 5}}, {{"tip", 2, {}}}};
  const NumberedFrame n = build_model(f);
  const double EI = n.model.materials[0].E * n.model.sections[0].Iy;
  const BenchStudy s = studied(f);
  CHECK(s.held_by_supports);
  truth("gauge at the tip of a cantilever, m", closed_form, s.gauges.front().predicted,
        within_rel(-5 * 9.80665 * 0.8 * 0.8 * 0.8 / (3 * EI), 1e-9));
  CHECK(s.fits.empty());

  // With the joint at the wall on a spring c the tip goes down by P L^2/c more: the fit finds c.
  const double c = 4000;
  f.bench_test->gauges.front().reading = s.gauges.front().predicted - 5 * 9.80665 * 0.8 * 0.8 / c;
  const BenchStudy fitted = studied(f);
  REQUIRE(fitted.fits.size() == 1);
  CHECK(fitted.fits.front().state == FitState::found);
  CHECK_THAT(fitted.fits.front().stiffness, WithinRel(c, 1e-4));
  CHECK(fitted.fits.front().rms_after < 1e-4 * fitted.fits.front().rms_before);
}

TEST_CASE("without supports the rear pair of the torsion test holds the frame") {
  const BenchStudy s = studied(on_the_bench(open_box()));
  CHECK_FALSE(s.held_by_supports);
  CHECK(s.gauges[0].predicted < 0);
  CHECK_THAT(s.gauges[1].predicted, WithinRel(-s.gauges[0].predicted, 0.2));
  CHECK(s.gauges[3].predicted == 0);
  REQUIRE(s.model_stiffness);
  CHECK_FALSE(s.measured_stiffness);
}

TEST_CASE("a stand may hold a node of a rigid upright, whichever of its nodes comes first") {
  const auto gauges = [](std::vector<std::string> carrier) {
    Frame f = on_the_bench(open_box());
    f.vehicle = Vehicle{};
    Wheel wheel;
    wheel.name = "rear_left";
    wheel.carrier = std::move(carrier);
    wheel.hold = WheelHold::rigid_upright;
    f.vehicle->wheels.push_back(wheel);
    return studied(f).gauges;
  };
  const auto first = gauges({"l4_l", "h4_l"}), second = gauges({"h4_l", "l4_l"});
  REQUIRE(first.size() == second.size());
  for (size_t i = 0; i < first.size(); ++i) {
    CHECK_THAT(second[i].predicted, WithinAbs(first[i].predicted, 1e-12));
  }
  CHECK(second[3].predicted == 0);
  CHECK(second[0].predicted < 0);
}

TEST_CASE("soft joints are found again from the readings they give") {
  const Frame truth = on_the_bench(with_joint_stiffness(open_box(), 3000));
  const BenchStudy s = studied(with_readings_of(on_the_bench(open_box()), truth));
  REQUIRE_FALSE(s.fits.empty());
  CHECK(s.fits.front().kind == FitKind::joints);
  CHECK(s.fits.front().state == FitState::found);
  CHECK_THAT(s.fits.front().stiffness, WithinRel(3000.0, 0.01));
  REQUIRE(s.measured_stiffness);
  CHECK(s.rear_was_measured);
  CHECK(*s.measured_stiffness < *s.model_stiffness);
}

TEST_CASE("soft rivets are found again, and joints explain them less well") {
  Frame soft = on_the_bench(clad_box());
  soft.sheets.front().rivet->stiffness = 0.8e6;
  const BenchStudy s = studied(with_readings_of(on_the_bench(clad_box()), soft));
  REQUIRE(s.fits.size() == 2);
  CHECK(s.fits.front().kind == FitKind::rivets);
  CHECK_THAT(s.fits.front().stiffness, WithinRel(0.8e6, 0.01));
  REQUIRE(s.fits.front().torsional_stiffness);
}

TEST_CASE("soft joints and soft rivets are both found again where gauges see them apart") {
  // Held at its rear, twisted and bent: bending works the joints of the open sides' chords, twist
  // the rivets of the floor.
  Frame f = on_the_bench(clad_box());
  f.bench_test->weights = {{"l1_l", 40}, {"l1_r", -10}, {"h2_r", 30}};
  f.bench_test->gauges.clear();
  for (const char* node : {"l1_l", "l1_r", "l2_l", "l2_r", "h2_r", "h3_l", "l3_l"}) {
    for (const int direction : {0, 1, 2}) f.bench_test->gauges.push_back({node, direction, {}});
  }
  Frame truth = with_joint_stiffness(f, 3000);
  truth.sheets.front().rivet->stiffness = 0.8e6;
  const BenchStudy s = studied(with_readings_of(f, truth));
  REQUIRE(s.both);
  CHECK(s.both->state == BothState::found);
  CHECK_THAT(s.both->joint_stiffness, WithinRel(3000.0, 0.01));
  CHECK_THAT(s.both->rivet_stiffness, WithinRel(0.8e6, 0.01));
  CHECK(s.both->condition < 10);
  CHECK(s.both->rms_after < 1e-3 * s.both->rms_before);
  for (const BenchFit& one : s.fits) CHECK(s.both->rms_after < one.rms_after);
  CHECK(s.both->joints_moved_by > 1);
  REQUIRE(s.both->torsional_stiffness);
}

TEST_CASE("gauges that see one motion cannot tell joints from rivets, and two gauges nothing") {
  // A clad bay that stands out from a wall: its welded corners and its sheet hold it up side by
  // side.
  Frame f = empty_frame();
  add_node(f, "low", 0, 0, 0);
  add_node(f, "high", 0, 0, 0.4);
  add_node(f, "low_tip", 0.6, 0, 0);
  add_node(f, "high_tip", 0.6, 0, 0.4);
  for (const auto& [from, to] : {std::pair{"low", "low_tip"},
                                 {"high", "high_tip"},
                                 {"low_tip", "high_tip"},
                                 {"low", "high"}}) {
    add_member(f, std::string(from) + "-" + to, from, to);
  }
  for (const char* node : {"low", "high"}) {
    f.supports.push_back({node, {true, true, true, true, true, true}, {}, {}});
  }
  add_sheet(f, "web").rivet = rivets(0.004, 0.040);
  add_panel(f, "p", "web", {"low", "low_tip", "high_tip", "high"});
  f.bench_test = BenchTest{{{"low_tip", 20}, {"high_tip", 20}},
                           {{"low_tip", 2, {}}, {"high_tip", 2, {}}, {"low_tip", 2, {}}}};
  Frame truth = with_joint_stiffness(f, 2000);
  truth.sheets.front().rivet->stiffness = 1e4;
  f = with_readings_of(f, truth);
  const BenchStudy s = studied(f);
  REQUIRE(s.both);
  INFO("condition " << s.both->condition << ", joints " << s.both->joint_stiffness << ", rivets "
                    << s.both->rivet_stiffness);
  CHECK(s.both->state == BothState::not_told_apart);
  CHECK(s.both->condition > 10);
  f.bench_test->gauges.resize(2);
  CHECK(studied(f).both->state == BothState::too_few_readings);
  CHECK_FALSE(studied(with_readings_of(on_the_bench(open_box()), on_the_bench(open_box()))).both);
}

TEST_CASE("rigid joints are not told, however the rivets are") {
  Frame f = on_the_bench(clad_box());
  Frame truth = f;
  truth.sheets.front().rivet->stiffness = 0.8e6;
  const BenchStudy s = studied(with_readings_of(f, truth));
  REQUIRE(s.both);
  CHECK(s.both->state == BothState::joints_not_told);
  CHECK_THAT(s.both->rivet_stiffness, WithinRel(0.8e6, 0.02));
}

TEST_CASE("a frame stiffer than its model has no joint flexibility to find") {
  Frame stiff = open_box();
  stiff.sections.front().wall = 0.0018;
  const BenchStudy s = studied(with_readings_of(on_the_bench(open_box()), on_the_bench(stiff)));
  CHECK(s.fits.front().state == FitState::at_the_stiff_end);
}

TEST_CASE("readings that depend on nothing fitted are said to tell nothing") {
  Frame f = empty_frame();
  add_node(f, "A", 0, 0, 0);
  add_node(f, "B", 0.5, 0, 0);
  add_member(f, "rod", "A", "B");
  f.supports.push_back({"A", {true, true, true, true, true, true}, {}, {}});
  f.bench_test = BenchTest{{{"B", 10}}, {{"B", 0, {}}}};  // along the tube: no bending
  f.bench_test->gauges.front().reading = 1e-6;
  CHECK(studied(f).fits.front().state == FitState::insensitive);
}

TEST_CASE("joints inside a continuous tube and released ends stay as they are") {
  Frame f = empty_frame();
  for (int i = 0; i < 3; ++i)
    add_node(f, std::string(1, static_cast<char>('A' + i)), i * 0.5, 0, 0);
  add_member(f, "rail.1", "A", "B").tube = "rail";
  add_member(f, "rail.2", "B", "C").tube = "rail";
  f.members[1].release_to = {rigid, rigid, rigid, rigid, 0, rigid};
  const Frame soft = with_joint_stiffness(f, 1000);
  CHECK(soft.members[0].release_from[4] == 1000);
  CHECK(std::isinf(soft.members[0].release_to[4]));
  CHECK(std::isinf(soft.members[1].release_from[5]));
  CHECK(soft.members[1].release_to[4] == 0);
  CHECK(soft.members[1].release_to[5] == 1000);
  CHECK(std::isinf(soft.members[0].release_from[3]));
}

TEST_CASE("readings of a shape that no softness gives are said to be hardly explained") {
  Frame f = with_readings_of(on_the_bench(open_box()), on_the_bench(open_box()));
  // One side goes down far more than the twist, as if a stand had slipped.
  *f.bench_test->gauges[0].reading *= 1.2;
  *f.bench_test->gauges[2].reading *= 5;
  *f.bench_test->gauges[3].reading = 0.002;
  const BenchStudy s = studied(f);
  REQUIRE_FALSE(s.fits.empty());
  for (const BenchFit& fit : s.fits) {
    CHECK((fit.state == FitState::hardly_explains || fit.state == FitState::at_the_stiff_end));
    CHECK(fit.rms_after > 0.5 * fit.rms_before);
  }
}

}  // namespace tubewright::bench_study_test
