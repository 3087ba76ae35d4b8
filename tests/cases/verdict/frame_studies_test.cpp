// All that is known of a frame: each part is what the study by itself says, and the verdict is one.
#include "cases/verdict/frame_studies.h"

#include "cases/model/build_model.h"
#include "tests/cases/clad_frames.h"
#include "tests/cases/small_frames.h"
#include "tests/catch.h"

namespace tubewright::frame_studies_test {

using namespace tubewright::testing;

namespace {

/// A cantilever of 1 m whose root sees 100 MPa in each of `cases`.
Frame arm(const std::vector<std::string>& cases) {
  Frame f = empty_frame();
  add_node(f, "root", 0, 0, 0);
  add_node(f, "tip", 1, 0, 0);
  add_member(f, "arm", "root", "tip");
  f.supports.push_back({"root", {true, true, true, true, true, true}, {}, {}});
  const double W = build_model(f).model.sections[0].Wy;
  for (const std::string& name : cases) {
    add_case(f, name).forces.push_back({"tip", {0, 0, -100e6 * W}, {}});
  }
  return f;
}

Life life_of(double cycles) {
  Life life;
  life.damage_tolerant = true;
  life.high_consequence = false;  // gamma_Mf = 1.0
  life.spectrum.push_back({"load", "", 0, cycles, {}});
  return life;
}

FrameStudies answered(Result<FrameStudies> outcome) {
  if (const auto* diagnostics = outcome.error()) FAIL(text_of(*diagnostics));
  return std::move(*outcome);
}

}  // namespace

TEST_CASE("a full check tells its steps in order, each load case with its number") {
  std::vector<std::string> steps;
  std::vector<size_t> numbers;
  const auto tell = [&](std::string_view step, size_t number, size_t count) {
    if (steps.empty() || steps.back() != step) steps.emplace_back(step);
    if (count == 0) return;
    CHECK(count == 3);
    numbers.push_back(number);
  };
  CHECK(answered(full_check(arm({"one", "two", "three"}), {}, {}, tell)).analysis.cases.size() ==
        3);
  CHECK(numbers == std::vector<size_t>{1, 2, 3});
  CHECK(steps == std::vector<std::string>{"solving load cases", "checking load case",
                                          "screening for fatigue",
                                          "what if it comes out otherwise"});
}

TEST_CASE("a life that is too short fails the frame though every case passes") {
  Frame f = arm({"load"});
  f.life = life_of(1e6);
  for (const FrameStudies& s : {answered(full_check(f)), answered(verdict_check(f))}) {
    CHECK(s.analysis.cases[0].passes());
    CHECK(s.verdict.answer == Verdict::Answer::fail);
  }
  f.life = life_of(10);
  CHECK(answered(verdict_check(f)).verdict.answer != Verdict::Answer::fail);
}

TEST_CASE("the verdict alone is that of the full check, without what the verdict does not need") {
  const FrameStudies quick = answered(verdict_check(arm({"load"})));
  const FrameStudies full = answered(full_check(arm({"load"})));
  CHECK(quick.verdict.answer == full.verdict.answer);
  CHECK(quick.verdict.not_proven == full.verdict.not_proven);
  CHECK(quick.analysis.cases[0].worst->utilisation == full.analysis.cases[0].worst->utilisation);
  CHECK(quick.what_ifs.empty());
  CHECK_FALSE(full.what_ifs.empty());
}

TEST_CASE("every study that was completed says what it says by itself") {
  const Frame box = clad_box();
  FrameStudies s = answered(full_check(box));
  CHECK_FALSE(s.torsion);
  complete_studies(s);
  REQUIRE(s.torsion);
  CHECK(s.torsion->test.stiffness == *torsional_stiffness(box));
  CHECK(*s.torsion->other_hold == *torsional_stiffness(box, TorsionHold::clamped));
  REQUIRE(s.floor);
  CHECK(*s.floor->usual.stiffness == s.torsion->test.stiffness);
  CHECK(*s.floor->without.stiffness == *s.torsion->without_panels);
  REQUIRE(s.modes);
  CHECK(lowest_elastic(*s.modes)->frequency == lowest_elastic(*frame_modes(box, 10))->frequency);
  REQUIRE(s.cut);
  CHECK(s.cut->mass == cut_list(box).mass);
  REQUIRE(s.sheets);
  CHECK(s.sheets->blanks.size() == 1);
}

TEST_CASE("a frame has the studies that it has what it takes for") {
  FrameStudies s = answered(full_check(arm({"load"})));
  complete_studies(s);
  CHECK_FALSE(s.torsion);
  CHECK_FALSE(s.floor);
  CHECK(s.modes);
  CHECK(s.buckling);
  CHECK(s.cut);
}

}  // namespace tubewright::frame_studies_test
