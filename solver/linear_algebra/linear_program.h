// A small linear programme over a box, by the dual simplex method, with answers that do not rest on
// its rounding.
//
//   least c'x  subject to  A x >= b,  lo <= x <= up,  lo and up finite
//
// Whatever multipliers y >= 0 the method ends with, every x in the box that meets the rows has
//   c'x >= y'b + sum_j min over [lo_j, up_j] of (c_j - y'a_j) x_j
// (weak duality), and if y'b exceeds the most that y'A x reaches in the box, no x meets the rows.
// Both are formed afresh from A, b and c, so that a bound or an "infeasible" is believed for what
// it says, not for how it was found. Bounded dual simplex with flips of boxed variables: A.
// Koberstein, The dual simplex method (2005), ch. 3 (from memory).
#pragma once

#include <Eigen/Core>

namespace tubewright {

struct LinearProgram {
  Eigen::VectorXd cost;   ///< c
  Eigen::MatrixXd rows;   ///< A
  Eigen::VectorXd least;  ///< b
  Eigen::VectorXd lo, up;
};

struct LinearAnswer {
  enum class State {
    optimal,
    infeasible,  ///< proved
    undecided    ///< too many steps, or rounding in the way: only the bound counts
  };
  State state = State::undecided;
  double bound = 0;              ///< no x that meets the rows costs less
  Eigen::VectorXd x;             ///< where it ended; optimal: meets the rows to rounding
  Eigen::VectorXd multipliers;   ///< y >= 0, one a row
  Eigen::VectorXd reduced_cost;  ///< c - A'y: what a unit of x_j costs beside the bound
};

/// Requires: sizes agree, lo <= up, all numbers finite.
LinearAnswer solve(const LinearProgram& program);

}  // namespace tubewright
