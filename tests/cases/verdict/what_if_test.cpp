#include "cases/verdict/what_if.h"

#include <algorithm>

#include "cases/analysis/analysis.h"
#include "cases/model/build_model.h"
#include "tests/cases/clad_frames.h"
#include "tests/catch.h"

namespace tubewright::what_if_test {

using namespace tubewright::testing;

namespace {

const WhatIf& row(const std::vector<WhatIf>& rows, const std::string& words) {
  const auto found = std::find_if(rows.begin(), rows.end(), [&](const WhatIf& w) {
    return w.words.find(words) != std::string::npos;
  });
  REQUIRE(found != rows.end());
  REQUIRE(found->worst);
  return *found;
}

/// A cantilever that carries a mass at its tip; nothing else weighs anything.
Frame loaded_arm() {
  Frame f = empty_frame();
  MaterialEntry light;
  light.name = "light";
  light.properties = {210e9, 81e9, 1e-3, 235e6, 360e6};
  f.materials.push_back(light);
  f.sections.front().material = "light";
  add_node(f, "root", 0, 0, 0);
  add_node(f, "tip", 1, 0, 0);
  add_member(f, "arm", "root", "tip");
  f.supports.push_back({"root", {true, true, true, true, true, true}, {}, {}});
  CarriedMass crate;
  crate.name = "crate";
  crate.mass = 5;
  crate.at = {1, 0, 0};
  crate.on = {"tip"};
  f.masses.push_back(crate);
  add_case(f, "standing").gravity = {0, 0, -1};
  return f;
}

}  // namespace

TEST_CASE("a fifth more mass is a fifth more of the limit, thinner walls the ratio of the moduli") {
  const Frame f = loaded_arm();
  const std::vector<WhatIf> rows = what_ifs(answer_of(analyse(f)), {});
  const double drawn = rows.front().worst->utilisation;
  CHECK(rows.front().words == "as drawn");
  CHECK(rows.front().worst->load_case == "standing");
  CHECK_THAT(row(rows, "20 % heavier").worst->utilisation, WithinRel(1.2 * drawn, 1e-4));
  Frame thin = f;
  thin.sections.front().wall *= 0.9;
  const double ratio = build_model(f).model.sections[0].Wy / build_model(thin).model.sections[0].Wy;
  CHECK_THAT(row(rows, "10 % thinner").worst->utilisation, WithinRel(ratio * drawn, 1e-2));
  CHECK_THAT(row(rows, "together").worst->utilisation, WithinRel(1.2 * ratio * drawn, 1e-2));
}

TEST_CASE("joints are tried rigid and half as stiff, or, drawn rigid, as soft as their geometry") {
  Frame f = loaded_arm();  // and a prop from its middle to the wall, square to it
  f.members.front().to = "middle";
  add_node(f, "middle", 0.5, 0, 0);
  add_node(f, "wall", 0.5, 0, 0.4);
  f.members.front().tube = "arm";
  add_member(f, "arm.2", "middle", "tip").tube = "arm";
  add_member(f, "prop", "middle", "wall");
  f.supports.push_back({"wall", {true, true, true, true, true, true}, {}, {}});
  const std::vector<WhatIf> of_rigid = what_ifs(answer_of(analyse(f)), {});
  f.joint_flexibility = 1;
  const std::vector<WhatIf> rows = what_ifs(answer_of(analyse(f)), {});
  CHECK_THAT(row(rows, "joints rigid").worst->utilisation,
             WithinRel(of_rigid.front().worst->utilisation, 1e-9));
  CHECK_THAT(row(of_rigid, "by their geometry").worst->utilisation,
             WithinRel(rows.front().worst->utilisation, 1e-9));
  Frame softer = f;
  softer.joint_flexibility = 2;
  CHECK_THAT(row(rows, "half as stiff").worst->utilisation,
             WithinRel(worst_of_all(answer_of(analyse(softer)))->utilisation, 1e-9));
}

TEST_CASE("a frame without joints is not tried with other ones") {
  for (const WhatIf& w : what_ifs(answer_of(analyse(loaded_arm())), {})) {
    CHECK(w.words.find("joint") == std::string::npos);
  }
}

TEST_CASE("rows that do not touch the frame are left out") {
  Frame f = loaded_arm();
  f.masses.clear();
  f.sections.front().shape = Shape::round_bar;
  f.sections.front().wall = 0;
  for (const WhatIf& w : what_ifs(answer_of(analyse(f)), {})) {
    CHECK(w.words.find("wall") == std::string::npos);
    CHECK(w.words.find("mass") == std::string::npos);
    CHECK(w.words.find("rivet") == std::string::npos);
  }
}

TEST_CASE("guessed rivets are tried at both ends of their band") {
  Frame f = clad_ladder();
  for (const char* node : {"l3_l", "l3_r"}) {
    f.supports.push_back({node, {true, true, true, true, true, true}, {}, {}});
  }
  add_case(f, "twist").forces = {{"l1_l", {0, 0, 50}, {}}, {"l1_r", {0, 0, -50}, {}}};
  const std::vector<WhatIf> rows = what_ifs(answer_of(analyse(f)), {});
  CHECK(row(rows, "soft end").worst);
  CHECK(row(rows, "stiff end").worst);
}

}  // namespace tubewright::what_if_test
