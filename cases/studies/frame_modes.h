// Natural frequencies of a frame with everything it carries, and what each mode looks like in
// words: of the vehicle on its springs and tyres, and of the frame alone.
#pragma once

#include <string>
#include <vector>

#include "cases/frame/diagnostic.h"
#include "cases/frame/frame.h"
#include "cases/model/build_model.h"
#include "cases/model/mass_distribution.h"
#include "solver/stability/modes.h"
#include "solver/stability/refine.h"

namespace tubewright {

struct FrameMode {
  double frequency = 0;  ///< Hz
  bool rigid = false;
  std::string words;  ///< "first torsion", "body pitch", "wheel hop, left", "rigid-body motion"
  double share = 0;   ///< of the kinetic energy that moves so, 0..1
  /// 6 a node of the frame, then of those inside its tubes as refine() makes them; greatest
  /// translation 1.
  Eigen::VectorXd shape;
  bool frame_only = false;  ///< elastic, no spring and no tyre moves in it
};

struct FrameModes {
  bool restrained = false;  ///< by its supports; else free, as a vehicle is
  bool complete = false;    ///< none below the last one is missing
  bool on_tyres = false;    ///< they stand on the ground
  std::vector<FrameMode> modes;
  /// The frame's own, of a free vehicle with springs or tyres: springs locked, tyres left out. Its
  /// lowest, first torsion and first bending, ascending. Empty: `modes` has none but its own.
  std::vector<FrameMode> own;

  std::vector<MemberSlot> slots;  ///< in the order of Frame::members
  std::vector<ArmSlot> arms;      ///< in the order of Frame::attachments
  RefinedModel fine;              ///< cut as the shapes are
};

/// The lowest of the frame's own modes; null if there is none.
const FrameMode* lowest_elastic(const FrameModes& modes);

/// False if lowest_elastic() lies below `limits.frequency`.
bool modes_pass(const Frame& frame, const FrameModes& modes);

/// The lowest `count` modes beside rigid-body motions. Tubes are cut as finely as the
/// highest mode asks for, see pieces_for_modes().
/// Carried masses swing with the nodes they rest on and add no stiffness, as in the load cases. A
/// free vehicle with `tyre_rate` stands on its tyres: it bounces, pitches and rolls on them and is
/// free to move along the road, across it and to turn on it.
/// Requires: the frame is sound.
Result<FrameModes> frame_modes(const Frame& frame, int count);

/// Carried masses, panels and links as mass on nodes: the motion of each is that of its nodes in
/// the sense of spread_load(), so that forces and motions agree.
std::vector<AddedMass> added_masses(const Model& model, const MassDistribution& distribution);

}  // namespace tubewright
