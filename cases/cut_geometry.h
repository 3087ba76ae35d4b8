// Where each tube is cut: from the lines of the frame to the true shape of every piece.
//
// A tube that runs through a node is whole there; one that ends is cut along the face of what is
// there already. Who comes first at a node: tubes that run through, then by outer size, then as in
// the file. Two equal tubes that meet at a corner by themselves are mitred. A path that turns is
// cut and mitred where it turns. Rules: common practice, no source.
#pragma once

#include <Eigen/Core>
#include <array>
#include <string>
#include <vector>

#include "cases/build_model.h"
#include "cases/frame.h"

namespace tubewright {

/// A straight piece of stock: one member, or several in line of one path.
struct CutTube {
  std::string name;  ///< of the member or path; "rail.2" for the second straight run of a path
  std::vector<int> members;
  std::string section;
  std::array<int, 2> nodes{};  ///< at its ends
  Eigen::Matrix3d axes;        ///< rows: x from the first node to the second, y, z of the section
  double length = 0;           ///< node to node, m
};

/// The straight tubes and bars of the frame: beams, and links as bars from eye to eye. Cables and
/// springs are bought by their length and not among them.
std::vector<CutTube> cut_tubes(const Frame& frame, const NumberedFrame& numbered);

enum class EndKind {
  square,  ///< against nothing, or the outermost at a corner
  face,    ///< along the face of another tube
  mitre,   ///< against its twin
  edge,    ///< astride an edge of another tube: two planes, a notch
  saddle,  ///< against a round tube: coped; cut to the length given, then filed or sawn to fit
  eye      ///< of a link: a fitting, not a cut
};

/// A cut plane as the tube sees it: it begins at x = at + mitre y + bevel z from its node, inward
/// positive; y and z from the tube's axis.
struct CutPlane {
  double at = 0;
  double mitre = 0;  ///< slope along y
  double bevel = 0;  ///< slope along z
};

/// What one other tube takes away: where the tube begins is the least of its planes, two of them
/// where it sits astride an edge.
struct EndCut {
  std::vector<CutPlane> planes;
  int against = -1;  ///< the other tube, -1 for none
};

struct TubeEnd {
  EndKind kind = EndKind::square;
  /// The tube begins at the farthest of them; the one that makes most of the end comes first.
  std::vector<EndCut> cuts;

  /// Distance from the node at which the tube begins, at a place of its section.
  double begin(double y, double z) const;
};

struct CutPiece {
  CutTube tube;
  std::array<TubeEnd, 2> ends;  ///< the second seen from its own end: x inward, y as is
  double long_point = 0;        ///< between the farthest points: what is cut from the bar, m
  double short_point = 0;       ///< between the nearest points of the four corners
  double weld_length = 0;       ///< round both ends along the outer faces, m
};

/// One a tube of cut_tubes().
std::vector<CutPiece> cut_pieces(const Frame& frame, const NumberedFrame& numbered);

}  // namespace tubewright
