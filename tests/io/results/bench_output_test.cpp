// What `bench-test` prints and writes, from a study filled in by hand; units by hand.
#include "io/results/bench_output.h"

#include <nlohmann/json.hpp>
#include <numbers>
#include <sstream>

#include "tests/catch.h"

namespace tubewright::bench_output_test {

using nlohmann::json;

namespace {

constexpr double degree = std::numbers::pi / 180;

Frame bench() {
  Frame f;
  f.title = "Bench";
  f.bench_test = BenchTest{{{"fl", 20}, {"fr", -20}}, {}};
  return f;
}

BenchStudy predicted() {
  BenchStudy s;
  s.gauges = {{"fl", 2, -0.0012345, {}}, {"mid", 0, 0.0001, {}}, {"fr", 2, 0.0012, {}}};
  return s;
}

/// Gauges at both ends were read; what fits them best are soft joints.
BenchStudy read() {
  BenchStudy s = predicted();
  s.gauges[0].reading = -0.0015;
  s.gauges[2].reading = 0.0014;
  BenchFit joints;
  joints.stiffness = 100 / degree;
  joints.predicted = {-0.00149, 0.00141};
  joints.rms_before = 0.00025;
  joints.rms_after = 0.00001;
  joints.torsional_stiffness = 432 / degree;
  BenchFit rivet_fit = joints;
  rivet_fit.kind = FitKind::rivets;
  rivet_fit.state = FitState::hardly_explains;
  rivet_fit.stiffness = 2.5e6;
  s.fits = {joints, rivet_fit};
  s.measured_stiffness = 400 / degree;
  s.model_stiffness = 500 / degree;
  s.rear_was_measured = true;
  return s;
}

std::string line_with(const std::string& text, const std::string& part) {
  std::istringstream lines(text);
  for (std::string line; std::getline(lines, line);) {
    if (line.find(part) != std::string::npos) return line;
  }
  return {};
}

}  // namespace

TEST_CASE("predicted readings are told in mm, one a line") {
  CHECK(bench_lines(predicted()) ==
        "fl z -1.2345 mm\n"
        "mid x 0.1000 mm\n"
        "fr z 1.2000 mm\n");
}

TEST_CASE("before anything was read the text tells weights, hold and predictions alone") {
  BenchStudy s = predicted();
  const std::string text = bench_text(bench(), s, {});
  CHECK_THAT(text, ContainsSubstring("the frame held by its supports\n"));
  CHECK_THAT(text, ContainsSubstring("  20.00 kg hung on fl\n  20.00 kg lifting fr\n"));
  CHECK(line_with(text, "  fl ") == "  fl     z         -1.2345");
  CHECK_THAT(text, !ContainsSubstring("What the readings tell"));
  s.held_by_supports = false;
  CHECK_THAT(bench_text(bench(), s, {}), ContainsSubstring("on stands under the rear pair"));
}

TEST_CASE("a gauge that was read stands beside its prediction, the difference and each fit") {
  const std::string text = bench_text(bench(), read(), {});
  CHECK(line_with(text, "  fl ") ==
        "  fl     z         -1.2345     -1.5000     -0.2655     -1.4900     -1.4900");
  CHECK(line_with(text, "  fr ") ==
        "  fr     z          1.2000      1.4000      0.2000      1.4100      1.4100");
  CHECK(line_with(text, "  mid ") == "  mid    x          0.1000");  // no reading, no fit
  CHECK(line_with(text, "  gauge").ends_with("joints fit  rivets fit  mm"));
}

TEST_CASE("fits are told by what they found, in workshop units") {
  const std::string text = bench_text(bench(), read(), {});
  CHECK_THAT(text, ContainsSubstring("flexibility of the welded joints: 100 N m/deg at each tube"));
  CHECK_THAT(text, ContainsSubstring("0.2500 mm before, 0.0100 mm after"));
  CHECK_THAT(text, ContainsSubstring("torsional stiffness so corrected 432 N m/deg"));
  CHECK_THAT(text,
             ContainsSubstring("stiffness of the rivets: 2.50 kN/mm a rivet comes closest, but"));
  CHECK_THAT(text, ContainsSubstring(
                       "from the readings 400 N m/deg, by the model on the same stands 500\n"));
  BenchStudy s = read();
  s.rear_was_measured = false;
  CHECK_THAT(bench_text(bench(), s, {}), ContainsSubstring("no gauges at the rear pair"));
  for (const auto& [state, words] : {std::pair{FitState::at_the_stiff_end, "as stiff as the model"},
                                     {FitState::at_the_soft_end, "softer than even 100 N m/deg"},
                                     {FitState::insensitive, "hardly depend on it"}}) {
    s.fits.resize(1);
    s.fits[0].state = state;
    CHECK_THAT(bench_text(bench(), s, {}), ContainsSubstring(words));
    CHECK_THAT(bench_text(bench(), s, {}), !ContainsSubstring("so corrected"));
  }
}

TEST_CASE("the JSON of a bench test holds gauges in mm and fits with their state") {
  const json answer = json::parse(bench_json(bench(), read(), {}));
  const json& test = answer.at("bench_test");
  CHECK(test.at("held_by") == "supports");
  const json fl = test.at("gauges").at("fl");
  CHECK(fl.at("direction") == "z");
  CHECK_THAT(fl.at("predicted").get<double>(), WithinRel(-1.2345, 1e-12));
  CHECK_THAT(fl.at("reading").get<double>(), WithinRel(-1.5, 1e-12));
  CHECK_THAT(fl.at("residual").get<double>(), WithinRel(-0.2655, 1e-9));
  CHECK(test.at("gauges").at("mid").at("reading").is_null());
  CHECK(test.at("gauges").at("mid").at("residual").is_null());
  const json joints = test.at("fits").at(0), rivet_fit = test.at("fits").at(1);
  CHECK(joints.at("fitted") == "joints");
  CHECK(joints.at("state") == "found");
  CHECK_THAT(joints.at("joint_stiffness").get<double>(), WithinRel(100.0, 1e-12));
  CHECK_THAT(joints.at("rms_before").get<double>(), WithinRel(0.25, 1e-12));
  CHECK_THAT(joints.at("torsional_stiffness").get<double>(), WithinRel(432.0, 1e-12));
  CHECK(rivet_fit.at("state") == "hardly_explains");
  CHECK_THAT(rivet_fit.at("rivet_stiffness").get<double>(), WithinRel(2.5, 1e-12));
  CHECK_FALSE(rivet_fit.contains("joint_stiffness"));
  CHECK_THAT(test.at("measured_stiffness").get<double>(), WithinRel(400.0, 1e-12));
  const json bare = json::parse(bench_json(bench(), predicted(), {})).at("bench_test");
  CHECK(bare.at("fits") == json::array());
  CHECK(bare.at("model_stiffness").is_null());
}

namespace {

BenchStudy read_both(BothState state) {
  BenchStudy s = read();
  BenchFitOfBoth both;
  both.state = state;
  both.joint_stiffness = 60 / degree;
  both.rivet_stiffness = 1.5e6;
  both.condition = 3.25;
  both.joints_moved_by = 1.2;
  both.rivets_moved_by = 1.5;
  both.predicted = {-0.0015, 0.0014};
  both.rms_before = 0.00025;
  both.rms_after = 0.000002;
  both.torsional_stiffness = 410 / degree;
  s.both = both;
  return s;
}

}  // namespace

TEST_CASE("joints and rivets together: both values, or why there are none") {
  const std::string text = bench_text(bench(), read_both(BothState::found), {});
  CHECK_THAT(text,
             ContainsSubstring("both together: 60.0 N m/deg at each tube end and 1.50 kN/mm"));
  CHECK_THAT(text, ContainsSubstring("0.2500 mm before, 0.0020 mm after"));
  CHECK_THAT(text, ContainsSubstring("factors of up to 1.20 and 1.50"));
  CHECK_THAT(text, ContainsSubstring("so corrected 410 N m/deg"));
  for (const auto& [state, words] :
       {std::pair{BothState::too_few_readings, "read three gauges or more"},
        {BothState::not_told_apart, "soft joints look like"},
        {BothState::joints_not_told, "go by the rivets alone"},
        {BothState::rivets_not_told, "go by the joints alone"},
        {BothState::neither_told, "hardly depend on either"},
        {BothState::hardly_explains, "look elsewhere first"}}) {
    const std::string told = bench_text(bench(), read_both(state), {});
    CHECK_THAT(told, ContainsSubstring(words));
    CHECK_THAT(told, !ContainsSubstring("so corrected 410"));
  }
}

TEST_CASE(
    "the JSON of a bench test holds joints and rivets together, null where nothing is fitted") {
  const auto both_of = [](const BenchStudy& s) {
    return json::parse(bench_json(bench(), s, {})).at("bench_test").at("both");
  };
  const json both = both_of(read_both(BothState::found));
  CHECK(both.at("state") == "found");
  CHECK_THAT(both.at("joint_stiffness").get<double>(), WithinRel(60.0, 1e-12));
  CHECK_THAT(both.at("rivet_stiffness").get<double>(), WithinRel(1.5, 1e-12));
  CHECK(both.at("condition") == 3.25);
  CHECK(both.at("moved_by") == json({1.2, 1.5}));
  CHECK_THAT(both.at("rms_after").get<double>(), WithinRel(0.002, 1e-12));
  CHECK_THAT(both.at("torsional_stiffness").get<double>(), WithinRel(410.0, 1e-12));
  CHECK(both_of(read_both(BothState::too_few_readings)).at("joint_stiffness").is_null());
  CHECK(both_of(read()).is_null());
}

}  // namespace tubewright::bench_output_test
