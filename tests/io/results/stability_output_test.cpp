// What `modes` and `buckle` print and write, from answers filled in by hand.
#include "io/results/stability_output.h"

#include <sstream>

#include "tests/catch.h"

namespace tubewright::stability_output_test {

using nlohmann::json;

namespace {

FrameModes two_modes() {
  FrameModes m;
  m.complete = true;
  m.modes = {{0, true, "rigid-body motion", 1, {}},
             {0, true, "rigid-body motion", 1, {}},
             {23.456, false, "first torsion", 0.914, {}},
             {140.4, false, "first vertical bending", 0.5, {}}};
  return m;
}

BuckleStudy three_cases() {
  BuckleStudy s;
  s.cases = {{"calm", {}, {}, true},
             {"brake", {12.5, 30}, {"strut", "rail"}, true},
             {"bump", {4, 6, 8}, {"post", "post", "rail"}, false}};
  return s;
}

Frame titled() {
  Frame f;
  f.title = "Quad";
  return f;
}

std::string line_with(const std::string& text, const std::string& part) {
  std::istringstream lines(text);
  for (std::string line; std::getline(lines, line);) {
    if (line.find(part) != std::string::npos) return line;
  }
  return {};
}

}  // namespace

TEST_CASE("modes are listed with frequency, share and shape, rigid motions only counted") {
  Frame f = titled();
  FrameModes m = two_modes();
  const std::string text = modes_text(f, m, {});
  CHECK(text.starts_with("Quad\nfree, nothing holds it, with everything it carries\n"));
  CHECK_THAT(text, ContainsSubstring("  2 rigid-body motions at 0 Hz\n"));
  CHECK(line_with(text, "first torsion") == "      23.5    91 %  first torsion");
  CHECK(line_with(text, "vertical") == "       140    50 %  first vertical bending");
  CHECK_THAT(text, !ContainsSubstring("missing") && !ContainsSubstring("FAIL"));
  CHECK(modes_lines(m) == "23.5 Hz\n140 Hz\n");
  m.restrained = true;
  m.complete = false;
  f.limits.frequency = 25;
  CHECK_THAT(modes_text(f, m, {}), ContainsSubstring("held by its supports"));
  CHECK_THAT(modes_text(f, m, {}), ContainsSubstring("some are missing"));
  CHECK_THAT(modes_text(f, m, {}),
             ContainsSubstring("FAIL: the lowest is below the 25.0 Hz asked for"));
}

TEST_CASE("the frame's own modes stand beside those of the vehicle and count for the limit") {
  Frame f = titled();
  FrameModes m = two_modes();
  f.vehicle = Vehicle{};
  CHECK_THAT(modes_text(f, m, {}),
             ContainsSubstring("free, as on its wheels without tyres (no `tyre_rate`), with"));
  m.on_tyres = true;
  m.modes[2].words = "body bounce";
  m.own = {{80, false, "frame's own first torsion", 0.7, {}, true}};
  f.limits.frequency = 50;
  const std::string text = modes_text(f, m, {});
  CHECK_THAT(text, ContainsSubstring("free, as on its wheels, on its tyres, with everything"));
  CHECK_THAT(text, ContainsSubstring("the frame's own, tyres left out\n"));
  CHECK(line_with(text, "own first") == "      80.0    70 %  frame's own first torsion");
  CHECK_THAT(text, !ContainsSubstring("FAIL"));
  f.limits.frequency = 90;
  CHECK_THAT(modes_text(f, m, {}), ContainsSubstring("FAIL: the frame's own lowest is below the"));
  f.members.emplace_back().kind = MemberKind::spring;
  CHECK_THAT(modes_text(f, m, {}), ContainsSubstring("own, springs locked and tyres left out\n"));
  CHECK(modes_lines(m) == "23.5 Hz\n140 Hz\n80.0 Hz, frame's own first torsion\n");
  const json list = modes_list(m);
  REQUIRE(list.size() == 5);
  CHECK(list.at(3).at("name") == "frame's own first torsion");
  CHECK(list.at(3).at("frame_only") == true);
  CHECK(list.at(2).at("name") == "body bounce");
  CHECK(list.at(2).at("frame_only") == false);
}

TEST_CASE("modes in JSON hold every mode in Hz, the rigid ones too") {
  Frame f = titled();
  f.limits.frequency = 25;
  const FrameModes m = two_modes();
  const json answer = json::parse(modes_json(f, m, {}));
  CHECK(answer.at("passes") == false);
  CHECK(answer.at("modes_held") == false);
  CHECK(answer.at("modes_complete") == true);
  CHECK(answer.at("modes") == json(modes_list(m)));
  REQUIRE(answer.at("modes").size() == 4);
  CHECK(answer.at("modes").at(2) == json({{"frequency", 23.456},
                                          {"rigid", false},
                                          {"name", "first torsion"},
                                          {"frame_only", false},
                                          {"shape", "first torsion"},
                                          {"share", 0.914}}));
  CHECK(answer.at("modes").at(0).at("rigid") == true);
}

TEST_CASE("cases are told by their least factor, with what second order adds below ten") {
  const std::string lines = buckling_lines(three_cases());
  // 1/(1 - 1/4) - 1 = 33 %.
  CHECK(lines ==
        "calm: does not buckle under these loads\n"
        "brake: 12.5 times its loads, strut\n"
        "bump: 4.00 times its loads, post; second-order effects add 33 %\n");
  BuckleStudy s = three_cases();
  s.cases[2].in_suspension = {true, false, false};
  CHECK_THAT(buckling_lines(s), ContainsSubstring("loads, the suspension gives way, post; second"));
  s.cases[1].factors = {1.0};
  CHECK_THAT(buckling_lines(s), ContainsSubstring("1.00 times its loads, strut: BUCKLES\n"));
}

TEST_CASE("the text on buckling puts the least factor first and says what may be missing") {
  const std::string text = buckling_text(titled(), three_cases(), {});
  CHECK(text.find("bump") < text.find("brake"));
  CHECK(text.find("brake") < text.find("calm"));
  CHECK_THAT(text, ContainsSubstring("then 6.00, 8.00\n    the count says that some are missing"));
  CHECK_THAT(text, ContainsSubstring("then 30.0\n  calm"));
  CHECK_THAT(text, ContainsSubstring("no case buckles under its own loads\n"));
  BuckleStudy s = three_cases();
  s.cases[1].factors[0] = 0.5;
  CHECK_THAT(buckling_text(titled(), s, {}), ContainsSubstring("FAIL: some case buckles"));
}

TEST_CASE("buckling in JSON holds factors in the order of the file and their amplification") {
  const json answer = json::parse(buckling_json(titled(), three_cases(), {}));
  CHECK(answer.at("passes") == true);
  CHECK(answer.at("buckling") ==
        json({{"calm", json::array()}, {"brake", {12.5, 30.0}}, {"bump", {4.0, 6.0, 8.0}}}));
  const json bump = answer.at("buckling_details").at("bump");
  CHECK(bump.at("members") == json({"post", "post", "rail"}));
  CHECK(bump.at("complete") == false);
  CHECK(bump.at("in_suspension") == json::array());
  CHECK_THAT(bump.at("amplification").get<double>(), WithinRel(4.0 / 3, 1e-12));
  CHECK(answer.at("buckling_details").at("calm").at("amplification").is_null());
  const json list = buckling_list(three_cases());
  CHECK(list.at(0) == json({{"case", "bump"},
                            {"factors", {4.0, 6.0, 8.0}},
                            {"members", {"post", "post", "rail"}},
                            {"in_suspension", json::array()}}));
  CHECK(list.at(2).at("case") == "calm");
}

}  // namespace tubewright::stability_output_test
