// What each tube is worth: how the frame changes with its wall, with the next size up and down and
// without it; and what a diagonal more in each open bay would do.
#pragma once

#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "cases/analysis/tell_step.h"
#include "cases/changes/changed_answer.h"
#include "cases/changes/tube_groups.h"
#include "cases/changes/wall_slopes.h"
#include "cases/frame/diagnostic.h"
#include "cases/frame/frame.h"

namespace tubewright {

/// A frame, or what it becomes by a change. Solved afresh or by an exact update, never estimated.
struct FrameFigures {
  bool mechanism = false;
  bool solved = true;               ///< every case
  double mass = 0;                  ///< of tubes and panels, kg
  std::optional<double> stiffness;  ///< torsional, N m/rad
  std::optional<WorstOfAll> worst;
  std::optional<double> frequency;  ///< lowest elastic, Hz; of changed frames only where asked for
  /// Every case has an answer, nothing is over its limit and `limits` are met. What cannot be
  /// checked does not count against it.
  bool passes = false;
};

struct Resized {
  SectionEntry section;
  double mass = 0;              ///< of the tubes in that size, kg
  std::optional<double> price;  ///< more than now, in the currency of `stock`; none: not known
  FrameFigures frame;
  std::optional<double> stiffness_per_kg;     ///< change over change, N m/rad/kg
  std::optional<double> stiffness_per_price;  ///< likewise, by the price
};

struct TubeWorth {
  std::string name;
  MemberSet members;
  double mass = 0;  ///< kg
  std::optional<WallSlopes> per_wall;
  /// Of the slope: torsional stiffness for mass put into the wall, N m/rad/kg.
  std::optional<double> stiffness_per_kg;
  std::optional<Resized> up, down;
  FrameFigures without;  ///< the frame without them
  bool removable = false;
};

/// A tube more, from corner to corner of an open bay.
struct Diagonal {
  std::vector<std::pair<std::string, std::string>> tubes;  ///< one, or two that mirror each other
  double mass = 0;
  FrameFigures welded, pinned;
  std::optional<double> stiffness_per_kg;  ///< gained, welded, N m/rad/kg
};

/// A change that pays.
struct BestChange {
  enum class Kind { none, diagonal, up, down, remove };
  Kind kind = Kind::none;
  int index = -1;       ///< of RankStudy::diagonals, else of RankStudy::groups
  bool pinned = false;  ///< of a diagonal
  double mass = 0;      ///< added, below 0: saved, kg
};

struct RankStudy {
  FrameFigures whole;
  std::optional<double> deflection;  ///< greatest of all cases, m
  std::optional<double> frequency;   ///< lowest elastic, Hz
  std::optional<double> buckling;    ///< lowest factor of all cases
  std::vector<TubeWorth> tubes;      ///< each with a section, alone, in the order of the file
  std::vector<TubeWorth> groups;     ///< mirror images and paths together; of one tube too
  std::vector<Diagonal> diagonals;   ///< by what they pay a kg, best first
  std::string diagonal_section;      ///< what they are of; empty: the file has none to take
  /// Of a frame that does not pass: the lightest that does, or else what brings the worst item, or
  /// the limit that is missed by most, down most.
  BestChange mends;
  /// Saves most mass and passes; where no torsional stiffness is asked for, with at least 95 % of
  /// it.
  BestChange lightens;
  BestChange stiffens;  ///< most torsional stiffness a kg
};

/// `diagonal_section`: a section of the file for candidate diagonals; empty: its lightest tube.
/// Requires: the frame is sound, the section exists.
Result<RankStudy> rank_study(const Frame& frame, const std::string& diagonal_section = {},
                             const TellStep& tell = tell_nobody);

}  // namespace tubewright
