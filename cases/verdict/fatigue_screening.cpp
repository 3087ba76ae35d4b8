#include "cases/verdict/fatigue_screening.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "cases/analysis/analysis.h"
#include "cases/analysis/summarise_case.h"
#include "cases/frame/nearest_name.h"
#include "cases/frame/wording.h"
#include "cases/model/case_actions.h"
#include "cases/verdict/hot_spot.h"
#include "solver/elements/stress.h"

namespace tubewright {

namespace {

constexpr const char* standing_name = "(standing)";  // no name of a file can hold brackets

struct Block {
  std::string from;  ///< case names; empty: unloaded
  std::string to;
  double factor = 1;  ///< on the difference
  double cycles = 0;
  std::string words;
  SourceLocation place;
};

std::string number(double value) { return decimals(value, value == std::floor(value) ? 0 : 2); }

/// Up by so many g and down by as many: twice the forces of standing.
Block shaken(double g, double cycles) {
  return {"", standing_name, 2 * g, cycles, number(g) + " g up and down", {}};
}

std::vector<Block> blocks_of(const Frame& frame) {
  const std::string rest = frame.vehicle ? standing_name : "";
  std::vector<Block> blocks;
  if (frame.life && !frame.life->spectrum.empty()) {
    for (const LifeBlock& b : frame.life->spectrum) {
      if (b.load_case.empty()) {
        blocks.push_back(shaken(b.vertical, b.cycles));
        continue;
      }
      const std::string from = b.from.empty() ? rest : b.from;
      const std::string words = b.load_case + " from " +
                                (!b.from.empty() ? b.from
                                 : frame.vehicle ? "standing"
                                                 : "unloaded");
      blocks.push_back({from, b.load_case, 1, b.cycles, words, b.place});
    }
    return blocks;
  }
  if (!frame.vehicle) return blocks;
  blocks.push_back(shaken(1, usual_road_cycles));
  for (const Case& c : frame.cases) {
    if (c.bump.empty()) continue;
    blocks.push_back({rest, c.name, 1, usual_bump_cycles, c.name + " from standing", c.place});
  }
  return blocks;
}

/// The solved cases by name; the standing vehicle under its own.
class SolvedCases {
 public:
  explicit SolvedCases(const Analysis& analysis) : given_(analysis) {}

  /// Solves what is missing.
  Diagnostics provide(const std::vector<std::string>& names) {
    Frame frame = given_.frame;
    Case standing;
    standing.name = standing_name;
    standing.kind = CaseKind::vehicle;
    frame.cases.push_back(standing);
    std::vector<std::string> missing;
    for (const std::string& name : names) {
      if (name.empty() || find(name) != nullptr) continue;
      if (std::find(missing.begin(), missing.end(), name) == missing.end()) missing.push_back(name);
    }
    if (missing.empty()) return {};
    Result<Analysis> outcome = analyse(frame, missing);
    if (auto* diagnostics = outcome.error()) return *diagnostics;
    more_ = std::move(*outcome);
    return {};
  }

  /// Section forces at a beam's end; none for no case.
  SectionForces at(const std::string& name, int beam, int end) const {
    if (name.empty()) return {};
    const BeamState& b = find(name)->solution.beams[static_cast<size_t>(beam)];
    return section_forces(b, end, end == 1);
  }

 private:
  const CaseResult* find(const std::string& name) const {
    for (const Analysis* a : {&given_, &more_}) {
      for (const CaseResult& c : a->cases) {
        if (c.name == name && !c.large) return &c;
      }
    }
    return nullptr;
  }

  const Analysis& given_;
  Analysis more_;
};

SectionForces difference(const SectionForces& a, const SectionForces& b, double factor) {
  return {factor * (a.N - b.N), factor * (a.Vy - b.Vy), factor * (a.Vz - b.Vz),
          factor * (a.T - b.T), factor * (a.My - b.My), factor * (a.Mz - b.Mz)};
}

/// Longitudinal stress at each point of the outline, or its bound where there is none.
std::vector<double> normal_stresses(const Section& section, const SectionForces& f) {
  std::vector<double> stresses;
  for (const StressPoint& p : outline(section)) {
    stresses.push_back(std::abs(stress_at(section, p, f).normal));
  }
  if (stresses.empty()) {
    const Stress s = worst_stress(section, f);
    stresses.push_back(std::abs(s.axial) + s.bending);
  }
  return stresses;
}

constexpr double greatest_range = 1.5;  // times f_y, 8(1)

/// What one end of a tube goes through, one entry a block.
struct EndRanges {
  std::vector<double> nominal;
  std::vector<double> direct;  ///< nominal of the same damage: hot spot and root weighed in
  std::vector<double> shear;
};

/// What the screening of an end needs beside its forces.
struct EndDetail {
  const Section& section;
  const WeldedEnd& weld;
  BraceHotSpot hot_spot;
  double fy = 0;
};

struct Screen {
  const std::vector<Block>& blocks;
  const SolvedCases& cases;
  double category;
  double gamma;

  double damage(const std::vector<double>& ranges, double category_here, FatigueCurve curve,
                double divisor) const {
    std::vector<StressBlock> spectrum;
    for (size_t b = 0; b < blocks.size(); ++b) {
      spectrum.push_back({ranges[b] / divisor, blocks[b].cycles});
    }
    return miner_sum(spectrum, category_here / gamma, curve);
  }

  /// Direct and shear stress together, 8(3). Shear has the slope of Fig. 7.2.
  double damage(const EndRanges& r, double divisor) const {
    return damage(r.direct, category, FatigueCurve::direct_stress, divisor) +
           damage(r.shear, throat_shear_category, FatigueCurve::lattice_node, divisor);
  }

  SectionForces range_of_forces(const Block& b, int beam, int end) const {
    return difference(cases.at(b.to, beam, end), cases.at(b.from, beam, end), b.factor);
  }

  /// Ranges at the point of an end that is hit hardest: the greatest sum of cycles times range
  /// cubed, as if there were no cut-off.
  std::vector<double> worst_ranges(const Section& section, int beam, int end) const {
    std::vector<std::vector<double>> at_points;
    for (const Block& b : blocks) {
      const std::vector<double> stresses = normal_stresses(section, range_of_forces(b, beam, end));
      at_points.resize(stresses.size());
      for (size_t p = 0; p < stresses.size(); ++p) at_points[p].push_back(stresses[p]);
    }
    const auto weight = [&](const std::vector<double>& ranges) {
      double sum = 0;
      for (size_t b = 0; b < ranges.size(); ++b) sum += blocks[b].cycles * std::pow(ranges[b], 3);
      return sum;
    };
    return *std::max_element(at_points.begin(), at_points.end(),
                             [&](const auto& a, const auto& b) { return weight(a) < weight(b); });
  }

  double hot_spot_range(const EndDetail& d, const SectionForces& f) const {
    if (!d.hot_spot.known) return 0;
    const double about_y = std::abs(f.My) / d.section.Wy, about_z = std::abs(f.Mz) / d.section.Wz;
    const bool y_in_plane = d.hot_spot.in_plane_about_y;
    const HotSpotFactors& k = d.hot_spot.factors;
    return k.axial * std::abs(f.N) / d.section.A + k.in_plane * (y_in_plane ? about_y : about_z) +
           k.out_of_plane * (y_in_plane ? about_z : about_y);
  }

  EndRanges ranges_of(const EndDetail& d, int beam, int end) const {
    EndRanges r;
    r.nominal = worst_ranges(d.section, beam, end);
    for (size_t b = 0; b < blocks.size(); ++b) {
      const SectionForces f = range_of_forces(blocks[b], beam, end);
      double direct = std::max(r.nominal[b], hot_spot_range(d, f) * category / hot_spot_category);
      double shear = worst_stress(d.section, {0, f.Vy, f.Vz, f.T, 0, 0}).shear;
      if (const WeldCheck throat = weld_check(d.section.profile, d.weld.weld, f);
          d.weld.welded && throat.directional.utilisation) {
        const double across = std::hypot(throat.sigma_perp, throat.tau_perp);
        direct = std::max(direct, across * category / weld_root_category);
        shear = std::max(shear, throat.tau_par);
      }
      r.direct.push_back(direct);
      r.shear.push_back(shear);
    }
    return r;
  }

  /// What ranges may be divided by until Miner's sum is 1.
  double until_worn(const EndRanges& ranges) const {
    double enough = 1e-9, too_little = 1e9;
    if (damage(ranges, enough) <= 1) return 0;  // nothing moves
    std::swap(enough, too_little);
    constexpr int halvings = 80;
    for (int i = 0; i < halvings; ++i) {
      const double middle = std::sqrt(enough * too_little);
      (damage(ranges, middle) <= 1 ? enough : too_little) = middle;
    }
    return enough;
  }

  /// What makes the number of an end a comparison; empty if nothing does.
  static std::string beyond_tests(const EndDetail& d) {
    constexpr double thinnest = 4e-3;  // m
    const double wall = d.section.profile.wall;
    if (wall > 0 && wall < thinnest) return "the tests behind the classes begin at walls of 4 mm";
    if (d.weld.welded && d.weld.on_tube && !d.hot_spot.known) {
      return "no hot-spot factors for a joint of this shape: its category may be lower";
    }
    return "";
  }

  static double of_limit(const EndRanges& r, double fy) {
    const double limit = greatest_range * fy;
    return std::max(*std::max_element(r.nominal.begin(), r.nominal.end()) / limit,
                    *std::max_element(r.shear.begin(), r.shear.end()) * std::sqrt(3.0) / limit);
  }

  MemberFatigue of_beam(const std::array<EndDetail, 2>& details, int beam) const {
    MemberFatigue m;
    double worst = -1;
    for (const int end : {0, 1}) {
      const EndDetail& d = details[static_cast<size_t>(end)];
      const EndRanges r = ranges_of(d, beam, end);
      const double worn = until_worn(r), limit = of_limit(r, d.fy);
      const double used = std::max(worn, limit);
      if (used <= worst) continue;
      worst = used;
      m.end = end;
      m.ranges = r.nominal;
      m.damage = damage(r, 1);
      m.category =
          r.direct.front() > 0 ? category * r.nominal.front() / r.direct.front() : category;
      m.cycles = cycles_to_failure(r.direct.front(), category / gamma, FatigueCurve::direct_stress);
      m.result.clause = limit > worn ? "EN 1993-1-9 8(1)" : "EN 1993-1-9 7.1, 8(3), Annex A.5";
    }
    m.result.utilisation = worst;
    for (const EndDetail& d : details) {
      if (const std::string why = beyond_tests(d); !why.empty()) m.result.reason = why;
    }
    m.result.comparison = !m.result.reason.empty();
    return m;
  }
};

/// `suggestion`: did_you_mean().
Diagnostic unknown_case_of_spectrum(const std::string& load_case, const std::string& suggestion) {
  return {"`life.spectrum` names case " + quoted(load_case) + ", which the frame does not have",
          suggestion};
}

Diagnostics unknown_cases(const Frame& frame, const std::vector<Block>& blocks) {
  Diagnostics diagnostics;
  std::vector<std::string> names;
  for (const Case& c : frame.cases) names.push_back(c.name);
  for (const Block& b : blocks) {
    for (const std::string& name : {b.to, b.from}) {
      if (name.empty() || name == standing_name) continue;
      if (std::find(names.begin(), names.end(), name) != names.end()) continue;
      add_error(diagnostics, b.place, unknown_case_of_spectrum(name, did_you_mean(name, names)));
    }
  }
  return diagnostics;
}

}  // namespace

double partial_factor_of(const Life& life) {
  return fatigue_partial_factor(
      life.damage_tolerant ? FatigueDesign::damage_tolerant : FatigueDesign::safe_life,
      life.high_consequence ? Consequence::high : Consequence::low);
}

bool FatigueScreening::passes() const {
  return worst < 0 || tubewright::passes(*members[static_cast<size_t>(worst)].result.utilisation);
}

std::vector<int> FatigueScreening::unchecked() const {
  std::vector<int> list;
  for (size_t i = 0; i < members.size(); ++i) {
    if (lacks_number(members[i].result)) list.push_back(static_cast<int>(i));
  }
  return list;
}

Result<std::optional<FatigueScreening>> fatigue_screening(const Analysis& analysis) {
  const Frame& frame = analysis.frame;
  const std::vector<Block> blocks = blocks_of(frame);
  if (blocks.empty()) return std::optional<FatigueScreening>();
  if (Diagnostics diagnostics = unknown_cases(frame, blocks); !diagnostics.empty())
    return diagnostics;
  SolvedCases cases(analysis);
  std::vector<std::string> names;
  for (const Block& b : blocks) names.insert(names.end(), {b.from, b.to});
  if (Diagnostics diagnostics = cases.provide(names); !diagnostics.empty()) return diagnostics;

  const Life life = frame.life.value_or(Life{});
  FatigueScreening s;
  s.counts = frame.life.has_value();
  s.category = life.category;
  s.gamma_Mf = partial_factor_of(life);
  s.source =
      life.category == Life{}.category
          ? "EN 1993-1-9 Table 8.6, rectangular tube fillet welded across its end (from memory)"
          : "given by the frame file";
  for (const Block& b : blocks) s.blocks.push_back({b.words, b.cycles});
  const Screen screen{blocks, cases, s.category, s.gamma_Mf};
  const NumberedFrame numbered = build_model(frame);
  const CheckFacts known = check_facts(frame, numbered);
  const std::vector<MemberFacts>& facts = known.members;
  const auto detail = [&](size_t i, size_t end) {
    return EndDetail{facts[i].section, facts[i].ends[end],
                     brace_hot_spot(facts, known.joint_ends[i][end], i), facts[i].material.yield};
  };
  for (size_t i = 0; i < frame.members.size(); ++i) {
    MemberFatigue m;
    if (!analysis.slots[i].is_beam) {
      m.result.reason = "pinned at both ends: its fittings are not modelled";
      m.result.needed = false;
    } else if (facts[i].metal == Metal::aluminium || facts[i].metal == Metal::other) {
      m.result.reason = "EN 1993-1-9 is for steel, and no other rule is checked";
    } else if (!(facts[i].material.yield > 0)) {
      m.result.reason = "the material has no yield strength to hold its ranges against";
    } else {
      m = screen.of_beam({detail(i, 0), detail(i, 1)}, analysis.slots[i].index);
      const bool worse =
          s.worst < 0 ||
          *m.result.utilisation > *s.members[static_cast<size_t>(s.worst)].result.utilisation;
      if (worse) s.worst = static_cast<int>(i);
    }
    s.members.push_back(std::move(m));
  }
  return std::optional(std::move(s));
}

}  // namespace tubewright
