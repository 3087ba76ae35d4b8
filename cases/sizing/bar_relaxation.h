// A box of sizes of axially loaded bars bounded by a linear programme that knows forces.
//
// With A = lo + a (hi - lo), a from 0 to 1, and D = kappa (hi - lo) the equations of equilibrium
// are
//   K(lo) u + sum_i D_i r_i b_i = f,  r_i = a_g e_i,  e_i = b_i'u
// and r lies between the four planes of McCormick over a in [0, 1] and the elongations that the
// bar's checks allow (G. P. McCormick, Math. Programming 10 (1976) 147-175; from memory). u is
// eliminated by K(lo)^-1. Limits on displacements are rows, and so are cuts, with the chord over
// the box for what is convex in A. Where the programme ends, new cuts are made.
#pragma once

#include <utility>
#include <vector>

#include "cases/sizing/bar_structure.h"
#include "cases/sizing/choice_search.h"
#include "cases/sizing/cut_relaxation.h"

namespace tubewright {

class BarRelaxation : public Relaxation {
 public:
  BarRelaxation(BarStructure structure, double fixed_mass, CutSource source);

  BoxAnswer bound(const ChoiceBox& box, double cutoff) const override;
  void learn(const SeparableCut& cut) override { cuts_.push_back(cut); }
  /// Areas and elongations by programmes that look for their extremes below the cutoff.
  ChoiceBox narrow(const ChoiceBox& box, double cutoff) override;

  /// By the bars' own checks and the limits, with a margin for rounding.
  bool surely_fails(const Choice& choice) const;

 private:
  double mass_of(const Choice& choice) const;

  BarStructure s_;
  double fixed_mass_;
  CutSource source_;
  std::vector<SeparableCut> cuts_;
  std::vector<std::vector<Elongation>> known_;  ///< of every choice up to the cutoff; a case, a bar
};

/// The greatest of the bars' elongations and the limits over what is allowed, for a choice.
struct GreatestUse {
  double use = 0;  ///< infinite: it is a mechanism
  int bar = -1;    ///< -1: a limit
};

GreatestUse greatest_use(const BarStructure& structure, const Choice& choice);

}  // namespace tubewright
