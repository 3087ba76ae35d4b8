// Twist measured with dial gauges, and the torsional stiffness that follows.
#pragma once

namespace tubewright {

/// Readings of a gauge on the left and on the right at one place along the frame, m, and their
/// distance across it.
struct GaugePair {
  double left = 0;
  double right = 0;
  double distance = 0;
};

/// Angle about x, rad: (left - right) / distance, positive when the left side rises.
double twist_angle(const GaugePair& gauges);

/// Couple over the twist between front and rear, N m/rad: what the held end gives way is taken out.
/// The readings at the held end are needed for this: without them the stands count as frame.
double measured_stiffness(double couple, const GaugePair& front, const GaugePair& rear);

}  // namespace tubewright
