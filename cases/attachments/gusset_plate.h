// A gusset: a three-cornered plate in the corner of two tubes, welded to the face of each, as a
// bar between the tubes' axes where its legs end.
//
// DERIVED for this project. The bar is as wide as the plate is high over its free edge and as long
// as that edge, k = E t h/L_e, in series with the tubes' faces (face_stiffness.h). Held against a
// mesh of plane-stress triangles between beams (tests/cases/attachments/gusset_mesh.h): of what
// the plate takes off the flexibility of a corner the bar takes 0.80 to 1.09, 0.93 on average, and
// carries 0.89 to 1.51 of the resultant, 1.13 on average, over legs of 1.1 to 2.7 tube depths,
// angles of 60 to 120 degrees, plates of 1 to 2 walls, on stiff and on giving faces. It has no
// stiffness across its plane. No physical test stands behind it.
#pragma once

#include <Eigen/Core>
#include <array>
#include <vector>

#include "cases/frame/frame.h"

namespace tubewright {

/// The tube's width across the face that the leg stands on, and the depth behind it, m.
double leg_face_width(const SectionEntry& tube, const GussetLeg& leg);
double leg_face_depth(const SectionEntry& tube, const GussetLeg& leg);

/// How far from the node, along each axis, its legs begin: where the faces meet. By depths h and
/// the angle phi between the axes: (h_other + h cos phi)/(2 sin phi).
std::array<double, 2> leg_starts(const std::array<double, 2>& depths, double cos_angle);

/// Its sizes; SI, global axes, from the node.
struct GussetPlate {
  int plates = 1;                        ///< two `at_sides`
  std::array<double, 2> starts{};        ///< of its legs along the axes
  std::array<Eigen::Vector3d, 2> inner;  ///< normals of the faces, into the corner
  Eigen::Vector3d corner;                ///< where the faces meet
  double free_edge = 0;
  double height = 0;  ///< of the corner over the free edge
  double area = 0;    ///< of one plate
  double mass = 0;    ///< of all
  Eigen::Vector3d centroid;
  Eigen::Vector3d bar;            ///< direction, from the first tube to the second
  double bar_off = 0;             ///< of the corner from it, m
  double stiffness = 0;           ///< N/m, on faces that do not give way
  double face_give = 0;           ///< m/N, what both faces add
  std::array<double, 2> push{};   ///< of one newton in the bar, off each face
  std::array<double, 2> shear{};  ///< along it
  std::array<double, 2> lever{};  ///< of the push about the middle of the leg, towards its end, m
};

/// Of the middles of its plates from the plane of the axes, to the side of first x second, m.
std::vector<double> plate_offsets(const Frame& frame, const Gusset& gusset);

/// Requires: its legs are placed.
GussetPlate gusset_plate(const Frame& frame, const Gusset& gusset);

/// Puts its axis nodes where its legs end, after a change of its tubes' sizes.
void move_to_leg_ends(Frame& frame, const Gusset& gusset);

}  // namespace tubewright
