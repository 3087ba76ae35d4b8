#include "viz/files/member_stations.h"

#include <Eigen/Geometry>
#include <algorithm>

#include "tests/catch.h"
#include "tests/viz/files/known_frames.h"

namespace tubewright::member_stations_test {

namespace {

BeamState loaded_at(const std::vector<double>& places) {
  BeamState beam;
  beam.element.L = 1;
  beam.end_forces.setZero();
  beam.end_displacements.setZero();
  for (const double at : places) beam.actions.points.push_back({at, {0, 0, -1}, {0, 0, 0}});
  return beam;
}

bool has_place(const std::vector<Cut>& list, double at) {
  return std::any_of(list.begin(), list.end(), [at](const Cut& c) { return c.at == at; });
}

double smallest_gap(const std::vector<Cut>& list) {
  double gap = 1;
  for (std::size_t i = 1; i < list.size(); ++i) gap = std::min(gap, list[i].at - list[i - 1].at);
  return gap;
}

const MemberDrawing& drawn(const Analysis& analysis, const CaseDrawing& drawing,
                           const std::string& name) {
  for (const MemberDrawing& m : drawing.members)
    if (analysis.frame.members[m.member].name == name) return m;
  throw std::runtime_error("no member " + name);
}

}  // namespace

TEST_CASE("an unloaded beam is cut at its ends and at the eighths between") {
  const std::vector<Cut> list = cuts(loaded_at({}), 0);
  REQUIRE(list.size() == 9);
  for (int i = 0; i <= 8; ++i) CHECK(list[i].at == i / 8.0);
}

TEST_CASE("every point load and the worst place are cut, and at least nine places in all") {
  const std::vector<double> loads = GENERATE(
      std::vector<double>{0.3}, std::vector<double>{0.5}, std::vector<double>{0.1251, 0.12505},
      std::vector<double>{0, 1}, std::vector<double>{1e-7, 1 - 1e-7, 0.25, 0.25});
  const double worst = GENERATE(0.0, 1.0, 0.4567, 0.49999999, 0.3);
  const std::vector<Cut> list = cuts(loaded_at(loads), worst);
  CHECK(list.size() >= 9);
  CHECK(list.front().at == 0);
  CHECK(list.back().at == 1);
  CHECK(has_place(list, worst));
  for (const double at : loads) CHECK(has_place(list, at));
  CHECK(smallest_gap(list) > 1e-9);
}

TEST_CASE("shear jumps by the load between the two sides of a point load") {
  const Analysis analysis = analysed(cantilever_frame());
  const CaseDrawing drawing = draw_case(analysis, analysis.cases[1], 2);
  const std::vector<Station>& stations = drawing.members[0].stations;
  const auto at_load =
      std::find_if(stations.begin(), stations.end(), [](const Station& s) { return s.at == 0.5; });
  REQUIRE(at_load != stations.end());
  REQUIRE(at_load != stations.begin());
  // Equilibrium of the outer part: V = the loads beyond the cut.
  CHECK_THAT((at_load - 1)->forces.Vz, WithinAbs(-400, 1e-6));
  CHECK_THAT(at_load->forces.Vz, WithinAbs(0, 1e-6));
  CHECK((at_load - 1)->at < 0.5);
  CHECK((at_load - 1)->at > 0.498);
}

TEST_CASE("the last section of a beam carries the load on its very end") {
  const Analysis analysis = analysed(mixed_frame());
  const CaseDrawing drawing = draw_case(analysis, analysis.cases[0], 1);
  const Station& tip = drawn(analysis, drawing, "nose").stations.back();
  const MemberDrawing& nose = drawn(analysis, drawing, "nose");
  const Eigen::Vector3d on_cut =
      nose.axes.transpose() * Eigen::Vector3d(tip.forces.N, tip.forces.Vy, tip.forces.Vz);
  CHECK_THAT(on_cut.z(), WithinAbs(-50, 1e-6));
  CHECK_THAT(on_cut.head<2>().norm(), WithinAbs(0, 1e-6));
}

TEST_CASE("the ends of every member move with their nodes") {
  const Analysis analysis = analysed(mixed_frame());
  const CaseDrawing drawing = draw_case(analysis, analysis.cases[0], 1);
  const Eigen::VectorXd& u = analysis.cases[0].solution.displacements;
  for (std::size_t i = 0; i < drawing.members.size(); ++i) {
    const MemberSlot& slot = analysis.slots[i];
    const int from =
        slot.is_beam ? analysis.model.beams[slot.index].from : analysis.model.bars[slot.index].from;
    const int to =
        slot.is_beam ? analysis.model.beams[slot.index].to : analysis.model.bars[slot.index].to;
    const std::vector<Station>& stations = drawing.members[i].stations;
    INFO(analysis.frame.members[i].name);
    CHECK((stations.front().displacement - u.segment<3>(6 * from)).norm() < 1e-12);
    CHECK((stations.back().displacement - u.segment<3>(6 * to)).norm() < 1e-9);
    CHECK((stations.front().point - analysis.model.nodes[from]).norm() < 1e-15);
    CHECK((stations.back().point - analysis.model.nodes[to]).norm() < 1e-15);
  }
}

TEST_CASE("links, cables and springs stay straight and carry one axial force") {
  const Analysis analysis = analysed(mixed_frame());
  const CaseDrawing drawing = draw_case(analysis, analysis.cases[0], 1);
  for (const char* name : {"stay", "tie", "arm", "shock"}) {
    INFO(name);
    const std::vector<Station>& stations = drawn(analysis, drawing, name).stations;
    REQUIRE(stations.size() == 9);
    const Eigen::Vector3d a = stations.front().point + stations.front().displacement;
    const Eigen::Vector3d chord = stations.back().point + stations.back().displacement - a;
    for (const Station& s : stations) {
      const Eigen::Vector3d here = s.point + s.displacement - a;
      CHECK(here.cross(chord).norm() < 1e-12);
      CHECK(s.forces.N == stations.front().forces.N);
    }
  }
  CHECK(drawn(analysis, drawing, "stay").stations[4].forces.N > 0);
  CHECK(drawn(analysis, drawing, "tie").stations[4].forces.N == 0);  // B sinks towards D
}

TEST_CASE("the sections of a link turn with its chord") {
  const Analysis analysis = analysed(mixed_frame());
  const CaseDrawing drawing = draw_case(analysis, analysis.cases[0], 1);
  const std::vector<Station>& stations = drawn(analysis, drawing, "arm").stations;
  const Eigen::Vector3d chord = stations.back().point - stations.front().point;
  const Eigen::Vector3d sideways = stations.back().displacement - stations.front().displacement;
  const Eigen::Vector3d turned = stations[3].rotation.cross(chord);
  const Eigen::Vector3d across = sideways - chord.normalized().dot(sideways) * chord.normalized();
  CHECK(across.norm() > 1e-6);
  CHECK((turned - across).norm() < 1e-12);
}

TEST_CASE("a spring has no section and nothing to yield") {
  const Analysis analysis = analysed(mixed_frame());
  const CaseDrawing drawing = draw_case(analysis, analysis.cases[0], 1);
  const MemberDrawing& shock = drawn(analysis, drawing, "shock");
  CHECK(shock.section == -1);
  CHECK(shock.yield_share == 0);
}

TEST_CASE("utilisation per stress is the yield factor over the yield strength, 1 when rare") {
  const Analysis analysis = analysed(cantilever_frame());
  const CaseDrawing usual = draw_case(analysis, analysis.cases[0], 1);
  const CaseDrawing rare = draw_case(analysis, analysis.cases[2], 3);
  CHECK_THAT(usual.members[0].yield_share, WithinRel(1.5 / 235e6, 1e-12));
  CHECK_THAT(rare.members[0].yield_share, WithinRel(1.0 / 235e6, 1e-12));
}

TEST_CASE("the drawn utilisation of a beam at its worst place is the yield check's") {
  const Analysis analysis = analysed(mixed_frame());
  const CaseDrawing drawing = draw_case(analysis, analysis.cases[0], 1);
  for (std::size_t i = 0; i < drawing.members.size(); ++i) {
    const MemberResult& reported = analysis.cases[0].members[i];
    if (!reported.has_stress || !reported.checks.yield.utilisation) continue;
    INFO(analysis.frame.members[i].name);
    const MemberDrawing& member = drawing.members[i];
    double greatest = 0;
    for (const Station& s : member.stations)
      greatest = std::max(greatest, worst_stress(member.shape, s.forces).von_mises);
    CHECK_THAT(greatest * member.yield_share, WithinRel(*reported.checks.yield.utilisation, 1e-9));
  }
}

TEST_CASE("where the yield strength is not known no utilisation is drawn") {
  Frame frame = cantilever_frame();
  frame.materials[0].properties.yield = std::numeric_limits<double>::quiet_NaN();
  const Analysis analysis = analysed(frame);
  CHECK(draw_case(analysis, analysis.cases[0], 1).members[0].yield_share == 0);
}

TEST_CASE("a strap drawn with large displacements keeps its length") {
  Frame f = cantilever_frame();
  f.cases.resize(1);
  f.cases.front() = {};
  f.cases.front().name = "far";
  const std::string tip = f.nodes.back().name;
  f.cases.front().forces.push_back({tip, {0, 0, -2e4}, {}});
  f.panels.clear();
  const AnalysisOutcome outcome = analyse(f, {}, {false, true});
  REQUIRE(std::holds_alternative<Analysis>(outcome));
  const Analysis& analysis = std::get<Analysis>(outcome);
  const CaseDrawing drawing = draw_case(analysis, analysis.cases.front(), 1);
  CHECK(drawing.large);
  for (const MemberDrawing& member : drawing.members) {
    REQUIRE(member.stations.size() >= 9);
    double drawn = 0, built = 0, moved = 0;
    for (std::size_t i = 1; i < member.stations.size(); ++i) {
      const Station &a = member.stations[i - 1], &b = member.stations[i];
      built += (b.point - a.point).norm();
      drawn += (b.point + b.displacement - a.point - a.displacement).norm();
      moved = std::max(moved, b.displacement.norm());
    }
    CHECK(moved > 0.05 * built);
    CHECK_THAT(drawn, WithinRel(built, 5e-3));
  }
}

}  // namespace tubewright::member_stations_test
