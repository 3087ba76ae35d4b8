#include "cases/verdict/fatigue_screening.h"

#include <algorithm>
#include <cmath>

#include "cases/analysis/analysis.h"
#include "cases/frame/nearest_name.h"
#include "cases/frame/wording.h"
#include "cases/model/case_actions.h"
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

struct Screen {
  const std::vector<Block>& blocks;
  const SolvedCases& cases;
  double category;
  double gamma;

  std::vector<StressBlock> spectrum(const std::vector<double>& ranges, double divisor) const {
    std::vector<StressBlock> s;
    for (size_t b = 0; b < blocks.size(); ++b) s.push_back({ranges[b] / divisor, blocks[b].cycles});
    return s;
  }

  double damage(const std::vector<double>& ranges, double divisor) const {
    return miner_sum(spectrum(ranges, divisor), category / gamma, FatigueCurve::direct_stress);
  }

  /// Ranges at the point of an end that is hit hardest: the greatest sum of cycles times range
  /// cubed, as if there were no cut-off.
  std::vector<double> worst_ranges(const Section& section, int beam, int end) const {
    std::vector<std::vector<double>> at_points;
    for (const Block& b : blocks) {
      const std::vector<double> stresses = normal_stresses(
          section, difference(cases.at(b.to, beam, end), cases.at(b.from, beam, end), b.factor));
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

  /// What ranges may be divided by until Miner's sum is 1.
  double utilisation(const std::vector<double>& ranges) const {
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

  MemberFatigue of_beam(const Section& section, int beam) const {
    MemberFatigue m;
    double worst = -1;
    for (const int end : {0, 1}) {
      const std::vector<double> ranges = worst_ranges(section, beam, end);
      const double used = utilisation(ranges);
      if (used <= worst) continue;
      worst = used;
      m.end = end;
      m.ranges = ranges;
    }
    m.damage = damage(m.ranges, 1);
    m.cycles = cycles_to_failure(m.ranges.front(), category / gamma, FatigueCurve::direct_stress);
    m.result.utilisation = worst;
    m.result.clause = "EN 1993-1-9 7.1, Annex A.5";
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

bool FatigueScreening::passes() const {
  return worst < 0 || tubewright::passes(*members[static_cast<size_t>(worst)].result.utilisation);
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
  s.gamma_Mf = fatigue_partial_factor(
      life.damage_tolerant ? FatigueDesign::damage_tolerant : FatigueDesign::safe_life,
      life.high_consequence ? Consequence::high : Consequence::low);
  s.source =
      life.category == Life{}.category
          ? "EN 1993-1-9 Table 8.6, rectangular tube fillet welded across its end (from memory)"
          : "given by the frame file";
  for (const Block& b : blocks) s.blocks.push_back({b.words, b.cycles});
  const Screen screen{blocks, cases, s.category, s.gamma_Mf};
  const std::vector<MemberFacts> facts = member_facts(frame, build_model(frame));
  for (size_t i = 0; i < frame.members.size(); ++i) {
    MemberFatigue m;
    if (!analysis.slots[i].is_beam) {
      m.result.reason = "pinned at both ends: its fittings are not modelled";
      m.result.needed = false;
    } else if (facts[i].metal == Metal::aluminium || facts[i].metal == Metal::other) {
      m.result.reason = "EN 1993-1-9 is for steel";
    } else {
      m = screen.of_beam(facts[i].section, analysis.slots[i].index);
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
