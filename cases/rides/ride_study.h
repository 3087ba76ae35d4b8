// The rides of a frame file: what the wheels, the carried masses and every part of the frame go
// through.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "cases/analysis/tell_step.h"
#include "cases/rides/ride_result.h"

namespace tubewright {

struct RideStudy {
  Frame frame;
  std::vector<RideResult> rides;
  int elastic_modes = 0;
  double highest_mode = 0;  ///< Hz
  bool all_modes = false;   ///< that are below 250 Hz
  double category = 0;      ///< of fatigue, Pa
  double gamma_Mf = 1;
  /// Damage of all rides times how often they happen and of `life`, in the order of Frame::members;
  /// none: not counted.
  std::vector<std::optional<double>> life_damage;
  std::string life_words;  ///< what is in it
};

/// Of the load case that an instant is checked as: "kerb at 0.4125 s".
std::string instant_name(const std::string& ride, double time);

constexpr double damage_limit = 1;

/// The end that one ride wears most; null where nothing is counted.
const RideDamage* worn_most(const RideResult& ride);

/// The member that all rides and `life` wear out first; -1: none is counted.
int worn_first(const RideStudy& study);

/// Every ride passes, and what they do in the vehicle's life.
bool rides_pass(const RideStudy& study);

enum class Films { none, taken };

/// Requires: the frame is sound. Diagnostics: it has no rides, or cannot be driven.
Result<RideStudy> ride_study(const Frame& frame, const TellStep& tell = tell_nobody,
                             Films films = Films::none);

}  // namespace tubewright
