#include "cases/studies/floor_study.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <set>

#include "cases/analysis/analysis.h"
#include "cases/analysis/frame_edits.h"
#include "cases/frame/find_parts.h"
#include "cases/model/mass_distribution.h"
#include "cases/studies/torsion.h"

namespace tubewright {

namespace {

void note_worst(FloorOption& o, const Analysis& analysis) {
  o.worst = worst_of_all(analysis);
  for (const CaseResult& c : analysis.cases) {
    for (const PanelResult& p : c.panels) {
      for (const NamedCheck& check : p.checks) {
        if (!check.name.starts_with("rivet") || !check.result.utilisation) continue;
        o.rivet_utilisation = std::max(o.rivet_utilisation.value_or(0), *check.result.utilisation);
      }
    }
  }
}

/// `trouble`: set, if asked for, where the load cases have no answer.
FloorOption option(const Frame& frame, const std::string& words, Problems* trouble = nullptr) {
  FloorOption o;
  o.words = words;
  const MassSummary mass = mass_summary(frame, build_model(frame));
  o.mass = mass.tubes + mass.panels;
  o.stiffness = torsional_stiffness(frame);
  if (o.stiffness) o.frequency = torsion_frequency_estimate(frame, *o.stiffness);
  if (!frame.cases.empty()) {
    const AnalysisOutcome outcome = analyse(frame);
    if (const auto* analysis = std::get_if<Analysis>(&outcome))
      note_worst(o, *analysis);
    else if (trouble != nullptr)
      *trouble = std::get<Problems>(outcome);
  }
  return o;
}

void compare(FloorOption& o, const FloorOption& without) {
  if (!o.stiffness || !without.stiffness || !(o.mass > without.mass)) return;
  o.gain_per_kg = (*o.stiffness - *without.stiffness) / (o.mass - without.mass);
}

FloorOption diagonal_option(const Frame& frame) {
  DiagonalFrame best = with_diagonals(frame, false);
  DiagonalFrame other = with_diagonals(frame, true);
  const double first = torsional_stiffness(best.frame).value_or(0);
  if (torsional_stiffness(other.frame).value_or(0) > first) best = std::move(other);
  FloorOption o = option(best.frame, "tube diagonals of the same mass");
  o.sizes = std::move(best.sizes);
  return o;
}

SheetTrial trial_of(const Frame& frame) {
  const Sheet& sheet = find_sheet(frame, frame.panels.front().sheet);
  return {sheet.thickness, sheet.rivet ? std::optional(sheet.rivet->pitch) : std::nullopt,
          panels_mass(frame), torsional_stiffness(frame)};
}

template <class Value>
std::vector<double> with_own(std::initializer_list<double> usual, const Frame& frame, Value value) {
  std::set<double> values(usual);
  for (const Sheet& sheet : frame.sheets) {
    if (const std::optional<double> own = value(sheet)) values.insert(*own);
  }
  return {values.begin(), values.end()};
}

std::vector<SheetTrial> sheet_trials(const Frame& frame) {
  const bool riveted = std::any_of(frame.sheets.begin(), frame.sheets.end(),
                                   [](const Sheet& s) { return s.rivet.has_value(); });
  const auto thickness = with_own({0.8e-3, 1.0e-3, 1.2e-3, 1.5e-3, 2.0e-3}, frame,
                                  [](const Sheet& s) { return std::optional(s.thickness); });
  std::vector<double> pitch;
  if (riveted) {
    pitch = with_own({0.025, 0.050, 0.100}, frame, [](const Sheet& s) {
      return s.rivet ? std::optional(s.rivet->pitch) : std::nullopt;
    });
  }
  std::vector<SheetTrial> trials;
  for (const double t : thickness) {
    if (!riveted) trials.push_back(trial_of(with_sheets(frame, t, std::nullopt)));
    for (const double p : pitch) trials.push_back(trial_of(with_sheets(frame, t, p)));
  }
  return trials;
}

}  // namespace

bool floor_passes(const Frame& frame, const FloorStudy& s) {
  const std::optional<double>& wanted = frame.limits.torsional_stiffness;
  const bool stiff_enough = !wanted || (s.usual.stiffness && *s.usual.stiffness >= *wanted);
  return stiff_enough && (!s.usual.worst || passes(s.usual.worst->utilisation));
}

std::optional<double> torsion_frequency_estimate(const Frame& frame, double stiffness) {
  const NumberedFrame n = build_model(frame);
  const MassDistribution d = mass_distribution(frame, n);
  const MassProperties all = mass_properties(n.model, d);
  double middle = 0;
  for (const auto* pair : {&frame.torsion->front, &frame.torsion->rear}) {
    for (const std::string& name : *pair) middle += n.model.nodes[n.node.at(name)].x() / 4;
  }
  double ahead = 0, behind = 0;
  const auto add = [&](double mass, const Eigen::Vector3d& at, double own) {
    const double dy = at.y() - all.centre.y(), dz = at.z() - all.centre.z();
    (at.x() > middle ? ahead : behind) += mass * (dy * dy + dz * dz) + own;
  };
  for (const Rod& rod : d.rods) {
    const Eigen::Vector3d &a = n.model.nodes[n.model.beams[rod.beam].from],
                          &b = n.model.nodes[n.model.beams[rod.beam].to];
    constexpr int pieces = 16;
    for (int i = 0; i < pieces; ++i) {
      add(rod.per_length * (b - a).norm() / pieces, a + (i + 0.5) / pieces * (b - a), 0);
    }
  }
  for (const Lump& lump : d.lumps) add(lump.mass, lump.at, lump.inertia(0, 0));
  if (!(ahead > 0) || !(behind > 0)) return std::nullopt;
  return std::sqrt(stiffness * (1 / ahead + 1 / behind)) / (2 * std::numbers::pi);
}

FloorOutcome floor_study(const Frame& frame) {
  FloorStudy s;
  s.panels_mass = panels_mass(frame);
  s.guessed_rivets = rivets_are_guessed(frame);
  // What is wrong with the frame even with its sheets is the answer.
  Problems trouble;
  s.usual = option(frame, "with the sheet", &trouble);
  if (!s.usual.stiffness) return std::get<Problems>(torsion_test(frame, TorsionHold::free));
  if (!trouble.empty()) return trouble;
  s.without = option(without_panels(frame), "without the sheet");
  if (s.guessed_rivets) {
    s.low = option(with_rivets(frame, RivetBand::low), "with the sheet, rivets soft");
    s.high = option(with_rivets(frame, RivetBand::high), "with the sheet, rivets stiff");
  } else {
    s.low = s.high = s.usual;
  }
  s.diagonal = diagonal_option(frame);
  ThickerFrame thicker = with_thicker_tubes(frame);
  s.thicker = option(thicker.frame, "heavier floor tubes of the same mass");
  s.thicker.sizes = std::move(thicker.sizes);
  for (FloorOption* o : {&s.low, &s.usual, &s.high, &s.diagonal, &s.thicker})
    compare(*o, s.without);
  s.sweep = sheet_trials(frame);
  s.epoxied = trial_of(with_epoxy(frame));
  s.thicker_sheet = trial_of(with_sheets_times(frame, 1.5, 1));
  if (s.sweep.front().pitch) s.half_pitch = trial_of(with_sheets_times(frame, 1, 0.5));
  s.verdict = floor_verdict(s);
  return s;
}

}  // namespace tubewright
