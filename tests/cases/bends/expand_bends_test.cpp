// Where bent tubes run: lengths worked out by hand (derived for this project), laws of tangents and
// of the section's place, and a hoop against a chain of many straight tubes.
#include "cases/bends/expand_bends.h"

#include <Eigen/Geometry>
#include <numbers>
#include <random>

#include "cases/bends/member_arc.h"
#include "cases/model/build_model.h"
#include "cases/model/mass_summary.h"
#include "solver/elements/beam_element.h"
#include "solver/statics/statics.h"
#include "tests/cases/small_frames.h"
#include "tests/truth.h"

namespace tubewright::expand_bends_test {

namespace {

using namespace tubewright::testing;

constexpr double mm = 1e-3;

/// A path through nodes P0, P1, ... with these radii at the corners.
Frame bent_path(const std::vector<Eigen::Vector3d>& points, const std::vector<double>& radii) {
  Frame f = empty_frame();
  for (size_t i = 0; i < points.size(); ++i) {
    add_node(f, "P" + std::to_string(i), points[i].x(), points[i].y(), points[i].z());
  }
  for (size_t i = 0; i + 1 < points.size(); ++i) {
    Member& m = add_member(f, "hoop." + std::to_string(i + 1), "P" + std::to_string(i),
                           "P" + std::to_string(i + 1));
    m.tube = "hoop";
    if (i < radii.size()) m.bend = radii[i];
  }
  return f;
}

Frame expanded(Frame f) {
  const Diagnostics diagnostics = expand_bends(f);
  INFO(text_of(diagnostics));
  REQUIRE(diagnostics.empty());
  return f;
}

/// Legs of 600, corners of 100, 500 across, upright across the vehicle.
Frame hoop() {
  return bent_path({{0, -0.35, 0}, {0, -0.35, 0.7}, {0, 0.35, 0.7}, {0, 0.35, 0}}, {0.1, 0.1});
}

double total_length(const Frame& f) {
  const NumberedFrame n = build_model(f);
  double length = 0;
  for (const Member& m : f.members) length += member_length(n, m);
  return length;
}

Eigen::Vector3d place(const Frame& f, const std::string& name) {
  for (const Node& n : f.nodes) {
    if (n.name == name) return n.at;
  }
  FAIL("no node " << name);
  return {};
}

}  // namespace

TEST_CASE("a bent tube is as long as its straights and R theta", "[truth]") {
  const Source by_hand = rederived("straights and arcs by hand");
  truth("hoop of 600, R 100, 500, R 100, 600, m", by_hand, total_length(expanded(hoop())),
        within_rel(2014.159265 * mm, 1e-9));
  const double turn = 60 * std::numbers::pi / 180;
  const Frame f = expanded(bent_path(
      {{0, 0, 0}, {0.3, 0, 0}, {0.3 + 0.4 * std::cos(turn), 0.4 * std::sin(turn), 0}}, {0.08}));
  truth("300 and 400 at 60 degrees, R 80, m", by_hand, total_length(f),
        within_rel(691.39976 * mm, 1e-8));
  const MassSummary mass = mass_summary(f, build_model(f));
  CHECK_THAT(mass.tubes / (7850 * build_model(f).model.sections[0].A),
             WithinRel(691.39976 * mm, 1e-8));
}

TEST_CASE("the corner's node moves to the middle of its bend, and what is straight stays") {
  const Frame f = expanded(hoop());
  const double inside = 0.1 * (1 - std::sqrt(0.5));
  CHECK((place(f, "P1") - Eigen::Vector3d(0, -0.35 + inside, 0.7 - inside)).norm() < 1e-12);
  CHECK((place(f, "hoop.P1.0") - Eigen::Vector3d(0, -0.35, 0.6)).norm() < 1e-12);
  CHECK((place(f, "hoop.P1.8") - Eigen::Vector3d(0, -0.25, 0.7)).norm() < 1e-12);
  CHECK(place(f, "P0") == Eigen::Vector3d(0, -0.35, 0));
  CHECK(f.members.size() == 3 + 2 * 8);
  CHECK(f.members.front().name == "hoop.1");
  CHECK(f.members[1].name == "hoop.P1.1");
  CHECK(f.members[4].to == "P1");
}

TEST_CASE("arcs of a random path touch each other and carry the section along") {
  std::mt19937 random(11);
  std::uniform_real_distribution<double> u(-1, 1);
  for (int trial = 0; trial < 40; ++trial) {
    std::vector<Eigen::Vector3d> points = {Eigen::Vector3d::Zero()};
    for (int i = 0; i < 4; ++i) {
      Eigen::Vector3d step(u(random), u(random), u(random));
      while (step.norm() < 0.3) step = Eigen::Vector3d(u(random), u(random), u(random));
      points.emplace_back(points.back() + step.normalized());
    }
    Frame f = bent_path(points, {0.08, 0.09, 0.1});
    f.members.front().roll = u(random);
    if (!expand_bends(f).empty()) continue;  // turns back
    const NumberedFrame n = build_model(f);
    for (size_t i = 0; i + 1 < f.members.size(); ++i) {
      const Beam &a = n.model.beams[i], &b = n.model.beams[i + 1];
      const Eigen::Matrix3d before = beam_element(n.model, a).axes;
      const Eigen::Matrix3d after = beam_element(n.model, b).axes;
      // Half of each arc's angle lies between its chord and the tangent there.
      double between = 0;
      for (const Beam& beam : {a, b}) {
        const double L = (n.model.nodes[static_cast<size_t>(beam.to)] -
                          n.model.nodes[static_cast<size_t>(beam.from)])
                             .norm();
        between += std::asin(L * beam.arc.curvature / 2);
      }
      const Eigen::Vector3d x = before.row(0), next = after.row(0);
      CHECK_THAT(std::atan2(x.cross(next).norm(), x.dot(next)), WithinAbs(between, 1e-9));
      const Eigen::Quaterniond turn = Eigen::Quaterniond::FromTwoVectors(x, next);
      CHECK((turn * Eigen::Vector3d(before.row(1)) - Eigen::Vector3d(after.row(1))).norm() < 1e-9);
    }
    CHECK(bends_on(f.members[0], f.members[1]));
  }
}

TEST_CASE("a node on the way between two bends changes nothing about the section's place") {
  // Legs that lean back, so that a level section would be turned against the second bend.
  const std::vector<Eigen::Vector3d> corners = {
      {0, -0.35, 0}, {-0.1, -0.35, 0.6}, {-0.1, 0.35, 0.6}, {0, 0.35, 0}};
  std::vector<Eigen::Vector3d> with_middle = corners;
  with_middle.insert(with_middle.begin() + 2, Eigen::Vector3d(-0.1, 0, 0.6));
  const Frame f = expanded(bent_path(corners, {0.1, 0.1}));
  const Frame g = expanded(bent_path(with_middle, {0.1, 0.1, 0.1}));
  CHECK_THAT(g.members.back().roll, WithinAbs(f.members.back().roll, 1e-12));
  for (const Frame* frame : {&f, &g}) {
    for (const Member& m : frame->members) {
      if (!m.arc) continue;
      const Arc arc =
          arc_of(*m.arc, place(*frame, m.from), place(*frame, m.to), m.roll, frame->sections[0]);
      CHECK(bends_along_faces(arc, frame->sections[0]));
    }
  }
}

TEST_CASE("a hoop gives way as a chain of 160 straight pieces does") {
  Frame bent = hoop();
  bent.sections[0].shape = Shape::properties;  // whose walls nothing is known of: EI stays whole
  bent.sections[0].given = {174e-6, 14.8e-9, 14.8e-9, 25e-9, 1.2e-6, 1.2e-6,
                            2e-6,   0,       0,       rigid, rigid,  {}};
  const auto moved = [](const Frame& f, const std::string& node) {
    const NumberedFrame n = build_model(f);
    Model model = n.model;
    model.supports = {{n.node.at("P0"), {true, true, true, true, true, true}},
                      {n.node.at("P3"), {true, true, true, true, true, true}}};
    Actions actions = no_actions(model);
    actions.nodal.segment<3>(6 * n.node.at(node)) = Eigen::Vector3d(300, 500, -200);
    const StaticResult solved = solve_statics(model, {actions});
    REQUIRE(solved.has_value());
    return Eigen::Vector3d((*solved)[0].displacements.segment<3>(6 * n.node.at(node)));
  };
  const Frame ours = expanded(bent);
  // The same places joined by straight pieces, each arc cut into ten.
  Frame chain = empty_frame();
  chain.sections = bent.sections;
  chain.nodes = ours.nodes;
  for (const Member& m : ours.members) {
    if (!m.arc) {
      add_member(chain, m.name, m.from, m.to);
      continue;
    }
    const Eigen::Vector3d a = place(ours, m.from) - m.arc->centre,
                          b = place(ours, m.to) - m.arc->centre;
    const double angle = std::acos(a.dot(b) / a.squaredNorm());
    std::string from = m.from;
    constexpr int pieces = 10;
    for (int k = 1; k <= pieces; ++k) {
      const Eigen::Vector3d at =
          m.arc->centre + Eigen::AngleAxisd(angle * k / pieces, a.cross(b).normalized()) * a;
      const std::string to = k == pieces ? m.to : m.name + "/" + std::to_string(k);
      if (k < pieces) add_node(chain, to, at.x(), at.y(), at.z());
      add_member(chain, m.name + "/" + std::to_string(k), from, to);
      from = to;
    }
  }
  const Eigen::Vector3d exact = moved(ours, "P1"), near = moved(chain, "P1");
  CHECK((exact - near).norm() <= 1e-4 * exact.norm());
}

TEST_CASE("a bent tube buckles in one between what meets it") {
  Frame f = hoop();
  add_node(f, "Q", 0.3, 0.35, 0.3);
  const double whole = 2014.159265 * mm;
  for (const Member& m : expanded(f).members) CHECK_THAT(m.parted_from, WithinRel(whole, 1e-9));
  add_member(f, "brace", "P2", "Q");
  const Frame held = expanded(f);
  CHECK_THAT(held.members[0].parted_from,
             WithinRel(whole - 600 * mm - 100 * mm * std::numbers::pi / 4, 1e-9));
  CHECK_THAT(held.members[18].parted_from,
             WithinRel(600 * mm + 100 * mm * std::numbers::pi / 4, 1e-9));
}

TEST_CASE("releases and caps stay at the two ends of a bent tube") {
  Frame f = hoop();
  f.members.front().release_from[4] = 0;
  f.members.front().capped[0] = true;
  f.members.back().release_to[5] = 0;
  const Frame e = expanded(f);
  for (size_t i = 0; i < e.members.size(); ++i) {
    const Member& m = e.members[i];
    CHECK((m.release_from == welded) == (i != 0));
    CHECK((m.release_to == welded) == (i + 1 != e.members.size()));
    CHECK(m.capped[0] == (i == 0));
  }
}

TEST_CASE("bends that cannot be are told, all of them, and nothing is changed") {
  const auto faults = [](Frame f) {
    const std::vector<Member> before = f.members;
    const Diagnostics d = expand_bends(f);
    CHECK(f.members.size() == before.size());
    return text_of(d);
  };
  CHECK_THAT(faults(bent_path({{0, 0, 0}, {0.5, 0, 0}, {0.5, 0.5, 0}, {0, 0.5, 0}}, {0.3, 0.3})),
             ContainsSubstring("take 600 mm between `P1` and `P2`, where there are 500 mm"));
  CHECK_THAT(
      faults(bent_path({{0, 0, 0}, {0.5, 0, 0}, {0.5, 0.5, 0}}, {0.5})),
      ContainsSubstring("between `P0` and `P1`") && ContainsSubstring("between `P1` and `P2`"));
  CHECK_THAT(faults(bent_path({{0, 0, 0}, {0.5, 0, 0}, {0.5, 0.5, 0}}, {0.012})),
             ContainsSubstring("radius of 12 mm"));
  CHECK_THAT(faults(bent_path({{0, 0, 0}, {0.5, 0, 0}, {0, 0.01, 0}}, {0.05})),
             ContainsSubstring("turns back"));
  // A mitre behind a bend that takes all there is before it.
  CHECK_THAT(faults(bent_path({{0, 0, 0}, {0.5, 0, 0}, {0.5, 0.1, 0}, {1, 0.1, 0}}, {0.1, 0})),
             ContainsSubstring("between `P1` and `P2`"));
  Frame two = bent_path({{0, 0, 0}, {0.5, 0, 0}, {0.5, 0.5, 0}}, {0.1});
  add_node(two, "Q0", 0.5, 0, 0.5);
  add_node(two, "Q1", 0, -0.5, 0);
  for (const auto& [from, to, bend] : {std::tuple{"Q0", "P1", 0.1}, std::tuple{"P1", "Q1", 0.0}}) {
    Member& m = add_member(two, std::string("other.") + from, from, to);
    m.tube = "other";
    m.bend = bend;
  }
  CHECK_THAT(faults(two), ContainsSubstring("`other` and `hoop` both bend at `P1`"));
}

TEST_CASE("a corner that hardly turns and a path without bends are left alone") {
  Frame straight = bent_path({{0, 0, 0}, {0.5, 0, 0}, {1, 0.001, 0}}, {0.1});
  REQUIRE(expand_bends(straight).empty());
  CHECK(straight.members.size() == 2);
  Frame none = bent_path({{0, 0, 0}, {0.5, 0, 0}, {0.5, 0.5, 0}}, {});
  REQUIRE(expand_bends(none).empty());
  CHECK(none.nodes.size() == 3);
}

}  // namespace tubewright::expand_bends_test
