// The lightest or cheapest sizes from the stock list that meet every limit of a frame, with the
// proof that nothing lighter does, or how far the best found may be from it.
//
// Every design that is answered was analysed as its own frame file would be: all cases, all checks,
// its own weight and joints. The search that proposes designs is choice_search.h; what it leaves
// out it leaves out by bounds that hold for every design (response_cuts.h, truss_relaxation.h) or
// because the design itself was analysed and fails.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "cases/analysis/analysis.h"
#include "cases/analysis/tell_step.h"
#include "cases/changes/tube_edits.h"
#include "cases/frame/diagnostic.h"
#include "cases/frame/frame.h"
#include "cases/verdict/verdict.h"

namespace tubewright {

/// Tubes that get one size, and the sizes there are for them.
struct SizedTubes {
  std::string name;                 ///< of the file's group, else of its first member
  MemberSet members;                ///< ascending
  std::vector<StockSize> stock;     ///< lightest first (cheapest, where that is asked for)
  std::vector<SectionEntry> sizes;  ///< the section of the first member in each
  std::vector<double> masses;       ///< of the group in each, kg
  std::vector<double> costs;        ///< likewise, in the currency of `stock`; empty: no prices
  SectionEntry now;                 ///< of the first member in the file
};

/// A choice of sizes, analysed.
struct SizedDesign {
  std::vector<int> choice;     ///< place in SizedTubes::sizes, one a group; -1: as in the file
  double mass = 0;             ///< of all tubes and panels, kg
  std::optional<double> cost;  ///< of the sized tubes, in the currency of `stock`
  /// The worst of each case, and each limit, that is not met, worst first. A mechanism or a frame
  /// without an answer: "no_answer", infinite.
  std::vector<Failure> excesses;
  std::optional<WorstOfAll> worst;  ///< nearest its limit, over the cases
  std::optional<double> stiffness;  ///< torsional, N m/rad
  std::optional<double> frequency;  ///< Hz, where a limit asks for it

  bool passes() const { return excesses.empty(); }
};

/// What keeps a group from the next lighter size of its list.
struct GoverningLimit {
  bool lightest = false;               ///< it has none
  std::optional<SizedDesign> lighter;  ///< the answer with the group one size lighter
};

struct SizeOptions {
  bool cheapest = false;   ///< by cost instead of mass
  bool fail_safe = false;  ///< with any one weld broken too, at safety factor 1.0
  double seconds = 300;    ///< what the search may take
};

struct SizeStudy {
  SizeOptions options;
  std::vector<SizedTubes> groups;
  bool stiffness_asked = false;           ///< the file limits the torsional stiffness
  double kept_mass = 0;                   ///< tubes and panels that are not sized, kg
  std::vector<std::string> without_size;  ///< tubes held since the list has none of their shape
  SizedDesign now;                  ///< as in the file; choice -1 where its size is not in the list
  std::optional<SizedDesign> best;  ///< none: no design was found that passes
  bool proved = false;            ///< no lighter (cheaper) one exists; without `best`: none at all
  double bound = 0;               ///< no design that passes is lighter (cheaper): mass, kg, or cost
  double gap = 0;                 ///< (best - bound)/best; 0 where proved; infinite without `best`
  std::vector<SizedDesign> ties;  ///< others that weigh (cost) the same and pass
  bool all_ties = false;          ///< there are no more of them
  /// The nearest lighter (cheaper) design there is, and what it breaks; none: there is none.
  std::optional<SizedDesign> next;
  std::vector<GoverningLimit> governs;  ///< one a group, of `best`
  /// Where there is no `best`: all groups in their heaviest size, and of what was analysed that
  /// which exceeds its limits least.
  std::optional<SizedDesign> heaviest, least_violated;
  /// Then those limits, not met, that come out the same with the lightest and the heaviest sizes:
  /// what is sized has nothing to do with them.
  std::vector<Failure> out_of_reach;
  double designs = 0;  ///< how many there are; may be infinite
  int rounds = 0;      ///< of the search
  int analysed = 0;    ///< designs
};

/// The frame with the sizes of a design.
Frame in_sizes(const Frame& frame, const std::vector<SizedTubes>& groups,
               const std::vector<int>& choice);

/// Errors: no answer in any size, as of a mechanism; nothing to size, no size for a group, groups
/// of different shapes, pieces of one tube or mirror images in different groups, sizes without a
/// price where cost counts, no limit at all. Requires: the frame is sound.
Result<SizeStudy> size_study(const Frame& frame, const SizeOptions& options = {},
                             const TellStep& tell = tell_nobody);

}  // namespace tubewright
