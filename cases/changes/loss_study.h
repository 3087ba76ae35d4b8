// What if a weld lets go, a tube is lost, a sheet comes off: one part at a time, every case.
//
// EN 1991-1-7 calls it notional removal (from memory): one member at a time, at once and without a
// shock, with loads of accidental situations, so that the safety factor is 1. What is sudden may
// ask for up to twice the forces (US guides on progressive collapse, from memory).
//
// A tube that is lost goes with its weight, the loads along it and the panels along it. A weld that
// breaks passes nothing, and the tube hangs on its other end.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "cases/analysis/tell_step.h"
#include "cases/changes/changed_answer.h"
#include "cases/frame/diagnostic.h"
#include "cases/frame/frame.h"
#include "cases/verdict/fatigue_screening.h"

namespace tubewright {

enum class LossKind { tube, end, panel, rivets, bond };

struct Loss {
  LossKind kind = LossKind::tube;
  std::string name;  ///< of the member, panel or sheet; of an end "NAME at NODE"
  int member = -1;   ///< place in Frame::members, of tubes and ends
  int end = 0;       ///< 0 `from`, 1 `to`
  ChangedAnswer answer;
  double worst = 0;  ///< greatest utilisation of all cases; infinite where one has no answer
  /// The frame needs it: without it it is a mechanism, a case has no answer or something is over
  /// its limit at a safety factor of 1.
  bool must_hold = false;
  /// Of an end: how near fatigue comes there, utilisation in stress; none: not screened.
  std::optional<double> fatigue;
};

struct LossStudy {
  ChangedAnswer whole;             ///< nothing lost, at a safety factor of 1
  bool held_by_supports = false;   ///< redundancies: as the supports hold it, else free
  std::vector<double> redundancy;  ///< of each member; see solver/statics/redundancy.h
  double redundancy_sum = 0;       ///< degree of static indeterminacy
  std::vector<Loss> losses;        ///< tubes, ends, panels, sheets, in the order of the file
  std::vector<int> inspect;        ///< welds that must hold, those first that come first to fail
  int must_hold_tubes = 0;
  bool fatigue_screened = false;
};

/// False if some loss leaves a mechanism, a case without an answer or something over its limit.
bool losses_pass(const LossStudy& study);

/// Requires: the frame is sound.
Result<LossStudy> loss_study(const Frame& frame, const TellStep& tell = tell_nobody);

}  // namespace tubewright
