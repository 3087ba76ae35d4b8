#include "viz/files/member_stations.h"

#include <Eigen/Geometry>
#include <algorithm>
#include <cmath>

#include "cases/frame/find_parts.h"

namespace tubewright {

namespace {

constexpr int intervals = 8;
// Fractions of the length.
constexpr double closest = 1e-3;     ///< a uniform station yields to another this near
constexpr double same_place = 1e-9;  ///< two stations this near would be one in a viewer

double yield_share(const Material& material, double factor) {
  return material.yield > 0 && std::isfinite(material.yield) ? factor / material.yield : 0.0;
}

std::vector<Station> beam_stations(const BeamState& beam, const Eigen::Vector3d& from,
                                   const Eigen::Vector3d& to, double worst) {
  std::vector<Station> stations;
  for (const Cut& cut : cuts(beam, worst)) {
    const BeamDisplacement moved = beam_displacement(beam, cut.at);
    stations.push_back({cut.at, from + cut.at * (to - from), moved.displacement, moved.rotation,
                        section_forces(beam, cut.value, cut.before)});
  }
  return stations;
}

/// With large displacements: the ends of the pieces, whose section forces are in their deformed
/// axes.
std::vector<Station> piece_stations(const std::vector<BeamState>& pieces,
                                    const std::vector<Vector6>& moved, const Eigen::Vector3d& from,
                                    const Eigen::Vector3d& to) {
  std::vector<Station> stations;
  for (std::size_t i = 0; i < moved.size(); ++i) {
    const double s = static_cast<double>(i) / static_cast<double>(pieces.size());
    const bool last = i == pieces.size();
    stations.push_back(
        {s, from + s * (to - from), moved[i].head<3>(), moved[i].tail<3>(),
         last ? section_forces(pieces.back(), 1, true) : section_forces(pieces[i], 0)});
  }
  return stations;
}

MemberDrawing draw_beam(const Analysis& analysis, const CaseResult& result, int member, int index) {
  const Frame& frame = analysis.frame;
  const Beam& beam = analysis.model.beams[index];
  const BeamState& state = result.solution.beams[index];
  MemberDrawing drawing;
  drawing.member = member;
  drawing.section = section_number(frame, member);
  drawing.shape = state.element.section;
  drawing.axes = state.element.axes;
  drawing.yield_share = yield_share(state.element.material, result.safety_factor);
  const Eigen::Vector3d &from = analysis.model.nodes[beam.from],
                        &to = analysis.model.nodes[beam.to];
  drawing.stations =
      result.large
          ? piece_stations(result.large->pieces[index], result.large->moved[index], from, to)
          : beam_stations(state, from, to, result.members[member].worst.where);
  return drawing;
}

MemberDrawing draw_bar(const Analysis& analysis, const CaseResult& result, int member, int index) {
  const Frame& frame = analysis.frame;
  const Bar& bar = analysis.model.bars[index];
  const Eigen::Vector3d& from = analysis.model.nodes[bar.from];
  const Eigen::Vector3d& to = analysis.model.nodes[bar.to];
  const Eigen::VectorXd& u = result.solution.displacements;
  MemberDrawing drawing;
  drawing.member = member;
  drawing.axes = member_axes(from, to, frame.members[member].roll);
  drawing.stations =
      bar_stations(from, to, u.segment<3>(dofs_per_node * bar.from),
                   u.segment<3>(dofs_per_node * bar.to), result.solution.bar_forces[index]);
  if (frame.members[member].kind == MemberKind::spring) return drawing;
  drawing.section = section_number(frame, member);
  drawing.shape = analysis.model.sections[drawing.section];
  drawing.yield_share =
      yield_share(analysis.model.materials[drawing.section], result.safety_factor);
  return drawing;
}

ArmDrawing draw_arm(const Analysis& analysis, const CaseResult& result, int attachment) {
  const int index = analysis.arms[static_cast<std::size_t>(attachment)].plate;
  const Beam& beam = analysis.model.beams[static_cast<std::size_t>(index)];
  const Eigen::Vector3d &from = analysis.model.nodes[beam.from],
                        &to = analysis.model.nodes[beam.to];
  constexpr double at_its_foot = 0;
  return {attachment,
          result.large
              ? piece_stations(result.large->pieces[index], result.large->moved[index], from, to)
              : beam_stations(result.solution.beams[index], from, to, at_its_foot)};
}

}  // namespace

Eigen::Vector3d turned(const Eigen::Vector3d& rotation, const Eigen::Vector3d& offset, bool large) {
  const double angle = rotation.norm();
  if (!large || angle == 0) return rotation.cross(offset);
  return Eigen::AngleAxisd(angle, rotation / angle) * offset - offset;
}

int section_number(const Frame& frame, int member) {
  if (frame.members[member].kind == MemberKind::spring) return -1;
  const SectionEntry& entry = find_section(frame, frame.members[member].section);
  return static_cast<int>(&entry - frame.sections.data());
}

std::vector<Station> bar_stations(const Eigen::Vector3d& from, const Eigen::Vector3d& to,
                                  const Eigen::Vector3d& moved_from,
                                  const Eigen::Vector3d& moved_to, double N) {
  const Eigen::Vector3d chord = to - from;
  const Eigen::Vector3d turn = chord.cross(moved_to - moved_from) / chord.squaredNorm();
  std::vector<Station> stations;
  for (int i = 0; i <= intervals; ++i) {
    const double s = static_cast<double>(i) / intervals;
    Station station{s, from + s * chord, (1 - s) * moved_from + s * moved_to, turn, {}};
    station.forces.N = N;
    stations.push_back(station);
  }
  return stations;
}

std::vector<Cut> cuts(const BeamState& beam, double worst) {
  const auto near = [](const std::vector<double>& list, double s, double distance) {
    return std::any_of(list.begin(), list.end(),
                       [&](double other) { return std::abs(other - s) < distance; });
  };
  std::vector<double> required;
  for (const double s : smooth_intervals(beam))
    if (!near(required, s, same_place)) required.push_back(s);
  if (!near(required, worst, same_place)) required.push_back(worst);
  std::vector<double> fractions = required;
  for (int i = 1; i < intervals; ++i) {
    const double s = static_cast<double>(i) / intervals;
    if (!near(required, s, closest)) fractions.push_back(s);
  }
  std::sort(fractions.begin(), fractions.end());

  std::vector<Cut> result;
  for (const double s : fractions) {
    const bool end = s >= 1;
    const auto here = [s](const PointAction& p) { return std::abs(p.at - s) < same_place; };
    const bool jump = std::any_of(beam.actions.points.begin(), beam.actions.points.end(), here);
    if (jump && !end && !result.empty()) {
      const double gap = std::min(closest, (s - result.back().at) / 2);
      result.push_back({s - gap, s, true});
    }
    result.push_back({s, s, end});
  }
  return result;
}

CaseDrawing draw_case(const Analysis& analysis, const CaseResult& result, int step) {
  CaseDrawing drawing{result.name, step, result.large.has_value(), {}, {}, {}};
  for (int i = 0; i < static_cast<int>(analysis.slots.size()); ++i) {
    const MemberSlot& slot = analysis.slots[i];
    drawing.members.push_back(slot.is_beam ? draw_beam(analysis, result, i, slot.index)
                                           : draw_bar(analysis, result, i, slot.index));
  }
  for (int i = 0; i < static_cast<int>(analysis.arms.size()); ++i)
    drawing.arms.push_back(draw_arm(analysis, result, i));
  return drawing;
}

}  // namespace tubewright
