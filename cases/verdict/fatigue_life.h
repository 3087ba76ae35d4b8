// Fatigue life by nominal stress: EN 1993-1-9:2005 (from memory).
//
// A detail category Delta_sigma_C is the stress range, Pa, that lasts 2 million cycles. SI units.
// Valid for ranges up to 1.5 f_y of nominal direct stress (8(1)) and, for hollow sections, walls
// from 4 mm by the tests behind the tables: thinner tube is a comparison, not a proof.
#pragma once

#include <string>
#include <vector>

#include "cases/checks/check_result.h"

namespace tubewright {

/// Fig. 7.1: slope m = 3 to 5e6 cycles (Delta_sigma_D), then m = 5 to the cut-off at 1e8
/// (Delta_sigma_L). Nodes of lattice girders (Table 8.7) and shear (Fig. 7.2): m = 5 all the way to
/// the cut-off.
enum class FatigueCurve { direct_stress, lattice_node };

/// Delta_sigma_D = (2/5)^(1/3) Delta_sigma_C = 0.737 Delta_sigma_C: a constant range below it does
/// no damage. m = 3 only; a lattice node has its cut-off.
double constant_amplitude_limit(double category, FatigueCurve curve);

/// Delta_sigma_L = (5/100)^(1/5) Delta_sigma_D = 0.549 Delta_sigma_D; for a lattice node
/// (2/100)^(1/5) Delta_sigma_C = 0.457 Delta_sigma_C. Smaller ranges of a spectrum do no damage.
double cut_off_limit(double category, FatigueCurve curve);

/// Cycles N_R to failure as part of a spectrum; infinite at and below the cut-off (and for a range
/// of 0). Requires: range >= 0, category > 0.
double cycles_to_failure(double range, double category, FatigueCurve curve);

/// Cycles of one constant range only: infinite below constant_amplitude_limit().
double constant_range_life(double range, double category, FatigueCurve curve);

struct StressBlock {
  double range = 0;   ///< Pa, without sign
  double cycles = 0;  ///< how often
};

/// Miner's sum D = sum n/N_R of Annex A.5; the life is over at 1.
double miner_sum(const std::vector<StressBlock>& spectrum, double category, FatigueCurve curve);

enum class FatigueDesign { damage_tolerant, safe_life };
enum class Consequence { low, high };

/// gamma_Mf of Table 3.1: damage tolerant 1.0, 1.15; safe life 1.15, 1.35.
double fatigue_partial_factor(FatigueDesign design, Consequence consequence);

/// Table 8.5 (MEMORY), Pa: of the root of a fillet weld, and of shear along its throat, m = 5.
constexpr double weld_root_category = 36e6, throat_shear_category = 80e6;

/// utilisation = Miner's sum with Delta_sigma_C/gamma_Mf. It grows with the third to fifth power of
/// the stress. An empty spectrum uses nothing. No check: category or gamma_Mf missing, a range or a
/// number of cycles negative or not finite.
CheckResult fatigue_check(const std::vector<StressBlock>& spectrum, double category,
                          FatigueCurve curve, double gamma_Mf);

struct FatigueDetail {
  std::string name;     ///< the detail in words
  double category = 0;  ///< Pa
  FatigueCurve curve = FatigueCurve::direct_stress;
  std::string source;
  std::string remark;  ///< what it holds for
};

/// Hollow-section details of Table 8.6, walls up to 12.5 mm. MEMORY: check in the standard.
const std::vector<FatigueDetail>& hollow_section_details();

enum class LatticeNode { round_gap, rectangular_gap, overlap };

struct LatticeNodeCategory {
  double category = 0;  ///< Pa; 0 when not covered
  std::string reason;
};

/// What Table 8.7 asks of a K or N node of a lattice girder.
struct LatticeNodeShape {
  LatticeNode kind = LatticeNode::rectangular_gap;
  double t0 = 0;     ///< chord wall, m
  double ti = 0;     ///< brace wall
  double b0 = 0;     ///< chord width or diameter
  double bi = 0;     ///< brace width or diameter
  double theta = 0;  ///< rad
};

/// Table 8.7 by t_0/t_i, straight between its two values: gap, round 45 at 1.0 to 90 at 2.0,
/// rectangular 36 to 71; overlap 56 at 1.0 to 71 at 1.4. Covered: 1 <= t_0/t_i, walls 4 to 8 mm, 35
/// to 50 degrees, b_0/t_0 <= 25 (so b_0 <= 200 mm), 0.4 <= b_i/b_0 <= 1. The remaining conditions
/// (eccentricity, gap) are the caller's to see to. MEMORY.
LatticeNodeCategory lattice_node_category(const LatticeNodeShape& node);

}  // namespace tubewright
