// What `twist` prints and writes, from a study filled in by hand; degrees by hand.
#include "io/results/torsion_output.h"

#include <limits>
#include <numbers>

#include "tests/catch.h"
#include "tests/io/text_lines.h"

namespace tubewright::torsion_output_test {

using testing::line_with;

using nlohmann::json;

namespace {

constexpr double degree = std::numbers::pi / 180;

Frame box() {
  Frame f;
  f.title = "Box";
  for (const char* name : {"rl", "rr", "ml", "mr", "fl", "fr"}) f.nodes.push_back({name, {}, {}});
  for (const char* name : {"rail", "post"}) {
    Member m;
    m.name = name;
    f.members.push_back(m);
  }
  f.panels.push_back({"floor", {}, "sheet", {}});
  f.torsion = TorsionTest{{"fl", "fr"}, {"rl", "rr"}, 100, {}};
  return f;
}

/// 100 N m twist the frame by 0.2 degrees: 500 N m/deg.
TorsionStudy study() {
  TorsionStudy s;
  Torsion& t = s.test;
  t.couple = 100;
  t.twist = 0.2 * degree;
  t.stiffness = 500 / degree;
  t.profile = {{-1.0, 0, {0, 1}}, {-0.4, 0.05 * degree, {2, 3}}, {0, 0.2 * degree, {4, 5}}};
  t.bays = {{0, 1, 0.05 * degree, 0.05 / 0.6 * degree, 0.25},
            {1, 2, 0.15 * degree, 0.15 / 0.4 * degree, 0.75}};
  t.weakest = 1;
  t.member_share = {0.25, 0.15};
  t.panel_share = {0.6};
  s.other_hold = 750 / degree;
  s.without_panels = 100 / degree;
  s.mass.tubes = 8;
  s.mass.panels = 2;
  s.support.reason = "the file has no vehicle";
  return s;
}

}  // namespace

TEST_CASE("torsional stiffness is told in N m/deg with how the frame is held and what is wanted") {
  Frame f = box();
  TorsionStudy s = study();
  CHECK(torsion_line(f, s) == "500 N m/deg (free to warp)\n");
  s.test.hold = TorsionHold::clamped;
  CHECK(torsion_line(f, s) == "500 N m/deg (rear pair clamped)\n");
  f.limits.torsional_stiffness = 400 / degree;
  CHECK(torsion_line(f, s) == "500 N m/deg (rear pair clamped), of the 400 N m/deg asked for\n");
  f.limits.torsional_stiffness = 600 / degree;
  CHECK(torsion_line(f, s) ==
        "500 N m/deg (rear pair clamped), FAIL: less than the 600 N m/deg asked for\n");
}

TEST_CASE("the text tells twist, the other hold, stiffness for its mass and what panels do") {
  const std::string text = torsion_text(box(), study(), {});
  CHECK_THAT(text, ContainsSubstring("twist 0.2000 deg under 100.0 N m, between the pairs fl/fr"));
  CHECK_THAT(text, ContainsSubstring("750 N m/deg with the rear pair clamped"));
  CHECK_THAT(text, ContainsSubstring("  50.0 N m/deg for each of its 10.00 kg\n"));
  CHECK_THAT(text, ContainsSubstring("without its panels: they make it 5.00 times as stiff"));
  CHECK_THAT(text, ContainsSubstring("not found: the file has no vehicle"));
  TorsionStudy s = study();
  s.without_panels.reset();
  s.test.hold = TorsionHold::clamped;
  s.test.buckling_couple = 80;
  s.test.first_to_buckle = 0;
  s.test.secant_stiffness = 450 / degree;
  const std::string other = torsion_text(box(), s, {});
  CHECK_THAT(other, ContainsSubstring("without its panels the frame is loose"));
  CHECK_THAT(other, ContainsSubstring("750 N m/deg free to warp, as on its wheels"));
  CHECK_THAT(other, ContainsSubstring("first sheet to buckle is floor, at 80.0 N m"));
  CHECK_THAT(other, ContainsSubstring("under 100.0 N m: 450 N m/deg"));
}

TEST_CASE("the profile shows twist station by station and marks the weakest bay") {
  const std::string text = torsion_text(box(), study(), {});
  CHECK(line_with(text, "rl, rr") == "   -1000      0.0000             0.0833   25.0 %  rl, rr");
  CHECK(line_with(text, "ml, mr  <-") ==
        "    -400      0.0500             0.3750   75.0 %  ml, mr  <- weakest bay ahead");
  CHECK_THAT(text,
             ContainsSubstring("x -400 to 0 mm, between ml, mr and fl, fr: 75 % of the twist"));
}

TEST_CASE("where the work goes is ranked over members and panels") {
  const std::string text = torsion_text(box(), study(), {});
  CHECK(text.find("60.0 %  floor (sheet and joint)") < text.find("25.0 %  rail"));
  CHECK(text.find("25.0 %  rail") < text.find("15.0 %  post"));
  Frame f = box();
  TorsionStudy s = study();
  s.test.panel_share = {0.19};
  for (int i = 0; i < 8; ++i) {  // nine members of 0.09 each with the first two
    Member m;
    m.name = "more" + std::to_string(i);
    f.members.push_back(m);
  }
  s.test.member_share.assign(9, 0.09);
  CHECK_THAT(torsion_text(f, s, {}), ContainsSubstring("   18.0 %  the other 2\n"));
}

TEST_CASE("the JSON on torsion is in N m/deg, degrees and mm, stiffness by hold") {
  Frame f = box();
  f.limits.torsional_stiffness = 600 / degree;
  const json answer = json::parse(torsion_json(f, study(), {}));
  CHECK(answer.at("passes") == false);
  CHECK(answer.at("mass").at("panels") == 2.0);
  const json& t = answer.at("torsion");
  CHECK(t == json(torsion_part(f, study())));
  const auto is = [&](const char* key, double value) {
    INFO(key);
    CHECK_THAT(t.at(key).get<double>(), WithinRel(value, 1e-12));
  };
  is("stiffness", 500);
  is("stiffness_free", 500);
  is("stiffness_clamped", 750);
  is("wanted", 600);
  is("twist", 0.2);
  is("couple", 100);
  is("without_panels", 100);
  CHECK(t.at("hold") == "free");
  CHECK(t.at("first_buckling_couple").is_null());
  CHECK(t.at("profile").at(1).at("nodes") == json({"ml", "mr"}));
  CHECK_THAT(t.at("profile").at(1).at("x").get<double>(), WithinRel(-400.0, 1e-12));
  CHECK_THAT(t.at("bays").at(1).at("twist_per_m").get<double>(), WithinRel(0.375, 1e-12));
  CHECK(t.at("bays").at(1).at("weakest") == true);
  CHECK(t.at("bays").at(0).at("weakest") == false);
  CHECK(t.at("member_energy") == json({{"rail", 0.25}, {"post", 0.15}}));
  CHECK(t.at("panel_energy") == json({{"floor", 0.6}}));
  CHECK(t.at("roll_support") == json({{"reason", "the file has no vehicle"}}));
  TorsionStudy clamped = study();
  clamped.test.hold = TorsionHold::clamped;
  CHECK_THAT(torsion_part(f, clamped).at("stiffness_free").get<double>(), WithinRel(750.0, 1e-12));
}

TEST_CASE("what stiffness is for is told by axle, rigid ones in a word and as null") {
  TorsionStudy s = study();
  RollSupport r;
  r.sprung = true;
  r.front = 200 / degree;
  r.rear = std::numeric_limits<double>::infinity();
  r.front_share = 0.55;
  r.kept = 0.8;
  r.lifting_couple = 123;
  r.lifting_bump = 0.045;
  s.support = {r, ""};
  const std::string text = torsion_text(box(), s, {});
  CHECK_THAT(text, ContainsSubstring("front 200 N m/deg, rear rigid (no `tyre_rate`"));
  CHECK_THAT(text,
             ContainsSubstring("80 % of the intended roll-stiffness balance (front share 0.55)"));
  CHECK_THAT(text, ContainsSubstring("a bump of 45.0 mm"));
  const json told = json(torsion_part(box(), s)).at("roll_support");
  CHECK_THAT(told.at("front").get<double>(), WithinRel(200.0, 1e-12));
  CHECK(told.at("rear").is_null());
  CHECK(told.at("balance_kept") == 0.8);
  CHECK_THAT(told.at("lifting_bump").get<double>(), WithinRel(45.0, 1e-12));
  CHECK(told.at("tyres_known") == false);
}

}  // namespace tubewright::torsion_output_test
