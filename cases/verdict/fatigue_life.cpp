#include "cases/verdict/fatigue_life.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "solver/model/angle.h"

namespace tubewright {

namespace {

constexpr double reference_cycles = 2e6;  // Delta_sigma_C
constexpr double knee_cycles = 5e6;       // Delta_sigma_D
constexpr double cut_off_cycles = 1e8;    // Delta_sigma_L
constexpr double infinite = std::numeric_limits<double>::infinity();

/// Range at `cycles` on a line of slope m through (known_range, known_cycles).
double range_on_line(double known_range, double known_cycles, double m, double cycles) {
  return known_range * std::pow(known_cycles / cycles, 1 / m);
}

double finite_life(double range, double category, FatigueCurve curve) {
  const double knee = constant_amplitude_limit(category, curve);
  if (curve == FatigueCurve::lattice_node) return reference_cycles * std::pow(category / range, 5);
  if (range >= knee) return reference_cycles * std::pow(category / range, 3);
  return knee_cycles * std::pow(knee / range, 5);
}

bool usable(double x) { return x > 0 && std::isfinite(x); }

bool usable(const std::vector<StressBlock>& spectrum) {
  for (const StressBlock& block : spectrum) {
    const bool sound = block.range >= 0 && std::isfinite(block.range) && block.cycles >= 0 &&
                       std::isfinite(block.cycles);
    if (!sound) return false;
  }
  return true;
}

/// Two values of Table 8.7, MPa: at t_0/t_i = 1 and at `ratio`.
struct NodeRow {
  double at_one;
  double ratio;
  double at_ratio;
};

NodeRow node_row(LatticeNode kind) {
  switch (kind) {
    case LatticeNode::round_gap:
      return {45, 2.0, 90};
    case LatticeNode::rectangular_gap:
      return {36, 2.0, 71};
    case LatticeNode::overlap:
      break;
  }
  return {56, 1.4, 71};
}

/// What of Table 8.7's conditions is not kept; empty if all are.
std::string node_reason(const LatticeNodeShape& n) {
  constexpr double mm = 1e-3;
  constexpr double rounding = 1e-9;
  const auto within = [](double x, double least, double greatest) {
    return x >= least * (1 - rounding) && x <= greatest * (1 + rounding);  // false for NaN
  };
  if (!within(n.t0, 4 * mm, 8 * mm) || !within(n.ti, 4 * mm, 8 * mm)) {
    return "outside the scope: Table 8.7 covers walls from 4 to 8 mm";
  }
  if (!within(n.t0 / n.ti, 1, infinite)) {
    return "outside the scope: the chord's wall is thinner than the brace's";
  }
  if (!within(n.theta, 35 * degree, 50 * degree)) {
    return "outside the scope: Table 8.7 covers braces at 35 to 50 degrees";
  }
  if (!within(n.b0 / n.t0, 0, 25)) return "outside the scope: b0/t0 is above 25";
  if (!within(n.bi / n.b0, 0.4, 1)) return "outside the scope: bi/b0 is not within 0.4 and 1";
  return "";
}

}  // namespace

double constant_amplitude_limit(double category, FatigueCurve curve) {
  if (curve == FatigueCurve::lattice_node) return cut_off_limit(category, curve);
  return range_on_line(category, reference_cycles, 3, knee_cycles);
}

double cut_off_limit(double category, FatigueCurve curve) {
  if (curve == FatigueCurve::lattice_node) {
    return range_on_line(category, reference_cycles, 5, cut_off_cycles);
  }
  return range_on_line(constant_amplitude_limit(category, curve), knee_cycles, 5, cut_off_cycles);
}

double cycles_to_failure(double range, double category, FatigueCurve curve) {
  return range <= cut_off_limit(category, curve) ? infinite : finite_life(range, category, curve);
}

double constant_range_life(double range, double category, FatigueCurve curve) {
  return range <= constant_amplitude_limit(category, curve) ? infinite
                                                            : finite_life(range, category, curve);
}

double miner_sum(const std::vector<StressBlock>& spectrum, double category, FatigueCurve curve) {
  double sum = 0;
  for (const StressBlock& block : spectrum) {
    sum += block.cycles / cycles_to_failure(block.range, category, curve);
  }
  return sum;
}

double fatigue_partial_factor(FatigueDesign design, Consequence consequence) {
  const bool low = consequence == Consequence::low;
  if (design == FatigueDesign::damage_tolerant) return low ? 1.0 : 1.15;
  return low ? 1.15 : 1.35;
}

CheckResult fatigue_check(const std::vector<StressBlock>& spectrum, double category,
                          FatigueCurve curve, double gamma_Mf) {
  CheckResult r;
  r.clause = "EN 1993-1-9 8, A.5";
  if (!usable(category)) {
    r.reason = "the detail has no fatigue category";
  } else if (!usable(gamma_Mf)) {
    r.reason = "there is no partial factor gamma_Mf";
  } else if (!usable(spectrum)) {
    r.reason = "a stress range or its number of cycles is negative or not finite";
  } else {
    r.utilisation = miner_sum(spectrum, category / gamma_Mf, curve);
  }
  return r;
}

const std::vector<FatigueDetail>& hollow_section_details() {
  static const std::vector<FatigueDetail> details = [] {
    struct Row {
      const char* name;
      double category;  // MPa
      const char* remark;
    };
    // MEMORY: recalled from Table 8.6, its page not at hand.
    constexpr Row table[] = {
        {"tube flattened at its end and butt welded to a plate", 71,
         "round tube of less than 200 mm, stress in the tube"},
        {"tube slotted and welded to a plate, taper up to 45 degrees", 71,
         "round tube, holes at the ends of the slot, stress in the tube"},
        {"tube slotted and welded to a plate, taper above 45 degrees", 63,
         "round tube, holes at the ends of the slot, stress in the tube"},
        {"round tubes butt welded end to end", 71,
         "walls up to 8 mm (two categories higher above), weld convexity up to 10 %"},
        {"rectangular tubes butt welded end to end", 56,
         "walls up to 8 mm (two categories higher above), weld convexity up to 10 %"},
        {"hollow section fillet welded to another section", 71,
         "attached with a width along the stress of at most 100 mm, weld carries no load"},
        {"round tube butt welded to an intermediate plate", 50,
         "walls up to 8 mm (one category higher above), full penetration"},
        {"rectangular tube butt welded to an intermediate plate", 45,
         "walls up to 8 mm (one category higher above), full penetration"},
        {"round tube fillet welded to an intermediate plate", 40, "walls up to 8 mm"},
        {"rectangular tube fillet welded to an intermediate plate", 36, "walls up to 8 mm"},
    };
    constexpr double MPa = 1e6;
    std::vector<FatigueDetail> r;
    for (const Row& row : table) {
      r.push_back({row.name, row.category * MPa, FatigueCurve::direct_stress,
                   "EN 1993-1-9 Table 8.6 (from memory)", row.remark});
    }
    return r;
  }();
  return details;
}

LatticeNodeCategory lattice_node_category(const LatticeNodeShape& node) {
  LatticeNodeCategory r;
  r.reason = node_reason(node);
  if (!r.reason.empty()) return r;
  constexpr double MPa = 1e6;
  const NodeRow row = node_row(node.kind);
  const double share = std::min(1.0, (node.t0 / node.ti - 1) / (row.ratio - 1));
  r.category = std::lerp(row.at_one, row.at_ratio, share) * MPa;
  return r;
}

}  // namespace tubewright
