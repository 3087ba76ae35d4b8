// What the numbers of a floor study mean, in words.
#include <algorithm>
#include <cmath>

#include "cases/frame/wording.h"
#include "cases/studies/floor_study.h"
#include "solver/model/angle.h"

namespace tubewright {

namespace {

// A sheet that adds less than this share closes no torque tube worth the name; tubes that do as
// well as the sheet within the second share are no better than it (judgement).
constexpr double hardly_any_gain = 0.02;
constexpr double as_good = 0.10;

std::string stiffness(const std::optional<double>& K) {
  return K ? decimals(*K * degree, *K * degree < 100 ? 1 : 0) + " N m/deg" : "none";
}

std::string times(double ratio) { return decimals(ratio, ratio < 10 ? 2 : 0) + " times"; }

double gain(const FloorOption& o) { return o.gain_per_kg.value_or(0); }

/// The rivets' stiffness is a guess, and it matters.
bool rivets_matter(const FloorStudy& s) {
  return s.guessed_rivets && s.low.stiffness && s.high.stiffness &&
         *s.high.stiffness > 1.01 * *s.low.stiffness;
}

/// The better of the two ways to spend the mass on tubes.
const FloorOption& best_tubes(const FloorStudy& s) {
  return gain(s.thicker) > gain(s.diagonal) ? s.thicker : s.diagonal;
}

bool beats_tubes(const FloorOption& sheet, const FloorStudy& s) {
  return gain(sheet) >= gain(best_tubes(s));
}

std::string used(const FloorOption& o) {
  return decimals(o.worst->utilisation, 2) + " of the limit";
}

std::vector<std::string> reasons(const FloorStudy& s) {
  std::vector<std::string> list;
  if (s.without.stiffness) {
    list.emplace_back("torsional stiffness " + stiffness(s.without.stiffness) +
                      " without the sheet, " + stiffness(s.usual.stiffness) + " with it (" +
                      times(*s.usual.stiffness / *s.without.stiffness) + "), for " +
                      decimals(s.panels_mass, 2) + " kg");
  } else {
    list.emplace_back("without the sheet the frame is loose: the sheet is part of the structure");
  }
  if (rivets_matter(s)) {
    list.emplace_back("how stiff the rivets are is not known: " + stiffness(s.low.stiffness) +
                      " if soft, " + stiffness(s.high.stiffness) + " if stiff");
  }
  list.emplace_back("the same mass in tube diagonals gives " + stiffness(s.diagonal.stiffness) +
                    ", in heavier floor tubes " + stiffness(s.thicker.stiffness));
  if (s.usual.rivet_utilisation) {
    list.emplace_back("the rivets are loaded to " + decimals(*s.usual.rivet_utilisation, 2) +
                      " of what they may carry");
  }
  if (s.without.worst && s.usual.worst) {
    list.emplace_back("the item nearest its limit is at " + used(s.without) +
                      " without the sheet (" + s.without.worst->item + ") and at " + used(s.usual) +
                      " with it (" + s.usual.worst->item + ")");
  }
  return list;
}

std::vector<std::string> changes(const FloorStudy& s) {
  std::vector<std::string> list;
  const double K = s.usual.stiffness.value_or(0);
  const auto add = [&](const std::optional<SheetTrial>& trial, const std::string& words) {
    if (!trial || !trial->stiffness || std::abs(*trial->stiffness / K - 1) < 0.01) return;
    const double more = trial->panels_mass - s.panels_mass;
    list.push_back(words + ": " + stiffness(trial->stiffness) +
                   (more > 0.005 ? ", " + decimals(more, 2) + " kg more" : ""));
  };
  if (s.half_pitch) {
    add(s.half_pitch, "rivets every " + decimals(*s.half_pitch->pitch * 1e3, 0) + " mm");
  }
  add(s.epoxied, "a structural epoxy bond as well, 20 mm wide");
  if (s.thicker_sheet) {
    add(s.thicker_sheet, "sheet of " + decimals(s.thicker_sheet->thickness * 1e3, 2) + " mm");
  }
  if (list.empty()) {
    list.emplace_back(
        "neither closer rivets nor a bond nor a thicker sheet changes it by a hundredth");
  }
  return list;
}

bool rivets_overloaded(const FloorStudy& s) {
  return s.usual.rivet_utilisation && !passes(*s.usual.rivet_utilisation);
}

/// Answer and sentence by what the sheet adds to the torsional stiffness, and tubes would.
FloorVerdict by_stiffness(const FloorStudy& s) {
  FloorVerdict v;
  const FloorOption& tubes = best_tubes(s);
  const std::string instead = &tubes == &s.thicker ? "heavier floor tubes" : "tube diagonals";
  if (!s.without.stiffness) {
    v.answer = rivets_overloaded(s) ? FloorAnswer::depends : FloorAnswer::pays;
    v.sentence = "The frame needs the sheet: without it, it is loose.";
  } else if (*s.usual.stiffness < (1 + hardly_any_gain) * *s.without.stiffness) {
    v.answer = FloorAnswer::does_not_pay;
    v.sentence =
        "No: in torsion the sheet does next to nothing here, because it closes no box whose other "
        "sides are braced or clad, or its bays are braced already. Fit it to keep feet and dirt "
        "out, "
        "not for stiffness.";
  } else if (beats_tubes(s.low, s)) {
    v.answer = FloorAnswer::pays;
    v.sentence = "Yes: it adds " + stiffness(gain(s.usual)) + " for each kilogram, " +
                 (rivets_matter(s) ? "and even with soft rivets more than " : "more than ") +
                 instead + " of the same mass would (" + stiffness(gain(tubes)) +
                 " for each kilogram).";
  } else if (beats_tubes(s.high, s)) {
    v.answer = FloorAnswer::depends;
    v.sentence = "It depends on the rivets: stiff ones make the sheet better than " + instead +
                 " of the same mass, soft ones do not.";
  } else if (gain(s.usual) >= (1 - as_good) * gain(tubes)) {
    v.answer = FloorAnswer::depends;
    v.sentence = "It is a draw: " + instead +
                 " of the same mass do about as well. If a floor has to "
                 "be there anyway, let it do the work.";
  } else {
    v.answer = FloorAnswer::does_not_pay;
    v.sentence = "No, not for stiffness alone: " + instead + " of the same mass add " +
                 stiffness(gain(tubes)) + " for each kilogram, the sheet " +
                 stiffness(gain(s.usual)) + ". A floor that has to be there anyway still helps.";
  }
  return v;
}

}  // namespace

FloorVerdict floor_verdict(const FloorStudy& s) {
  FloorVerdict v = by_stiffness(s);
  v.reasons = reasons(s);
  v.changes = changes(s);
  const bool holds_only_with_it = s.without.worst && !passes(s.without.worst->utilisation) &&
                                  s.usual.worst && passes(s.usual.worst->utilisation);
  if (holds_only_with_it && v.answer == FloorAnswer::does_not_pay) {
    v.answer = FloorAnswer::depends;
    v.sentence += " But without it the frame does not hold: " + s.without.worst->item + " is at " +
                  used(s.without) + " in case " + s.without.worst->load_case + ".";
  }
  if (rivets_overloaded(s)) {
    if (v.answer == FloorAnswer::pays) v.answer = FloorAnswer::depends;
    v.sentence += " As drawn its rivets are overloaded: do not count on it before they hold.";
  }
  return v;
}

}  // namespace tubewright
