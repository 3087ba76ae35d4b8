#include "cases/joint_stiffness/end_fixity.h"

#include <limits>

#include "tests/catch.h"

namespace tubewright::end_fixity_test {

namespace {

/// E I/L = 1 N m about both axes.
Model beam_of_one() {
  Model model;
  model.nodes = {{0, 0, 0}, {2, 0, 0}};
  Section s;
  s.Iy = s.Iz = 2;
  model.sections = {s};
  Material m;
  m.E = 1;
  model.materials = {m};
  model.beams = {Beam{0, 1, 0, 0}};
  return model;
}

}  // namespace

TEST_CASE("an end is rigid, pinned, or half of each where it is three times as stiff as E I/L") {
  const Model model = beam_of_one();
  Beam b = model.beams[0];
  CHECK(end_fixity(model, b) == std::array<double, 2>{1, 1});
  b.connection_from[4] = 0;
  CHECK(end_fixity(model, b) == std::array<double, 2>{0, 1});
  b.connection_from[4] = 3;
  b.joint_to.bending = {0, 1.0 / 3};
  CHECK_THAT(end_fixity(model, b)[0], WithinRel(0.5, 1e-12));
  CHECK_THAT(end_fixity(model, b)[1], WithinRel(0.5, 1e-12));
}

TEST_CASE("a joint and a spring in series give way together") {
  const Model model = beam_of_one();
  Beam b = model.beams[0];
  b.connection_to[5] = 6;
  b.joint_to.bending = {1.0 / 6, 0};
  CHECK_THAT(end_fixity(model, b)[1], WithinRel(0.5, 1e-12));
}

}  // namespace tubewright::end_fixity_test
