// What one ride does to the wheels, the carried masses and every part of the frame.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "cases/analysis/analysis.h"
#include "cases/rides/ride_film.h"
#include "cases/verdict/verdict.h"

namespace tubewright {

struct RideWheel {
  std::string name;
  double standing = 0;    ///< N
  double peak = 0;        ///< N
  double factor = 0;      ///< peak over standing
  double off_ground = 0;  ///< share of the time
  double squeezed = 0;    ///< greatest deflection of the tyre, m
  /// What a case of the standard set with a bump or a step at this wheel counts with; 0: none.
  double standard_factor = 0;
};

/// Upward acceleration, without gravity, m/s2.
struct RideMass {
  std::string name;
  double rms = 0;
  double peak = 0;
};

/// What comes nearest to its limit of a member, panel or attachment.
struct RideWorst {
  std::string item;
  std::optional<double> utilisation;  ///< none: no check could be made
  std::string check;
  double time = 0;  ///< s
};

/// Greatest force that links, springs and cables put on a node together, N.
struct RidePickUp {
  std::string node;
  double force = 0;
};

/// Of a link, spring or cable, N, tension positive.
struct RideLink {
  std::string member;
  double least = 0;
  double greatest = 0;
};

/// Of one end of a tube, the worse.
struct RideDamage {
  int member = 0;
  int end = 0;
  double per_ride = 0;  ///< Miner's sum
};

/// Least and greatest force of each wheel in even parts of the ride, for a plot.
struct WheelTrace {
  std::vector<double> time;                ///< of the middle of each part, s
  std::vector<std::vector<double>> least;  ///< one row a wheel, N
  std::vector<std::vector<double>> greatest;
};

struct RideResult {
  std::string name;
  double duration = 0;   ///< s
  double distance = 0;   ///< m
  double time_step = 0;  ///< s
  std::vector<RideWheel> wheels;
  std::vector<RideMass> masses;
  std::vector<RideWorst> members;    ///< in the order of Frame::members
  std::vector<RideWorst> others;     ///< panels, attachments, gussets
  std::optional<RideWorst> worst;    ///< of all of these
  std::vector<RidePickUp> pick_ups;  ///< at the worst instants
  std::vector<RideLink> links;       ///< likewise
  std::vector<RideDamage> damage;    ///< one a member that is counted, in their order
  double repeat = 1;
  double speed_lost = 0;  ///< m/s, what the obstacles' push backward would take away
  /// Greatest change of a wheel's peak when the time step is halved, of that peak.
  double change_by_halving = 0;
  bool converged = false;
  bool in_the_air = false;  ///< a wheel is off the ground most of the time
  WheelTrace trace;
  /// The worst instants as cases, "kerb at 0.412 s", solved and checked.
  Analysis instants;
  std::vector<double> instant_times;  ///< s, of each of these
  Verdict verdict;                    ///< of these, of the damage, of the ride itself
  RideFilm film;                      ///< around the worst instant; no images if not asked for
};

}  // namespace tubewright
