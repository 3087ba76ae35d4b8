// How an end of a tube is cut: planes, seen from the tube.
#pragma once

#include <vector>

namespace tubewright {

enum class EndKind {
  square,  ///< against nothing, or the outermost at a corner
  face,    ///< along the face of another tube
  mitre,   ///< against its twin, along the plane between them
  edge,    ///< astride an edge of another tube: two planes, a notch
  cope,    ///< against a round tube: coped; cut to the length given, then filed or sawn to fit
  eye,     ///< of a link: a fitting, not a cut
  joint    ///< turns, slides or gives there: square at its node, then cut to suit pin or bush
};

/// A cut plane as the tube sees it: it begins at x = at + mitre y + bevel z from its node, inward
/// positive; y and z from the tube's axis.
struct CutPlane {
  double at = 0;
  double mitre = 0;  ///< slope along y
  double bevel = 0;  ///< slope along z
};

double begin_at(const CutPlane& plane, double y, double z);

/// True if a plane runs along the tube, within 3 degrees: no cut, but the line between two of them.
bool only_divides(const CutPlane& plane);

/// What one other tube takes away: where the tube begins is the least of its planes, two of them
/// where it sits astride an edge. Planes that only divide say on which part of the section.
struct EndCut {
  std::vector<CutPlane> planes;
  int against = -1;  ///< the other tube, -1 for none
  EndKind kind = EndKind::square;
};

double begin_at(const EndCut& cut, double y, double z);

/// True if a tube stands on another there, not beside its twin nor free.
bool along_a_face(const EndCut& cut);

/// True for an end that is held by a pin, a bush or an eye and not by a weld.
bool is_fitting(EndKind kind);

struct TubeEnd {
  EndKind kind = EndKind::square;  ///< a cope if any cut is one, else of the first
  /// The tube begins at the farthest of them; the one that makes most of the end comes first.
  std::vector<EndCut> cuts;
  double weld_length = 0;  ///< along the outer faces, m: of a mitre half; 0: free, or a joint

  /// Distance from the node at which the tube begins, at a place of its section.
  double begin(double y, double z) const;
};

}  // namespace tubewright
