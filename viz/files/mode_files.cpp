#include "viz/files/mode_files.h"

#include <vtkCellArray.h>
#include <vtkCellData.h>
#include <vtkDataArray.h>
#include <vtkNew.h>
#include <vtkPointData.h>
#include <vtkPoints.h>
#include <vtkPolyData.h>
#include <vtkXMLPolyDataWriter.h>

#include <Eigen/Geometry>
#include <algorithm>
#include <array>
#include <cassert>
#include <numbers>
#include <vector>

#include "io/text/workshop_units.h"
#include "solver/stability/refine.h"
#include "solver/statics/recovery.h"
#include "viz/files/attachment_bodies.h"
#include "viz/files/member_stations.h"
#include "viz/files/pvd_index.h"
#include "viz/files/vtk_arrays.h"

namespace tubewright {

namespace {

constexpr int phases = 8;
constexpr int least_intervals = 8;  ///< along a member

/// cos(2 pi phase/8), exact zeros included.
constexpr double half_root = std::numbers::sqrt2 / 2;
constexpr std::array<double, phases> swing = {1,  half_root,  0, -half_root,
                                              -1, -half_root, 0, half_root};

/// Greatest translation drawn, of the frame's diagonal: seen well, and shapes still look like the
/// small motions they are.
constexpr double greatest_swing = 0.05;

/// A mode that only twists tubes about their own axes has translations that are rounding. It turns
/// by more than this times its translation over the frame's diagonal; any other turns by at most
/// the diagonal over a tube's length or so.
constexpr double only_twists = 1e6;

struct SwingLine {
  int section = -1;  ///< index in Frame::sections; -1 for a spring
  std::vector<Station> stations;
};

std::vector<Station> beam_stations(const RefinedModel& fine, int beam,
                                   const std::vector<BeamState>& states) {
  const std::vector<int>& pieces = fine.pieces[beam];
  const std::vector<int>& nodes = fine.nodes[beam];
  const int count = static_cast<int>(pieces.size());
  const int of_a_piece = (least_intervals + count - 1) / count;
  std::vector<Station> stations;
  for (int p = 0; p < count; ++p) {
    const Eigen::Vector3d &from = fine.model.nodes[nodes[p]], &to = fine.model.nodes[nodes[p + 1]];
    for (int i = p == 0 ? 0 : 1; i <= of_a_piece; ++i) {
      const double s = static_cast<double>(i) / of_a_piece;
      const BeamDisplacement d = beam_displacement(states[pieces[p]], s);
      stations.push_back({s, from + s * (to - from), d.displacement, d.rotation, {}});
    }
  }
  return stations;
}

StaticSolution moved_by(const FrameModes& modes, const Eigen::VectorXd& shape) {
  const Model& model = modes.fine.model;
  assert(shape.size() == dof_count(model));
  const std::vector<bool> taut(model.bars.size(), false);
  return recover(model, no_actions(model), taut, shape);
}

/// One line a member, in the order of Frame::members.
std::vector<SwingLine> swing_lines(const Frame& frame, const FrameModes& modes,
                                   const StaticSolution& moved) {
  const Model& model = modes.fine.model;
  const Eigen::VectorXd& shape = moved.displacements;
  std::vector<SwingLine> lines;
  for (size_t m = 0; m < frame.members.size(); ++m) {
    const MemberSlot& slot = modes.slots[m];
    SwingLine line{section_number(frame, static_cast<int>(m)), {}};
    if (slot.is_beam) {
      line.stations = beam_stations(modes.fine, slot.index, moved.beams);
    } else {
      const Bar& bar = model.bars[slot.index];
      line.stations = bar_stations(model.nodes[bar.from], model.nodes[bar.to],
                                   shape.segment<3>(dofs_per_node * bar.from),
                                   shape.segment<3>(dofs_per_node * bar.to), 0);
    }
    lines.push_back(std::move(line));
  }
  return lines;
}

/// What is fitted to the tubes in a mode as it comes.
FittedMotion fitted_swing(const Frame& frame, const FrameModes& modes,
                          const StaticSolution& moved) {
  FittedMotion motion;
  for (const ArmSlot& arm : modes.arms)
    motion.arms.push_back(beam_stations(modes.fine, arm.plate, moved.beams));
  for (const Gusset& gusset : frame.gussets)
    motion.corners.push_back(
        gusset_corners(frame, gusset, modes.fine.model.nodes, moved.displacements));
  return motion;
}

FittedMotion drawn_out(FittedMotion motion, double factor) {
  const auto stretch = [factor](auto& stations) {
    for (Station& station : stations) {
      station.displacement *= factor;
      station.rotation *= factor;
    }
  };
  for (auto& arm : motion.arms) stretch(arm);
  for (auto& corners : motion.corners) stretch(corners);
  return motion;
}

/// How far a mode is drawn out, and where its greatest swing then ends, m.
struct Scale {
  double factor = 0;
  double greatest = 0;
};

/// Shapes come with a greatest translation of 1, which may lie inside a tube and not be drawn; what
/// is drawn is then smaller, as it is in truth.
Scale swing_scale(const std::vector<SwingLine>& lines) {
  Eigen::AlignedBox3d box;
  double move = 0, turn = 0;
  for (const SwingLine& line : lines) {
    for (const Station& station : line.stations) {
      box.extend(station.point);
      move = std::max(move, station.displacement.norm());
      turn = std::max(turn, station.rotation.norm());
    }
  }
  if (box.isEmpty()) return {};
  const double diagonal = box.diagonal().norm();
  const double greatest = greatest_swing * diagonal;
  if (turn * diagonal > only_twists * move) return {greatest_swing / turn, greatest};
  return {greatest / std::max(move, 1.0), greatest};
}

void add_description(vtkFieldData& data, const Frame& frame, const FrameMode& mode, int number,
                     int phase) {
  add_integers(data, "mode_number", {number});
  add_column(data, {"frequency_hz", "Hz", 1, {mode.frequency}});
  add_strings(data, "words", {mode.words});
  add_column(data, {"energy_share", "1", 1, {mode.share}});
  add_strings(data, "frame", {frame.title});
  add_strings(data, "member_names", names_of(frame.members));
  add_strings(data, "section_names", names_of(frame.sections));
  add_strings(data, "units", {"mm, rad, Hz"});
  add_strings(data, "notes",
              {"a mode has no size of its own: the greatest translation is drawn as a twentieth of "
               "the frame's diagonal, and the eight steps are one swing, not seconds",
               "energy_share: of the mode's kinetic energy, what moves as `words` say"});
  add_column(data, {"TimeValue", "1", 1, {number + static_cast<double>(phase) / phases}});
  add_column(data, {"warp_scale_suggested", "1", 1, {1}});
}

std::string mode_step_file(const Frame& frame, const FrameMode& mode, int number, int phase,
                           const std::vector<SwingLine>& members, const Scale& scale) {
  const double now = scale.factor * swing[static_cast<size_t>(phase)];
  vtkNew<vtkPoints> points;
  points->SetDataTypeToDouble();
  vtkNew<vtkCellArray> lines;
  Column displacement{"displacement", "mm", 3, {}};
  Column rotation{"rotation", "rad", 3, {}};
  Column magnitude{"mode_shape_magnitude", "1", 1, {}};
  std::vector<int> member_of, section_of;
  for (const SwingLine& member : members) {
    lines->InsertNextCell(static_cast<int>(member.stations.size()));
    for (const Station& station : member.stations) {
      const Eigen::Vector3d at = station.point * mm_per_m;
      lines->InsertCellPoint(points->InsertNextPoint(at.data()));
      append(displacement, station.displacement * (now * mm_per_m));
      append(rotation, station.rotation * now);
      append(magnitude, station.displacement.norm() * scale.factor / scale.greatest);
    }
    member_of.push_back(static_cast<int>(member_of.size()));
    section_of.push_back(member.section);
  }
  vtkNew<vtkPolyData> data;
  data->SetPoints(points);
  data->SetLines(lines);
  for (const Column* column : {&displacement, &rotation, &magnitude})
    add_column(*data->GetPointData(), *column);
  data->GetPointData()->SetActiveVectors("displacement");
  data->GetPointData()->SetActiveScalars("mode_shape_magnitude");
  add_integers(*data->GetCellData(), "member", member_of);
  add_integers(*data->GetCellData(), "section", section_of);
  add_description(*data->GetFieldData(), frame, mode, number, phase);
  vtkNew<vtkXMLPolyDataWriter> writer;
  return xml_bytes(*writer, *data);
}

/// Of each point of the bodies the share of the greatest swing of the tubes that it swings by.
Column swing_shares(const Frame& frame, const FittedMotion& motion, const Scale& scale) {
  vtkNew<vtkPolyData> swung;
  add_bodies(*swung, frame, drawn_out(motion, scale.factor));
  Column magnitude{"mode_shape_magnitude", "1", 1, {}};
  vtkDataArray& moves = *swung->GetPointData()->GetArray("displacement");
  for (vtkIdType i = 0; i < moves.GetNumberOfTuples(); ++i) {
    const Eigen::Vector3d move = Eigen::Map<const Eigen::Vector3d>(moves.GetTuple3(i));
    append(magnitude, move.norm() / mm_per_m / scale.greatest);
  }
  return magnitude;
}

std::string fitted_step_file(const Frame& frame, const FrameMode& mode, int number, int phase,
                             const FittedMotion& motion, const Scale& scale) {
  vtkNew<vtkPolyData> data;
  add_bodies(*data, frame, drawn_out(motion, scale.factor * swing[static_cast<size_t>(phase)]));
  add_column(*data->GetPointData(), swing_shares(frame, motion, scale));
  data->GetPointData()->SetActiveScalars("mode_shape_magnitude");
  add_description(*data->GetFieldData(), frame, mode, number, phase);
  vtkNew<vtkXMLPolyDataWriter> writer;
  return xml_bytes(*writer, *data);
}

/// number + phase/8 in decimals.
std::string time_of(int number, int phase) {
  constexpr std::array<const char*, phases> eighths = {"",   ".125", ".25", ".375",
                                                       ".5", ".625", ".75", ".875"};
  return std::to_string(number) + eighths[static_cast<size_t>(phase)];
}

std::string swing_file_stem(int number, int phase) {
  return (number < 10 ? "modes_0" : "modes_") + std::to_string(number) + "_" +
         std::to_string(phase);
}

std::optional<WriteFailure> write_all(const Frame& frame, const FrameModes& modes,
                                      const std::filesystem::path& folder, int most) {
  std::string entries;
  int number = 0;
  for (const FrameMode& mode : modes.modes) {
    if (mode.rigid) continue;
    if (++number > most) break;
    const StaticSolution moved = moved_by(modes, mode.shape);
    const std::vector<SwingLine> lines = swing_lines(frame, modes, moved);
    const FittedMotion fitted = fitted_swing(frame, modes, moved);
    const Scale scale = swing_scale(lines);
    for (int phase = 0; phase < phases; ++phase) {
      const std::string stem = swing_file_stem(number, phase), file = stem + ".vtp";
      const std::string bytes = mode_step_file(frame, mode, number, phase, lines, scale);
      if (auto failure = put_file(folder / file, bytes)) return failure;
      entries += index_entry(time_of(number, phase), 0, file);
      if (fitted.arms.empty() && fitted.corners.empty()) continue;
      const std::string bodies = stem + "_attachments.vtp";
      if (auto failure = put_file(folder / bodies,
                                  fitted_step_file(frame, mode, number, phase, fitted, scale)))
        return failure;
      entries += index_entry(time_of(number, phase), 1, bodies);
    }
  }
  return put_file(folder / "modes.pvd", index_file(entries));
}

}  // namespace

std::optional<WriteFailure> write_mode_files(const Frame& frame, const FrameModes& modes,
                                             const std::string& directory, int most) {
  return fill_directory(directory, [&](const std::filesystem::path& folder) {
    return write_all(frame, modes, folder, most);
  });
}

}  // namespace tubewright
