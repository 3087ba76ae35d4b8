#include "cases/studies/floor_study.h"

#include <algorithm>
#include <cmath>
#include <set>

#include "cases/analysis/analysis.h"
#include "cases/analysis/frame_edits.h"
#include "cases/frame/find_parts.h"
#include "cases/studies/frame_modes.h"
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

/// As `modes` finds it.
std::optional<double> own_frequency(const Frame& frame) {
  constexpr int lowest = 1;
  const Result<FrameModes> modes = frame_modes(frame, lowest);
  const FrameMode* mode = modes ? lowest_elastic(*modes) : nullptr;
  return mode ? std::optional(mode->frequency) : std::nullopt;
}

/// `trouble`: set, if asked for, where the load cases have no answer.
FloorOption option(const Frame& frame, const std::string& words, Diagnostics* trouble = nullptr) {
  FloorOption o;
  o.words = words;
  const MassSummary mass = mass_summary(frame, build_model(frame));
  o.mass = mass.tubes + mass.panels;
  o.stiffness = torsional_stiffness(frame);
  if (o.stiffness) o.frequency = own_frequency(frame);
  if (!frame.cases.empty()) {
    const Result<Analysis> outcome = analyse(frame);
    if (const auto* analysis = outcome.get())
      note_worst(o, *analysis);
    else if (trouble != nullptr)
      *trouble = *outcome.error();
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

Result<FloorStudy> floor_study(const Frame& frame) {
  FloorStudy s;
  s.panels_mass = panels_mass(frame);
  s.guessed_rivets = rivets_are_guessed(frame);
  // What is wrong with the frame even with its sheets is the answer.
  Diagnostics trouble;
  s.usual = option(frame, "with the sheet", &trouble);
  if (!s.usual.stiffness) return *torsion_test(frame, TorsionHold::free).error();
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
