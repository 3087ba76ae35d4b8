// The exact step of a damped oscillator under a force that is linear over the step.
#pragma once

namespace tubewright {

/// q'' + 2 zeta omega q' + omega^2 q = p, p from p0 to p1 over the step:
///   q1 = qq q0 + qv q0' + q0p p0 + q1p p1,   q1' = vq q0 + vv q0' + v0p p0 + v1p p1.
struct ModalRecurrence {
  double qq = 1, qv = 0, q0p = 0, q1p = 0;
  double vq = 0, vv = 1, v0p = 0, v1p = 0;
};

/// By the exponential of the step's 4 x 4 matrix (state, force and its slope), by its series and
/// repeated squaring: no case of its own for omega = 0 or for zeta at and above 1.
/// Requires: omega >= 0, zeta >= 0, step > 0, finite; omega step (1 + 2 zeta) below 1e9.
ModalRecurrence modal_recurrence(double omega, double zeta, double step);

}  // namespace tubewright
