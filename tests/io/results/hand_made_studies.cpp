#include "tests/io/results/hand_made_studies.h"

namespace tubewright {

namespace {

Member member(const char* name, MemberKind kind, const char* from, const char* to) {
  Member made;
  made.name = name;
  made.kind = kind;
  made.from = from;
  made.to = to;
  return made;
}

Frame four_members() {
  Frame frame;
  frame.title = "School pedal quad";
  const std::pair<const char*, Eigen::Vector3d> nodes[] = {
      {"A", {0, 0, 0}}, {"B", {1, 0, 0}}, {"C", {1, 0, 0.5}}, {"D", {0, 0, 0.5}}};
  for (const auto& [name, at] : nodes) frame.nodes.push_back({name, at, {}});
  frame.members = {
      member("sill_1", MemberKind::beam, "A", "B"), member("post", MemberKind::beam, "B", "C"),
      member("coil", MemberKind::spring, "C", "D"), member("stay", MemberKind::cable, "D", "B")};
  Case brake;
  brake.name = "brake";
  brake.note = "on a dry road";
  Case bump;
  bump.name = "bump";
  bump.rare = true;
  frame.cases = {brake, bump};
  return frame;
}

/// Checks that these results say nothing of.
void leave_out(MemberChecks& checks) {
  for (CheckResult* check : {&checks.section, &checks.joint, &checks.weld_at[0], &checks.weld_at[1],
                             &checks.joint_at[0], &checks.joint_at[1]}) {
    check->needed = false;
  }
}

MemberResult tube(double N, double von_mises, double where, double utilisation) {
  MemberResult result;
  result.from << -N, 1, 2, 3, 4, 5;
  result.to << N, -1, -2, -3, -4, -5;
  result.N = N;
  result.worst.stress = {100e6, 30e6, 11e6, von_mises};
  result.worst.where = where;
  result.checks.yield = {utilisation, "", "EN 1993-1-1 6.2.1(5)"};
  result.checks.buckling = {std::nullopt, "not made by this version", ""};
  result.checks.weld = {std::nullopt, "not made by this version", ""};
  leave_out(result.checks);
  return result;
}

MemberResult without_stress(double N, bool slack) {
  MemberResult result;
  result.N = N;
  result.has_stress = false;
  result.slack = slack;
  for (CheckResult* check : {&result.checks.yield, &result.checks.buckling, &result.checks.weld}) {
    check->reason = "a spring has no section";
    check->needed = false;
  }
  leave_out(result.checks);
  return result;
}

CaseResult solved(const char* name, double utilisation, std::size_t node_count) {
  CaseResult result;
  result.name = name;
  result.solution.displacements = Eigen::VectorXd::Zero(6 * static_cast<Eigen::Index>(node_count));
  result.solution.reactions = result.solution.displacements;
  result.solution.displacements.segment<6>(12) << 0.001, -0.0, -0.004, 0.01, 0.02, 0.03;
  result.solution.reactions.segment<6>(0) << 10, 20, 500, 1, 2, 3;
  result.solution.reactions.segment<6>(6) << -10, 0, 250.5, 0, 0, 0;
  result.solution.residual = {3e-14, 1e-13};
  result.solution.equilibrium = {2e-14, 5e-14};
  result.members = {tube(812, utilisation * 156.6e6, 0.12, utilisation), tube(-40, 20e6, 1, 0.13),
                    without_stress(15, false), without_stress(0, true)};
  result.worst = Worst{"yield", "sill_1", utilisation};
  result.largest_node = 2;
  return result;
}

}  // namespace

FrameStudies hand_made_studies() {
  FrameStudies studies;
  Analysis& analysis = studies.analysis;
  analysis.frame = four_members();
  for (const Node& node : analysis.frame.nodes) analysis.model.nodes.push_back(node.at);
  Beam sill;
  sill.to = 1;
  Beam post;
  post.from = 1;
  post.to = 2;
  analysis.model.beams = {sill, post};
  analysis.model.bars = {{2, 3, 1e5, false}, {3, 1, 1e6, true}};
  analysis.model.supports = {{0, {true, true, true, true, true, true}},
                             {1, {true, false, true, false, false, false}}};
  analysis.slots = {{true, 0}, {true, 1}, {false, 0}, {false, 1}};
  analysis.mass = {3.25, 0, 60, 63.25, {0.5, 0.0, 0.31}};
  analysis.cases = {solved("brake", 0.87, 4), solved("bump", 1.24, 4)};
  studies.verdict = verdict_of(analysis, {}, {});
  return studies;
}

FrameStudies passing_studies() {
  FrameStudies studies = hand_made_studies();
  Analysis& analysis = studies.analysis;
  analysis.cases.pop_back();
  for (MemberResult& m : analysis.cases[0].members) {
    m.checks.buckling.needed = false;
  }
  studies.verdict = verdict_of(analysis, {}, {});
  return studies;
}

FrameStudies reportable_studies() {
  FrameStudies studies = hand_made_studies();
  Analysis& analysis = studies.analysis;
  SectionEntry tube;
  tube.name = "tube";
  tube.height = tube.width = 0.025;
  tube.wall = 0.002;
  tube.material = "S235";
  analysis.frame.sections.push_back(tube);
  for (Member& m : analysis.frame.members) {
    if (m.kind != MemberKind::spring) m.section = "tube";
  }
  Model& model = studies.analysis.model;
  model.nodes = {{0, 0, 0}, {1, 0, 0}};
  model.sections.resize(1);
  model.materials.resize(1);
  for (const Member& m : studies.analysis.frame.members) {
    if (m.kind == MemberKind::beam) model.beams.push_back({0, 1, 0, 0});
  }
  return studies;
}

}  // namespace tubewright
