#include "tests/viz/files/known_frames.h"

#include <stdexcept>

namespace tubewright {

namespace {

SectionEntry section(const std::string& name, Shape shape, double height, double width,
                     double wall) {
  SectionEntry entry;
  entry.name = name;
  entry.shape = shape;
  entry.height = height;
  entry.width = width;
  entry.wall = wall;
  entry.corners = Corners::sharp;
  entry.material = "steel";
  return entry;
}

Node node(const std::string& name, double x, double y, double z) {
  Node n;
  n.name = name;
  n.at = {x, y, z};
  return n;
}

Member member(const std::string& name, MemberKind kind, const std::string& from,
              const std::string& to, const std::string& section_name) {
  Member m;
  m.name = name;
  m.kind = kind;
  m.from = from;
  m.to = to;
  m.section = section_name;
  return m;
}

SupportEntry fixed(const std::string& node_name) {
  SupportEntry s;
  s.node = node_name;
  s.restrained.fill(true);
  return s;
}

Case loaded(const std::string& name, const std::string& node_name, const Eigen::Vector3d& force) {
  Case c;
  c.name = name;
  c.forces.push_back({node_name, force, {}});
  return c;
}

MaterialEntry steel() {
  MaterialEntry m;
  m.name = "steel";
  m.properties = {210e9, 80.77e9, 7850, 235e6, 360e6};
  return m;
}

/// A 25 x 25 x 2 mm tube given by its numbers alone.
SectionEntry numbers_only() {
  SectionEntry entry = section("numbers", Shape::properties, 0, 0, 0);
  entry.given.A = 173.7e-6;
  entry.given.Iy = entry.given.Iz = 14835e-12;
  entry.given.It = 25256e-12;
  entry.given.Wy = entry.given.Wz = 1187e-9;
  entry.given.Wt = 1804e-9;
  entry.given.Ay = entry.given.Az = rigid;
  return entry;
}

}  // namespace

Frame cantilever_frame() {
  Frame frame;
  frame.title = "Cantilever & \"tip\" <load>";
  frame.materials = {steel()};
  frame.sections = {section("tube", Shape::square_tube, 0.025, 0.025, 0.002)};
  frame.nodes = {node("A", 0, 0, 0), node("B", 1, 0, 0)};
  frame.members = {member("arm", MemberKind::beam, "A", "B", "tube")};
  frame.supports = {fixed("A")};

  Case mid;
  mid.name = "mid";
  mid.point_loads.push_back({"arm", 0.5, {0, 0, -400}, {0, 0, 0}, {}});
  Case twist;
  twist.name = "twist_rare";
  twist.rare = true;
  twist.moments.push_back({"B", {50, 0, 0}, {}});
  frame.cases = {loaded("tip-down.1", "B", {0, 0, -300}), mid, twist,
                 loaded("pull", "B", {1000, 0, 0})};
  return frame;
}

Frame mixed_frame() {
  Frame frame;
  frame.title = "One of everything";
  frame.materials = {steel()};
  frame.sections = {section("square", Shape::square_tube, 0.025, 0.025, 0.002),
                    section("tall", Shape::rectangular_tube, 0.04, 0.02, 0.002),
                    section("round", Shape::round_tube, 0.0269, 0.0269, 0.0023),
                    section("rod", Shape::round_bar, 0.008, 0.008, 0),
                    section("strap", Shape::flat_bar, 0.02, 0.003, 0),
                    numbers_only()};
  frame.nodes = {node("A", 0, 0, 0),     node("B", 1, 0, 0),      node("C", 0, 0, 1),
                 node("D", 1, 0, -1),    node("E", 1, -0.6, 0),   node("F", 1.8, 0.3, 0.2),
                 node("G", 0.5, 0.7, 0), node("H", 1.4, -0.5, 0), node("I", 1, 0.5, 0.8)};
  frame.members = {member("sill", MemberKind::beam, "A", "B", "tall"),
                   member("stay", MemberKind::cable, "C", "B", "rod"),
                   member("tie", MemberKind::cable, "D", "B", "rod"),
                   member("arm", MemberKind::link, "E", "B", "strap"),
                   member("nose", MemberKind::beam, "B", "F", "round"),
                   member("brace", MemberKind::beam, "G", "B", "square"),
                   member("shock", MemberKind::spring, "I", "B", ""),
                   member("rail", MemberKind::beam, "B", "H", "numbers")};
  frame.members[0].roll = 0.4;
  frame.members[5].release_to = {rigid, rigid, rigid, rigid, 0, 0};
  frame.members[6].rate = 20000;
  for (const char* name : {"A", "C", "D", "E", "G", "I"}) frame.supports.push_back(fixed(name));

  Case down = loaded("down", "B", {0, 0, -800});
  down.line_loads.push_back({"sill", {0, 100, -250}, {}});
  down.point_loads.push_back({"nose", 0.3, {50, 0, -200}, {0, 0, 5}, {}});
  down.point_loads.push_back({"nose", 1.0, {0, 0, -50}, {0, 0, 0}, {}});
  down.forces.push_back({"H", {30, 0, -40}, {}});
  frame.cases = {down};
  return frame;
}

Analysis analysed(const Frame& frame) {
  Result<Analysis> outcome = analyse(frame);
  if (const auto* diagnostics = outcome.error())
    throw std::runtime_error(diagnostics->empty() ? "no answer" : diagnostics->front().message);
  return *std::move(outcome);
}

}  // namespace tubewright
