// The cheapest choice of one entry from each of several lists that passes a test, by branch and
// bound, with the proof that none is cheaper.
//
// Lists are in ascending order of cost. A box of choices is bounded from below by a relaxation,
// tightened, and split; the choice that a relaxation ends at is tested. Nothing is dropped but
// boxes that are bounded above the best found, boxes that are proved to hold nothing that passes,
// and choices that were tested. Boxes are taken in rounds of a fixed number, cheapest first, so
// that the answer does not depend on how many processors work on a round.
#pragma once

#include <functional>
#include <vector>

#include "cases/analysis/tell_step.h"

namespace tubewright {

/// One entry of each list, by its place.
using Choice = std::vector<int>;

/// From `first` to `last` of each list, both included.
struct ChoiceBox {
  Choice first, last;

  bool single() const { return first == last; }
};

/// sum over lists of weights[list][entry chosen] >= least, for every choice that passes.
struct SeparableCut {
  std::vector<std::vector<double>> weights;
  double least = 0;
};

struct BoxAnswer {
  bool empty = false;  ///< proved: nothing in the box passes at a cost up to the cutoff
  double bound = 0;    ///< nothing in it that does costs less
  ChoiceBox box;       ///< what of it is left to look at
  Choice proposal;     ///< to be tested; empty: none
  /// The relaxation ends at the proposal: if it fails, only it need be left out.
  bool exact = false;
  int branch = -1;                 ///< list to split, else the widest
  int split = -1;                  ///< last entry of the cheaper half
  std::vector<SeparableCut> cuts;  ///< found on the way; good for every box
};

class Relaxation {
 public:
  virtual ~Relaxation() = default;
  /// `cutoff`: what costs more need not be told apart. Called on several threads at once.
  virtual BoxAnswer bound(const ChoiceBox& box, double cutoff) const = 0;
  virtual void learn(const SeparableCut& cut) = 0;
  /// What is left of a box when only choices up to the cutoff count; may remember what it found for
  /// every box within it. Called between rounds.
  virtual ChoiceBox narrow(const ChoiceBox& box, double cutoff);
};

struct ChoiceSearch {
  std::vector<std::vector<double>> costs;     ///< of each list, ascending
  double fixed_cost = 0;                      ///< of what is not chosen
  std::function<bool(const Choice&)> passes;  ///< called on several threads at once
  /// A quick judgement, if there is one: true only where it is beyond doubt that it does not pass.
  std::function<bool(const Choice&)> surely_fails;
  double seconds = 60;
  TellStep tell = tell_nobody;
};

struct SearchAnswer {
  std::vector<Choice> best;  ///< all cheapest ones found, in the order of their places
  double cost = 0;           ///< of these; infinite: none was found
  double bound = 0;          ///< no choice that passes costs less; infinite: none passes
  bool proved = false;       ///< the search ended: bound is cost, and `best` are all there are
  int rounds = 0;
};

/// Costs that differ by less, relative to the whole, are the same.
constexpr double same_cost = 1e-9;

double cost_of(const ChoiceSearch& search, const Choice& choice);

/// `start`: choices that are known to pass.
SearchAnswer find_cheapest(const ChoiceSearch& search, Relaxation& relaxation,
                           const std::vector<Choice>& start);

}  // namespace tubewright
