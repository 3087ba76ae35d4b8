// Is the sheet worth its weight? The frame without it, with it, and with tubes of the same mass
// instead.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "cases/analysis/analysis.h"
#include "cases/frame/diagnostic.h"
#include "cases/frame/frame.h"

namespace tubewright {

/// One way to build the frame.
struct FloorOption {
  std::string words;                        ///< "rivets as soft as they may be"
  double mass = 0;                          ///< tubes and panels, kg
  std::optional<double> stiffness;          ///< torsional, N m/rad; none: a mechanism
  std::optional<double> frequency;          ///< the frame's own lowest, as modes finds it, Hz
  std::optional<WorstOfAll> worst;          ///< none: no case or no check
  std::optional<double> rivet_utilisation;  ///< greatest of any rivet check over all cases
  std::optional<double> gain_per_kg;        ///< stiffness added for each kilogram added, N m/rad/kg
  std::vector<std::string> sizes;           ///< of tubes put in, in words
};

/// Torsional stiffness for another sheet.
struct SheetTrial {
  double thickness = 0;             ///< m
  std::optional<double> pitch;      ///< m; none: no rivets
  double panels_mass = 0;           ///< kg
  std::optional<double> stiffness;  ///< N m/rad
};

enum class FloorAnswer { pays, depends, does_not_pay };

struct FloorVerdict {
  FloorAnswer answer = FloorAnswer::depends;
  std::string sentence;  ///< in plain language
  std::vector<std::string> reasons;
  std::vector<std::string> changes;  ///< what would change it
};

struct FloorStudy {
  double panels_mass = 0;       ///< kg
  bool guessed_rivets = false;  ///< low, usual and high differ
  FloorOption without, low, usual, high, diagonal, thicker;
  std::vector<SheetTrial> sweep;
  std::optional<SheetTrial> half_pitch;     ///< none without rivets
  std::optional<SheetTrial> epoxied;        ///< with a structural bond as well
  std::optional<SheetTrial> thicker_sheet;  ///< half as thick again
  FloorVerdict verdict;
};

/// Requires: the frame is sound, has a torsion test, panels, and its load cases (if it is to be
/// compared by utilisation): the same cases for every option.
Result<FloorStudy> floor_study(const Frame& frame);

/// As stiff as `limits.torsional_stiffness` and every case passes, with the usual rivets.
bool floor_passes(const Frame& frame, const FloorStudy& study);

/// The verdict from the numbers alone.
FloorVerdict floor_verdict(const FloorStudy& study);

}  // namespace tubewright
