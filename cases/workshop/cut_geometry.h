// Where each tube is cut: from the lines of the frame to the true shape of every piece.
//
// A tube that runs through a node is whole there; one that ends is cut along the face of what is
// there already, or past its end. Who comes first at a node:
// 1. the tube that runs through; of several the biggest, the others are cut in two there;
// 2. of those that end, the bigger by its outer size;
// 3. of one size, runs that go on: of a path that turns, or in line within 10 degrees;
// 4. then as in the file, where an image in a plane that mirrors most of the frame
//    (frame_symmetry.h) counts as standing beside its original. Left and right come out alike.
// Two of one size share the room by the plane between them (a mitre) if they are runs that go on,
// or images of each other in that plane through the node and it mirrors all that came before them,
// so that none has a reason to be first. Left to the file are free corners, where neither stands on
// anything, if they are sharper than square, or square and of three or more (a box): there a square
// end and a face are less work than points. The first at a node, if nothing holds it, reaches to
// the outside.
// Tubes that leave a node within 10 degrees of each other are not cut against each other: a drawing
// by lines does not say how they lie. A plane that would take off less than 1 mm is left out.
// Rules: common practice, no source. tests/cases/workshop/cut_solids_test.cpp proves the pieces as
// solids: nothing overlaps.
#pragma once

#include <Eigen/Core>
#include <array>
#include <string>
#include <vector>

#include "cases/frame/frame.h"
#include "cases/frame/frame_symmetry.h"
#include "cases/model/build_model.h"

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

/// The nodes a tube runs through, in order, without those at its ends.
std::vector<int> inner_nodes(const Frame& frame, const NumberedFrame& numbered,
                             const CutTube& tube);

std::vector<DrawnTube> drawn_tubes(const Frame& frame, const NumberedFrame& numbered,
                                   const std::vector<CutTube>& tubes);

enum class EndKind {
  square,  ///< against nothing, or the outermost at a corner
  face,    ///< along the face of another tube
  mitre,   ///< against its twin, along the plane between them
  edge,    ///< astride an edge of another tube: two planes, a notch
  cope,    ///< against a round tube: coped; cut to the length given, then filed or sawn to fit
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
/// where it sits astride an edge. Planes that only divide say on which part of the section.
struct EndCut {
  std::vector<CutPlane> planes;
  int against = -1;  ///< the other tube, -1 for none
  EndKind kind = EndKind::square;
};

double begin_at(const EndCut& cut, double y, double z);

/// True if a plane runs along the tube, within 3 degrees: no cut, but the line between two of them.
bool only_divides(const CutPlane& plane);

/// True if a tube stands on another there, not beside its twin nor free.
bool along_a_face(const EndCut& cut);

struct TubeEnd {
  EndKind kind = EndKind::square;  ///< a cope if any cut is one, else of the first
  /// The tube begins at the farthest of them; the one that makes most of the end comes first.
  std::vector<EndCut> cuts;
  double weld_length = 0;  ///< along the outer faces, m: of a mitre half; 0: free, or released

  /// Distance from the node at which the tube begins, at a place of its section.
  double begin(double y, double z) const;
};

struct CutPiece {
  CutTube tube;
  std::array<TubeEnd, 2> ends;  ///< of the second x runs inward too, y and z stay
  double long_point = 0;        ///< between the farthest points: what is cut from the bar, m
  double short_point = 0;       ///< between the nearest points of the four corners
  double weld_length = 0;       ///< of both ends, m
};

/// One a tube of cut_tubes().
std::vector<CutPiece> cut_pieces(const Frame& frame, const NumberedFrame& numbered);

}  // namespace tubewright
