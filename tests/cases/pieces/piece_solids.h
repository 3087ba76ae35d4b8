// Cut pieces as solids of VTK: a check of cut geometry by a library that knows nothing of it.
//
// A piece is its outer prism (corners sharp; a round tube a cylinder) cut by its end planes: within
// one EndCut the union of the half-spaces, between them the intersection, as TubeEnd::begin says.
#pragma once

#include <vtkImplicitFunction.h>
#include <vtkSmartPointer.h>

#include <Eigen/Core>
#include <string>
#include <vector>

#include "cases/frame/frame.h"
#include "cases/pieces/cut_geometry.h"

namespace tubewright::testing {

struct PieceSolid {
  CutPiece piece;
  Eigen::Vector3d origin;                      ///< its first node
  double half_y = 0, half_z = 0;               ///< m
  bool round = false;                          ///< tube or bar
  std::vector<int> nodes;                      ///< all it ends at or runs through
  vtkSmartPointer<vtkImplicitFunction> cut;    ///< below zero inside, by the depth in m
  vtkSmartPointer<vtkImplicitFunction> prism;  ///< the same without its ends

  bool link() const;  ///< a bar between eyes: lies in nothing's way

  /// From the frame of the piece to global.
  Eigen::Vector3d place(double x, double y, double z) const;
  /// The same seen from one of its ends, x inward.
  Eigen::Vector3d place_from(int end, double x, double y, double z) const;
};

/// One a piece, in their order, since EndCut::against counts them.
std::vector<PieceSolid> solids_of(const Frame& frame, const std::vector<CutPiece>& pieces);

/// What two pieces have in common near the nodes they share.
struct Overlap {
  std::string first, second;
  double volume = 0;  ///< m3
  double depth = 0;   ///< of the point deepest inside both, m
};

/// Every pair that is welded at a node, with anything in common deeper than `deeper`, by counting
/// points of a grid, 0.5 mm along a tube and 2 mm across. Left out is a tube on a round one: its
/// saddle is filed to fit.
std::vector<Overlap> overlaps(const std::vector<PieceSolid>& solids, double deeper);

/// How well an end lies on what it stands against, along the axis of its tube.
struct Contact {
  std::string piece;
  int end = 0;
  EndKind kind = EndKind::square;
  double touching = 0;  ///< share of the rim that has something behind it within 1 mm
  /// Share of the rim cut for a tube that is not there, because that is cut off itself. Where the
  /// end is wider than the face it stands on there is nothing behind it either, but nothing is
  /// missing.
  double missing = 0;
  double gap = 0;  ///< the widest to anything where some is missing, 60 mm at most, m
};

/// Of every end that is cut against something.
std::vector<Contact> contacts(const std::vector<PieceSolid>& solids);

/// Volume by vtkMassProperties of the prism clipped by the first plane of each end, m3. Requires: a
/// square or rectangular outline, one plane an end.
double clipped_volume(const PieceSolid& solid);

}  // namespace tubewright::testing
