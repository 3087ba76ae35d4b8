// Lateral-torsional buckling: a bar bent the strong way that tips over sideways.
// EN 1993-1-1:2005 6.3.2 (MEMORY) on the elastic critical moment.
//
// Loads act on the bar's axis: one that stands on its upper edge tips it sooner. Rectangles, solid
// or hollow: no warping. SI units.
#pragma once

#include <array>
#include <vector>

#include "cases/checks/member_buckling.h"
#include "solver/model/material.h"
#include "solver/model/section.h"

namespace tubewright {

/// Of a rectangle the strong axis is y where it is taller than wide.
bool strong_about_y(const Profile& profile);

/// Whether a bar of `length` between the nodes that hold it can tip over at all: a solid rectangle
/// that is not square; a hollow one from height/width = 10/lambda_z on, lambda_z its relative
/// slenderness about the weak axis (6.3.2.1(2) calls square and round hollow sections not
/// susceptible; the bound for tall ones is one published with the code, MEMORY). `length`: twice
/// that of a cantilever.
bool may_tip_over(const Section& section, double fy, double E, double length);

/// What `moments` about the strong axis, at equal steps along a straight bar, can be multiplied by
/// before it tips over; infinite without moments, 0 where neither end is held. `held`: whether an
/// end can neither turn about the bar nor move sideways; a held end may turn sideways, unless the
/// other is free. From G I_t phi'' + M^2/(E I_weak) phi = 0, phi = 0 at a held end, phi' = 0 at a
/// free one (Timoshenko & Gere, Theory of Elastic Stability, ch. 6, MEMORY).
double tipping_factor(const Section& section, const Material& material, double length,
                      std::array<bool, 2> held, const std::vector<double>& moments);

/// chi_LT of 6.3.2.2 (6.56) by curve d, Table 6.4 "other cross-sections"; 1 up to lambda_LT = 0.2.
/// `M_Rk`: W f_y of the strong axis. `M_cr`: 0 or more.
double lateral_torsional_factor(double M_Rk, double M_cr);

}  // namespace tubewright
