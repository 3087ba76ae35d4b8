// Which pieces come from which bar: one-dimensional cutting stock, bars all of one length.
//
// One bar, from its near end: end_trim | piece, kerf, piece, kerf, ... piece | end_trim.
// * U = bar_length - 2 end_trim is usable. end_trim includes the blade of the cut that takes it
// off.
// * A kerf is lost between neighbouring pieces, so n pieces fit if sum + (n - 1) kerf <= U.
// * The cut behind the last piece takes one more kerf, or what is left of U if that is less: the
//   blade then runs on into the far trim. A piece that ends at U is parted by the trim cut itself.
//   So rest = max(0, U - sum - n kerf), free of the far trim, which is still to come off it.
// Widths w = length + kerf in a capacity U + kerf make this the plain bin-packing problem.
#pragma once

#include <vector>

namespace tubewright {

struct Piece {
  double length = 0;  ///< m
  int count = 0;      ///< 0 or less: none
  int id = 0;         ///< the caller's, free; need not be unique
};

/// A kerf or trim below zero, or not a number, counts as zero. Of a kerf as long as the bar, one
/// piece a bar is left.
struct NestingOptions {
  double bar_length = 0;  ///< m
  double kerf = 0;        ///< m
  double end_trim = 0;    ///< m, at each end
};

struct CutBar {
  std::vector<int> pieces;  ///< ids, longest first
  double rest = 0;          ///< usable off-cut, m
};

struct Nesting {
  std::vector<CutBar> bars;  ///< fullest first: the longest off-cut is the last bar's
  int bars_needed = 0;       ///< = bars.size()
  int lower_bound = 0;       ///< proven: the pieces that fit a bar do not come from fewer
  bool optimal = false;      ///< bars_needed == lower_bound, and not too_many
  double longest_rest = 0;   ///< of any bar, m
  /// No cut list with as many bars leaves an off-cut longer by 1 mm or more.
  bool longest_rest_proven = false;
  double waste = 0;            ///< bought less pieces: kerfs, trims and all off-cuts, m
  std::vector<int> too_long;   ///< ids longer than usable_length(): in no bar, each entry once
  std::vector<int> no_length;  ///< ids whose length is not a number or below 1 um: in no bar
  bool too_many = false;       ///< more than most_nested_pieces fit a bar: bars is empty
};

inline constexpr int most_nested_pieces = 10000;

/// U above, m; 0 if nothing is left, or if the bar is longer than 10 km or not a number.
double usable_length(const NestingOptions& options);

/// The fewest bars and, among cut lists with as many, the longest single off-cut: both exact where
/// the bounded search ends in time (`optimal`, `longest_rest_proven`), else the best found. The
/// effort is bounded in steps, not seconds: the same pieces in any order give the same bars.
/// Lengths count to 1 nm; a bar may be over-full by 1 um, so that three times 5/3 m fit in 5 m.
Nesting nest_pieces(const std::vector<Piece>& pieces, const NestingOptions& options);

}  // namespace tubewright
