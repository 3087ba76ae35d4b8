// A frame with its panels as a drawing: what all pieces of sheet metal are drawn from.
#pragma once

#include <Eigen/Core>
#include <map>
#include <string>
#include <unordered_map>
#include <vector>

#include "cases/frame/frame.h"
#include "cases/frame/layout.h"
#include "cases/model/build_model.h"
#include "cases/model/sheet_pieces.h"
#include "cases/model/tube_face.h"

namespace tubewright {

/// The plane that a piece of sheet is drawn in. Unit vectors: x and y along the paper, `out` of it.
struct SheetPlane {
  Eigen::Vector3d origin, x, y, out;
  bool sided = true;  ///< false: the sheet may be seen from either side

  Eigen::Vector2d of(const Eigen::Vector3d& p) const {
    return {(p - origin).dot(x), (p - origin).dot(y)};
  }
};

/// Members, nodes and panels by their index in the frame.
struct CladFrame {
  const Frame& frame;
  NumberedFrame numbered;
  Layout layout;
  std::vector<PanelFace> faces;                         ///< by panel
  std::unordered_map<int, std::vector<int>> panels_at;  ///< by member
  std::map<std::string, int> first_of_tube;             ///< by path, its first member

  const Eigen::Vector3d& at(int node) const { return layout.at[static_cast<std::size_t>(node)]; }
  const PanelFace& face(int p) const { return faces[static_cast<std::size_t>(p)]; }
  const Member& member(int m) const { return frame.members[static_cast<std::size_t>(m)]; }
  const PanelEntry& panel(int p) const { return frame.panels[static_cast<std::size_t>(p)]; }
};

/// Keeps a reference to the frame.
CladFrame clad_frame(const Frame& frame);

const Sheet& sheet_of(const CladFrame& f, int panel);
const SectionEntry& section_of_member(const CladFrame& f, int member);
bool has_section(const CladFrame& f, int member);

/// The face of a tube for a sheet of this normal.
TubeFace face_of_tube(const CladFrame& f, int member, const Eigen::Vector3d& normal);

/// Unit vector from a node into a member that ends there.
Eigen::Vector3d away_from(const CladFrame& f, int node, int member);

/// True if a member at a node leaves a plane, given by its normal, by more than 20 degrees (common
/// practice, no source).
bool leaves_plane(const CladFrame& f, int node, int member, const Eigen::Vector3d& normal);

/// A tube at the node that comes out on the sheet's side, `out` of the paper; on any side where
/// that is not known (not `sided`).
bool comes_through(const CladFrame& f, int node, int member, const Eigen::Vector3d& out,
                   bool sided);

/// The side that the sheet lies on: out of the page as it is drawn. Unit vector.
Eigen::Vector3d outside(const CladFrame& f, int panel);

}  // namespace tubewright
