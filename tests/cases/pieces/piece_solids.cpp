#include "tests/cases/pieces/piece_solids.h"

#include <vtkClipClosedSurface.h>
#include <vtkCubeSource.h>
#include <vtkCylinder.h>
#include <vtkImplicitBoolean.h>
#include <vtkMassProperties.h>
#include <vtkNew.h>
#include <vtkPlane.h>
#include <vtkPlaneCollection.h>
#include <vtkTriangleFilter.h>

#include <Eigen/Geometry>
#include <algorithm>
#include <cmath>

#include "cases/frame/find_parts.h"
#include "cases/model/build_model.h"

namespace tubewright::testing {

namespace {

using Eigen::Vector3d;

constexpr double mm = 1e-3;
constexpr double step = 0.5 * mm;   // of the grid along a tube
constexpr double across = 2 * mm;   // and across
constexpr double reach = 200 * mm;  // along a tube from its node: 25 mm at 10 degrees is 144

/// Negative on the side that `outward` points away from.
vtkSmartPointer<vtkPlane> plane_through(const Vector3d& at, const Vector3d& outward) {
  const Vector3d n = outward.normalized();
  auto plane = vtkSmartPointer<vtkPlane>::New();
  plane->SetOrigin(at.x(), at.y(), at.z());
  plane->SetNormal(n.x(), n.y(), n.z());
  return plane;
}

vtkSmartPointer<vtkImplicitBoolean> boolean(bool all) {
  auto function = vtkSmartPointer<vtkImplicitBoolean>::New();
  if (all) {
    function->SetOperationTypeToIntersection();
  } else {
    function->SetOperationTypeToUnion();
  }
  return function;
}

/// The plane x = at + mitre y + bevel z as seen from an end; inside is inward of it.
vtkSmartPointer<vtkPlane> end_plane(const PieceSolid& s, int end, const CutPlane& p) {
  const Vector3d at = s.place_from(end, p.at, 0, 0);
  const Vector3d inward = s.place_from(end, 1, -p.mitre, -p.bevel) - s.place_from(end, 0, 0, 0);
  return plane_through(at, -inward);
}

vtkSmartPointer<vtkImplicitFunction> prism_of(const PieceSolid& s) {
  const Eigen::Matrix3d& axes = s.piece.tube.axes;
  if (s.round) {
    // vtkCylinder squares its distance, which serves for in or out only.
    const auto cylinder = vtkSmartPointer<vtkCylinder>::New();
    cylinder->SetCenter(s.origin.x(), s.origin.y(), s.origin.z());
    cylinder->SetAxis(axes(0, 0), axes(0, 1), axes(0, 2));
    cylinder->SetRadius(s.half_y);
    return cylinder;
  }
  const auto sides = boolean(true);
  for (const int sign : {1, -1}) {
    const Vector3d y = sign * axes.row(1).transpose(), z = sign * axes.row(2).transpose();
    sides->AddFunction(plane_through(s.origin + s.half_y * y, y));
    sides->AddFunction(plane_through(s.origin + s.half_z * z, z));
  }
  return sides;
}

vtkSmartPointer<vtkImplicitFunction> cut_of(const PieceSolid& s) {
  const auto whole = boolean(true);
  whole->AddFunction(s.prism);
  for (const int end : {0, 1}) {
    for (const EndCut& cut : s.piece.ends[static_cast<std::size_t>(end)].cuts) {
      const auto outside_of_other = boolean(false);
      for (const CutPlane& p : cut.planes) outside_of_other->AddFunction(end_plane(s, end, p));
      whole->AddFunction(outside_of_other);
    }
  }
  return whole;
}

double value(vtkImplicitFunction& f, const Vector3d& p) { return f.FunctionValue(p.data()); }

/// A piece that turns there is cut to suit its pin or bush.
bool turns_at_node(const PieceSolid& s, int node) {
  return (s.piece.tube.nodes[0] == node && s.piece.ends[0].kind == EndKind::joint) ||
         (s.piece.tube.nodes[1] == node && s.piece.ends[1].kind == EndKind::joint);
}

/// A node at which both are welded.
bool share_node(const PieceSolid& a, const PieceSolid& b) {
  return std::any_of(a.nodes.begin(), a.nodes.end(), [&](int n) {
    return std::find(b.nodes.begin(), b.nodes.end(), n) != b.nodes.end() && !turns_at_node(a, n) &&
           !turns_at_node(b, n);
  });
}

/// From the axis of a piece to its corners, and to a point.
double out_of_axis(const PieceSolid& s) { return std::hypot(s.half_y, s.half_z); }

double from_axis(const PieceSolid& s, const Vector3d& p) {
  const Vector3d from = p - s.origin, x = s.piece.tube.axes.row(0);
  return (from - x * x.dot(from)).norm();
}

Overlap overlap_of(const PieceSolid& a, const PieceSolid& b, double deeper) {
  Overlap o{a.piece.tube.name, b.piece.tube.name, 0, 0};
  const int ny = static_cast<int>(std::ceil(2 * a.half_y / across));
  const int nz = static_cast<int>(std::ceil(2 * a.half_z / across));
  const int nx = static_cast<int>(std::ceil((a.piece.tube.length + 2 * reach) / step));
  const double dy = 2 * a.half_y / ny, dz = 2 * a.half_z / nz;
  for (int i = 0; i < nx; ++i) {
    const double x = (i + 0.5) * step - reach;
    if (from_axis(b, a.place(x, 0, 0)) > out_of_axis(a) + out_of_axis(b)) continue;
    for (int j = 0; j < ny; ++j) {
      for (int k = 0; k < nz; ++k) {
        const Vector3d p = a.place(x, (j + 0.5) * dy - a.half_y, (k + 0.5) * dz - a.half_z);
        const Vector3d in_b = b.piece.tube.axes * (p - b.origin);
        if (in_b.x() < -reach || in_b.x() > b.piece.tube.length + reach) continue;
        if (std::abs(in_b.y()) > b.half_y || std::abs(in_b.z()) > b.half_z) continue;
        const double in_b_by = -value(*b.cut, p);
        if (in_b_by <= deeper) continue;
        const double depth = std::min(in_b_by, -value(*a.cut, p));
        if (depth <= deeper) continue;
        o.volume += step * dy * dz;
        o.depth = std::max(o.depth, depth);
      }
    }
  }
  return o;
}

/// Places on the rim of a section, 1 mm inside it so that flush faces do not hang on rounding.
std::vector<std::array<double, 2>> rim_of(const PieceSolid& s) {
  constexpr int steps = 12;
  constexpr double inside = 1 * mm;
  const double y = s.half_y - inside, z = s.half_z - inside;
  std::vector<std::array<double, 2>> places;
  for (int k = 0; k < steps; ++k) {
    const double t = 2.0 * k / steps - 1;
    places.push_back({t * y, -z});
    places.push_back({y, t * z});
    places.push_back({-t * y, z});
    places.push_back({-y, -t * z});
  }
  if (s.round) {
    for (auto& place : places) {
      const double from_middle = std::hypot(place[0], place[1]);
      place = {place[0] * y / from_middle, place[1] * y / from_middle};
    }
  }
  return places;
}

/// The tube that the end is cut against at a place of its section.
int stands_on(const TubeEnd& e, double y, double z) {
  for (const EndCut& cut : e.cuts) {
    if (begin_at(cut, y, z) >= e.begin(y, z) - 1e-9) return cut.against;
  }
  return -1;
}

Contact contact_of(const std::vector<PieceSolid>& all, const PieceSolid& s, int end,
                   const std::vector<const PieceSolid*>& others) {
  const TubeEnd& e = s.piece.ends[static_cast<std::size_t>(end)];
  Contact c{s.piece.tube.name, end, e.kind, 0, 0, 0};
  constexpr double fine = 0.25 * mm, farthest = 60 * mm, touches = 1 * mm;
  const auto places = rim_of(s);
  const double share = 1.0 / static_cast<double>(places.size());
  for (const auto& [y, z] : places) {
    const double begin = e.begin(y, z);
    const auto at = [&, y = y, z = z](double outward) {
      return s.place_from(end, begin - outward, y, z);
    };
    double gap = farthest;
    for (double outward = fine / 2; outward < gap; outward += fine) {
      const bool held = std::any_of(others.begin(), others.end(), [&](const PieceSolid* o) {
        return value(*o->cut, at(outward)) < 0;
      });
      if (held) gap = outward - fine / 2;
    }
    const int on = stands_on(e, y, z);
    const auto in_its_prism = [&] {
      const PieceSolid& o = all[static_cast<std::size_t>(on)];
      for (double outward = touches; outward < 6 * touches; outward += touches) {
        if (value(*o.prism, at(outward)) < (o.round ? 0 : -touches)) return true;
      }
      return false;
    };
    if (gap <= touches) {
      c.touching += share;
    } else if (on >= 0 && in_its_prism()) {
      c.missing += share;
      c.gap = std::max(c.gap, gap);
    }
  }
  return c;
}

}  // namespace

bool PieceSolid::link() const { return piece.ends[0].kind == EndKind::eye; }

Vector3d PieceSolid::place(double x, double y, double z) const {
  return origin + piece.tube.axes.transpose() * Vector3d(x, y, z);
}

Vector3d PieceSolid::place_from(int end, double x, double y, double z) const {
  return place(end == 0 ? x : piece.tube.length - x, y, z);
}

std::vector<PieceSolid> solids_of(const Frame& frame, const std::vector<CutPiece>& pieces) {
  const NumberedFrame numbered = build_model(frame);
  std::vector<PieceSolid> solids;
  for (const CutPiece& piece : pieces) {
    const SectionEntry& section = find_section(frame, piece.tube.section);
    PieceSolid s{piece,
                 numbered.model.nodes[static_cast<std::size_t>(piece.tube.nodes[0])],
                 section.width / 2,
                 section.height / 2,
                 section.shape == Shape::round_tube || section.shape == Shape::round_bar,
                 {},
                 nullptr,
                 nullptr};
    for (const int m : piece.tube.members) {
      const Member& member = frame.members[static_cast<std::size_t>(m)];
      for (const std::string& node : {member.from, member.to}) {
        s.nodes.push_back(numbered.node.at(node));
      }
    }
    s.prism = prism_of(s);
    s.cut = cut_of(s);
    solids.push_back(std::move(s));
  }
  return solids;
}

namespace {

/// A saddle is given by its length only and then filed to fit.
bool filed_to_fit(const PieceSolid& a, const PieceSolid& b) {
  const auto saddle = [](const PieceSolid& s) {
    return s.piece.ends[0].kind == EndKind::cope || s.piece.ends[1].kind == EndKind::cope;
  };
  return (saddle(a) && b.round) || (saddle(b) && a.round);
}

}  // namespace

std::vector<Overlap> overlaps(const std::vector<PieceSolid>& solids, double deeper) {
  std::vector<Overlap> found;
  for (std::size_t i = 0; i < solids.size(); ++i) {
    for (std::size_t j = i + 1; j < solids.size(); ++j) {
      if (!share_node(solids[i], solids[j]) || solids[i].link() || solids[j].link()) continue;
      if (filed_to_fit(solids[i], solids[j])) continue;
      // What is thin across one is cut fine along the other.
      const Overlap along_first = overlap_of(solids[i], solids[j], deeper);
      const Overlap along_second = overlap_of(solids[j], solids[i], deeper);
      const Overlap& o = along_first.volume > along_second.volume ? along_first : along_second;
      if (o.volume > 0) found.push_back(o);
    }
  }
  return found;
}

std::vector<Contact> contacts(const std::vector<PieceSolid>& solids) {
  std::vector<Contact> list;
  for (const PieceSolid& s : solids) {
    for (const int end : {0, 1}) {
      const TubeEnd& e = s.piece.ends[static_cast<std::size_t>(end)];
      if (e.kind == EndKind::eye || e.cuts.front().against < 0) continue;
      const int node = s.piece.tube.nodes[static_cast<std::size_t>(end)];
      std::vector<const PieceSolid*> others;
      for (const PieceSolid& o : solids) {
        const bool there = std::find(o.nodes.begin(), o.nodes.end(), node) != o.nodes.end();
        if (&o != &s && there && !o.link()) others.push_back(&o);
      }
      list.push_back(contact_of(solids, s, end, others));
    }
  }
  return list;
}

double clipped_volume(const PieceSolid& s) {
  // In the frame of the piece, long enough for any end; then clipped.
  vtkNew<vtkCubeSource> bar;
  bar->SetBounds(-reach, s.piece.tube.length + reach, -s.half_y, s.half_y, -s.half_z, s.half_z);
  vtkNew<vtkPlaneCollection> planes;
  for (const int end : {0, 1}) {
    const CutPlane& p = s.piece.ends[static_cast<std::size_t>(end)].cuts.front().planes.front();
    vtkNew<vtkPlane> plane;
    plane->SetOrigin(end == 0 ? p.at : s.piece.tube.length - p.at, 0, 0);
    const Vector3d inward = Vector3d(end == 0 ? 1 : -1, -p.mitre, -p.bevel).normalized();
    plane->SetNormal(inward.x(), inward.y(), inward.z());
    planes->AddItem(plane);
  }
  vtkNew<vtkClipClosedSurface> clip;
  clip->SetInputConnection(bar->GetOutputPort());
  clip->SetClippingPlanes(planes);
  vtkNew<vtkTriangleFilter> triangles;
  triangles->SetInputConnection(clip->GetOutputPort());
  vtkNew<vtkMassProperties> mass;
  mass->SetInputConnection(triangles->GetOutputPort());
  mass->Update();
  return mass->GetVolume();
}

}  // namespace tubewright::testing
