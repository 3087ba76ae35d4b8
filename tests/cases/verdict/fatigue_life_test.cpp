#include "cases/verdict/fatigue_life.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>

#include "tests/catch.h"
#include "tests/truth.h"

namespace tubewright::fatigue_life_test {

namespace {

constexpr Source life_curve = from_memory("EN 1993-1-9 7.1 (cycles recomputed)");
constexpr Source limits = from_memory("EN 1993-1-9 7.1(2), (3) (recomputed)");
constexpr Source factors = from_memory("EN 1993-1-9 Table 3.1");
constexpr Source table_8_6 = from_memory("EN 1993-1-9 Table 8.6");
constexpr Source table_8_7 = from_memory("EN 1993-1-9 Table 8.7");
constexpr Source miner = rederived("Miner's sum worked by hand");

constexpr double mm = 1e-3, MPa = 1e6;
constexpr double degree = std::numbers::pi / 180;
constexpr double missing = std::numeric_limits<double>::quiet_NaN();
constexpr FatigueCurve plain = FatigueCurve::direct_stress, node = FatigueCurve::lattice_node;

LatticeNodeShape node_shape(LatticeNode kind, double t0, double ti) {
  return {kind, t0 * mm, ti * mm, 100 * mm, 60 * mm, 45 * degree};
}

double node_category(LatticeNode kind, double t0, double ti) {
  const LatticeNodeCategory r = lattice_node_category(node_shape(kind, t0, ti));
  CHECK(r.reason.empty());
  return r.category / MPa;
}

}  // namespace

TEST_CASE("a range of 100 MPa lasts as long as EN 1993-1-9 says", "[truth]") {
  // EN 1993-1-9 7.1, N_R = 2e6 (Delta_sigma_C/Delta_sigma)^m, from memory; recomputed.
  const auto life = [](double category, FatigueCurve curve) {
    return cycles_to_failure(100 * MPa, category * MPa, curve);
  };
  truth("100 MPa in category 71: cycles", life_curve, life(71, plain), within_abs(715822, 0.5));
  truth("100 MPa in category 71, lattice node: cycles", life_curve, life(71, node),
        within_abs(360846, 0.5));
  truth("100 MPa in category 36: cycles", life_curve, life(36, plain), within_abs(93312, 0.5));
  truth("100 MPa in category 36, lattice node: cycles", life_curve, life(36, node),
        within_abs(12093, 0.5));
  truth("100 MPa in category 90: cycles", life_curve, life(90, plain), within_rel(1.458e6, 1e-9));
}

TEST_CASE("the constant amplitude limit is 0.737 of the category and the cut-off 0.549 of that",
          "[truth]") {
  // EN 1993-1-9 7.1(2), (3), from memory; recomputed, MPa.
  const auto limit = [](double category) {
    return constant_amplitude_limit(category * MPa, plain) / MPa;
  };
  truth("constant amplitude limit over category", limits, limit(1), within_abs(0.737, 5e-4));
  truth("constant amplitude limit of category 36, MPa", limits, limit(36), within_abs(26.5, 0.05));
  truth("constant amplitude limit of category 45, MPa", limits, limit(45), within_abs(33.2, 0.05));
  truth("constant amplitude limit of category 56, MPa", limits, limit(56), within_abs(41.3, 0.05));
  truth("constant amplitude limit of category 71, MPa", limits, limit(71), within_abs(52.3, 0.05));
  truth("constant amplitude limit of category 90, MPa", limits, limit(90), within_abs(66.3, 0.05));
  truth("cut-off over constant amplitude limit", limits,
        cut_off_limit(71 * MPa, plain) / constant_amplitude_limit(71 * MPa, plain),
        within_abs(0.549, 5e-4));
  // EN 1993-1-9 7.1(3), Fig. 7.2, slope 5 throughout: 0.457.
  truth("cut-off over category, lattice node", limits, cut_off_limit(1, node),
        within_abs(0.457, 5e-4));
}

TEST_CASE("the curve passes through 2, 5 and 100 million cycles at its three named ranges") {
  const double category = 71 * MPa;
  CHECK_THAT(cycles_to_failure(category, category, plain), WithinRel(2e6, 1e-12));
  CHECK_THAT(cycles_to_failure(category, category, node), WithinRel(2e6, 1e-12));
  const double knee = constant_amplitude_limit(category, plain);
  CHECK_THAT(cycles_to_failure(knee, category, plain), WithinRel(5e6, 1e-12));
  CHECK_THAT(cycles_to_failure(knee * (1 - 1e-9), category, plain), WithinRel(5e6, 1e-7));
  for (FatigueCurve curve : {plain, node}) {
    const double end = cut_off_limit(category, curve);
    CHECK_THAT(cycles_to_failure(end * (1 + 1e-9), category, curve), WithinRel(1e8, 1e-7));
    CHECK(std::isinf(cycles_to_failure(end * (1 - 1e-9), category, curve)));
  }
}

TEST_CASE("a constant range below its limit lasts for ever, in a spectrum it does damage") {
  const double range = 45 * MPa, category = 71 * MPa;  // between 28.7 and 52.3 MPa
  CHECK(std::isinf(constant_range_life(range, category, plain)));
  CHECK(std::isfinite(cycles_to_failure(range, category, plain)));
  CHECK(constant_range_life(100 * MPa, category, plain) ==
        cycles_to_failure(100 * MPa, category, plain));
  CHECK(std::isinf(constant_range_life(0, category, plain)));
}

TEST_CASE("damage of a spectrum is the sum of its blocks", "[truth]") {
  // By hand, category 71: 71582.2 cycles of 100 MPa use a tenth, so do 200000 of 71 MPa; below the
  // cut-off of 28.7 MPa nothing counts.
  const double category = 71 * MPa;
  const std::vector<StressBlock> spectrum = {
      {100 * MPa, 71582.2}, {71 * MPa, 200000}, {20 * MPa, 1e12}};
  truth("three blocks in category 71: damage", miner, miner_sum(spectrum, category, plain),
        within_abs(0.2, 1e-6));
  CHECK(miner_sum({}, category, plain) == 0);
  CHECK(miner_sum({{0, 1e9}}, category, plain) == 0);
}

TEST_CASE("the partial factor on fatigue strength runs from 1 to 1.35", "[truth]") {
  // EN 1993-1-9 Table 3.1, from memory.
  using enum FatigueDesign;
  truth("gamma_Mf, damage tolerant, low consequence", factors,
        fatigue_partial_factor(damage_tolerant, Consequence::low), within_abs(1.0, 0));
  truth("gamma_Mf, damage tolerant, high consequence", factors,
        fatigue_partial_factor(damage_tolerant, Consequence::high), within_abs(1.15, 0));
  truth("gamma_Mf, safe life, low consequence", factors,
        fatigue_partial_factor(safe_life, Consequence::low), within_abs(1.15, 0));
  truth("gamma_Mf, safe life, high consequence", factors,
        fatigue_partial_factor(safe_life, Consequence::high), within_abs(1.35, 0));
}

TEST_CASE("the partial factor divides the category, so life falls with its third power") {
  const std::vector<StressBlock> spectrum = {{100 * MPa, 1000}};
  const CheckResult bare = fatigue_check(spectrum, 71 * MPa, plain, 1);
  const CheckResult reduced = fatigue_check(spectrum, 71 * MPa, plain, 1.35);
  CHECK_THAT(*bare.utilisation, WithinRel(1000 / 715822.0, 1e-6));
  CHECK_THAT(*reduced.utilisation, WithinRel(*bare.utilisation * std::pow(1.35, 3), 1e-9));
}

TEST_CASE("a fatigue check that cannot be made has a reason") {
  const std::vector<StressBlock> spectrum = {{100 * MPa, 1000}};
  const auto reason = [](const std::vector<StressBlock>& s, double category, double gamma_Mf) {
    const CheckResult r = fatigue_check(s, category, plain, gamma_Mf);
    CHECK_FALSE(r.utilisation);
    return r.reason;
  };
  CHECK_THAT(reason(spectrum, missing, 1), ContainsSubstring("category"));
  CHECK_THAT(reason(spectrum, 0, 1), ContainsSubstring("category"));
  CHECK_THAT(reason(spectrum, 71 * MPa, missing), ContainsSubstring("partial factor"));
  CHECK_THAT(reason({{missing, 1}}, 71 * MPa, 1), ContainsSubstring("stress range"));
  CHECK_THAT(reason({{1e6, -1}}, 71 * MPa, 1), ContainsSubstring("stress range"));
  CHECK(fatigue_check({}, 71 * MPa, plain, 1).utilisation == 0.0);
}

TEST_CASE("hollow-section details have the categories recalled from Table 8.6", "[truth]") {
  // EN 1993-1-9 Table 8.6, from memory, MPa.
  const auto category = [](const std::string& name) {
    for (const FatigueDetail& d : hollow_section_details()) {
      if (d.name == name) return d.category / MPa;
    }
    return 0.0;
  };
  truth("tube flattened at its end and butt welded to a plate: category, MPa", table_8_6,
        category("tube flattened at its end and butt welded to a plate"), within_abs(71, 0));
  truth("tube slotted and welded to a plate, taper up to 45 degrees: category, MPa", table_8_6,
        category("tube slotted and welded to a plate, taper up to 45 degrees"), within_abs(71, 0));
  truth("tube slotted and welded to a plate, taper above 45 degrees: category, MPa", table_8_6,
        category("tube slotted and welded to a plate, taper above 45 degrees"), within_abs(63, 0));
  truth("round tubes butt welded end to end: category, MPa", table_8_6,
        category("round tubes butt welded end to end"), within_abs(71, 0));
  truth("rectangular tubes butt welded end to end: category, MPa", table_8_6,
        category("rectangular tubes butt welded end to end"), within_abs(56, 0));
  truth("hollow section fillet welded to another section: category, MPa", table_8_6,
        category("hollow section fillet welded to another section"), within_abs(71, 0));
  truth("round tube butt welded to an intermediate plate: category, MPa", table_8_6,
        category("round tube butt welded to an intermediate plate"), within_abs(50, 0));
  truth("rectangular tube butt welded to an intermediate plate: category, MPa", table_8_6,
        category("rectangular tube butt welded to an intermediate plate"), within_abs(45, 0));
  truth("round tube fillet welded to an intermediate plate: category, MPa", table_8_6,
        category("round tube fillet welded to an intermediate plate"), within_abs(40, 0));
  truth("rectangular tube fillet welded to an intermediate plate: category, MPa", table_8_6,
        category("rectangular tube fillet welded to an intermediate plate"), within_abs(36, 0));
  for (const FatigueDetail& d : hollow_section_details()) {
    CHECK_FALSE(d.remark.empty());
    CHECK_THAT(d.source, ContainsSubstring("from memory"));
  }
}

TEST_CASE("lattice nodes gain by a chord wall thicker than the brace's", "[truth]") {
  // EN 1993-1-9 Table 8.7, from memory, MPa.
  truth("K gap of round tubes, t0/ti 1: category, MPa", table_8_7,
        node_category(LatticeNode::round_gap, 4, 4), within_abs(45, 0));
  truth("K gap of round tubes, t0/ti 2: category, MPa", table_8_7,
        node_category(LatticeNode::round_gap, 8, 4), within_abs(90, 0));
  truth("K gap of rectangular tubes, t0/ti 1: category, MPa", table_8_7,
        node_category(LatticeNode::rectangular_gap, 4, 4), within_abs(36, 0));
  truth("K gap of rectangular tubes, t0/ti 2: category, MPa", table_8_7,
        node_category(LatticeNode::rectangular_gap, 8, 4), within_abs(71, 0));
  truth("K overlap, t0/ti 1: category, MPa", table_8_7, node_category(LatticeNode::overlap, 5, 5),
        within_abs(56, 0));
  CHECK_THAT(node_category(LatticeNode::overlap, 7, 5), WithinRel(71.0, 1e-9));
  truth("K overlap, t0/ti 2: category, MPa", table_8_7, node_category(LatticeNode::overlap, 8, 4),
        within_abs(71, 0));
  truth("K gap of rectangular tubes, t0/ti 1.5: category, MPa", table_8_7,
        node_category(LatticeNode::rectangular_gap, 6, 4), within_abs(53.5, 1e-9));
}

TEST_CASE("a lattice node outside Table 8.7 has no category but a reason") {
  // EN 1993-1-9 Table 8.7, conditions, from memory.
  const auto reason = [](const LatticeNodeShape& shape) {
    const LatticeNodeCategory r = lattice_node_category(shape);
    CHECK(r.category == 0);
    return r.reason;
  };
  const LatticeNodeShape sound = node_shape(LatticeNode::rectangular_gap, 6, 4);
  CHECK_THAT(reason(node_shape(LatticeNode::rectangular_gap, 3, 2)), ContainsSubstring("4 to 8"));
  CHECK_THAT(reason(node_shape(LatticeNode::rectangular_gap, 4, 5)), ContainsSubstring("thinner"));
  CHECK_THAT(reason(node_shape(LatticeNode::overlap, missing, 4)), ContainsSubstring("4 to 8"));
  LatticeNodeShape shape = sound;
  shape.theta = 90 * degree;
  CHECK_THAT(reason(shape), ContainsSubstring("35 to 50"));
  shape = sound;
  shape.b0 = 180 * mm;
  CHECK_THAT(reason(shape), ContainsSubstring("above 25"));
  shape = sound;
  shape.bi = 30 * mm;
  CHECK_THAT(reason(shape), ContainsSubstring("bi/b0"));
}

}  // namespace tubewright::fatigue_life_test
