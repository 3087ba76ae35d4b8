// Finite rotations in space: vectors, matrices and what a small change of one does to the other.
//
// A rotation vector v turns by |v| rad about its own direction, right hand. A spin w is the small
// turn that follows a rotation: R becomes exp(w) R. In terms of the vector, w = T(v) dv with
//   T = I + b v~ + c v~^2,  b = (1 - cos|v|)/|v|^2,  c = (|v| - sin|v|)/|v|^3,
//   T^-1 = I - v~/2 + d v~^2,  d = (1 - |v|/2 cot(|v|/2))/|v|^2.
// Source: J. Argyris, "An excursion into large rotations", CMAME 32 (1982); M. A. Crisfield,
// Non-linear Finite Element Analysis of Solids and Structures 2, ch. 16 (from memory, re-derived).
#pragma once

#include <Eigen/Core>

namespace tubewright {

/// v~: skew(v) x = v cross x.
Eigen::Matrix3d skew(const Eigen::Vector3d& v);

/// exp(v~).
Eigen::Matrix3d rotation_matrix(const Eigen::Vector3d& v);

/// The shortest vector of a rotation, at most pi long.
Eigen::Vector3d rotation_vector(const Eigen::Matrix3d& R);

/// Of all vectors of a rotation, which differ by whole turns about one axis, the one nearest to
/// `near`: it lets a rotation that is followed through many turns grow on.
Eigen::Vector3d rotation_vector_near(const Eigen::Matrix3d& R, const Eigen::Vector3d& near);

/// T(v).
Eigen::Matrix3d spin_by_vector(const Eigen::Vector3d& v);

/// T(v)^-1. Grows without bound towards |v| = 2 pi.
Eigen::Matrix3d vector_by_spin(const Eigen::Vector3d& v);

/// d/dv of T(v)^T m, the moment conjugate to the vector where m is conjugate to the spin; m fixed.
Eigen::Matrix3d change_of_vector_moment(const Eigen::Vector3d& v, const Eigen::Vector3d& m);

/// d/dv of T(v)^-T m, the moment conjugate to the spin where m is conjugate to the vector; m fixed.
Eigen::Matrix3d change_of_spin_moment(const Eigen::Vector3d& v, const Eigen::Vector3d& m);

}  // namespace tubewright
