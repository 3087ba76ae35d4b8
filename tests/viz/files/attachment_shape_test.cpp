// Bodies of attachments: closed, of the volume that their sizes give, where they stand.
#include "viz/files/attachment_shape.h"

#include <Eigen/Geometry>
#include <map>
#include <numbers>

#include "cases/attachments/expand_attachments.h"
#include "tests/cases/attachments/gusset_frames.h"
#include "tests/truth.h"

namespace tubewright::attachment_shape_test {

using testing::cantilever_40;
using testing::expanded;
using testing::tab;

namespace {

constexpr double mm = 1e-3, mm3 = 1e-9;

/// By the divergence theorem; faces anticlockwise from outside make it positive.
double volume(const DrawnBody& body) {
  double six = 0;
  for (const std::vector<int>& face : body.faces) {
    for (std::size_t k = 1; k + 1 < face.size(); ++k) {
      const auto& p = body.points;
      const auto at = [&](std::size_t i) { return p[static_cast<std::size_t>(face[i])]; };
      six += at(0).dot(at(k).cross(at(k + 1)));
    }
  }
  return six / 6;
}

/// Every edge once each way.
bool closed(const DrawnBody& body) {
  std::map<std::pair<int, int>, int> edges;
  for (const std::vector<int>& face : body.faces) {
    for (std::size_t k = 0; k < face.size(); ++k) {
      const int a = face[k], b = face[(k + 1) % face.size()];
      edges[{std::min(a, b), std::max(a, b)}] += a < b ? 1 : -1;
    }
  }
  return std::all_of(edges.begin(), edges.end(), [](const auto& e) { return e.second == 0; });
}

Eigen::Vector3d node(const Frame& f, const std::string& name) {
  for (const Node& n : f.nodes)
    if (n.name == name) return n.at;
  FAIL("no node " + name);
  return {};
}

DrawnBody body_of(const Attachment& a) {
  Frame f = cantilever_40();
  f.attachments = {a};
  f = expanded(f);
  return attachment_body(f, f.attachments[0], node(f, a.name + ".face"), node(f, a.name));
}

Eigen::AlignedBox3d box(const DrawnBody& body) {
  Eigen::AlignedBox3d b;
  for (const Eigen::Vector3d& p : body.points) b.extend(p);
  return b;
}

}  // namespace

TEST_CASE("a tab is a plate from its foot to round its hole", "[truth]") {
  Attachment a = tab("ear", "rail", 0.5, Face::top);
  a.bolt.reset();
  const DrawnBody body = body_of(a);
  CHECK(closed(body));
  const Eigen::AlignedBox3d b = box(body);
  CHECK_THAT(b.min().z(), WithinRel(20 * mm, 1e-9));              // the tube's outside
  CHECK_THAT(b.max().z(), WithinRel((20 + 25 + 15) * mm, 1e-9));  // hole and edge
  CHECK_THAT(b.sizes().x(), WithinRel(40 * mm, 1e-9));
  CHECK_THAT(b.sizes().y(), WithinRel(4 * mm, 1e-9));
  // A foot of 40, a circle of 15 round the hole 25 above it, tangents from the corners: seen from
  // the hole the foot, two triangles of 15 by the tangent of 28.2843, and the sector of what is
  // left, 360 - 2 (38.6598 + 62.0587) degrees.
  const double sector = 15 * 15 * std::numbers::pi * (360 - 2 * 100.7185) / 360;
  const double area = 40 * 25 / 2.0 + 15 * 28.28427 + sector;
  truth("volume of a drawn tab, mm3", rederived("area of a convex outline by hand"),
        volume(body) / mm3, within_rel(4 * area, 0.01));
}

TEST_CASE("a bolt makes a hole in its plate and fills it") {
  const Attachment a = tab("ear", "rail", 0.5, Face::top);
  const DrawnBody body = body_of(a);
  CHECK(closed(body));
  // Head and nut stand out on both sides: 4 + 2 x 0.65 x 8 mm.
  CHECK_THAT(box(body).sizes().y(), WithinRel(14.4 * mm, 1e-9));
}

TEST_CASE("every kind is closed and stands where its keys say") {
  Attachment a = tab("ear", "rail", 0.5, Face::bottom);
  a.gap = 10 * mm;
  for (const AttachmentKind kind :
       {AttachmentKind::tab, AttachmentKind::cross_tab, AttachmentKind::pair,
        AttachmentKind::saddle, AttachmentKind::through_plate, AttachmentKind::nut,
        AttachmentKind::sleeve, AttachmentKind::bolt}) {
    a.kind = kind;
    a.length = kind == AttachmentKind::nut || kind == AttachmentKind::sleeve ? 16 * mm : 40 * mm;
    if (kind == AttachmentKind::cross_tab) a.length = 30 * mm;
    const DrawnBody body = body_of(a);
    CHECK(closed(body));
    CHECK(volume(body) > 0);
    const Eigen::AlignedBox3d b = box(body);
    CHECK(b.min().z() <= -45 * mm + 1e-9);  // reaches its hole
    const bool behind = kind == AttachmentKind::saddle || kind == AttachmentKind::through_plate ||
                        kind == AttachmentKind::sleeve || kind == AttachmentKind::bolt;
    CHECK((b.max().z() > 20 * mm) == behind);  // past the other side of its tube
    CHECK(b.contains(Eigen::Vector3d(0.5, 0, -45 * mm)));
  }
}

TEST_CASE("a gusset is a prism of its legs") {
  Frame f = expanded(testing::gusset_frame({}));
  for (const bool sides : {false, true}) {
    f.gussets[0].at_sides = sides;
    const DrawnBody body = gusset_body(f, f.gussets[0]);
    CHECK(closed(body));
    CHECK_THAT(volume(body) / mm3, WithinRel((sides ? 2 : 1) * 0.5 * 60 * 60 * 4, 1e-9));
    CHECK_THAT(box(body).min().x(), WithinRel(20 * mm, 1e-9));
    CHECK_THAT(box(body).max().z(), WithinRel(80 * mm, 1e-9));
    CHECK_THAT(box(body).sizes().y(), WithinRel((sides ? 40 : 4) * mm, 1e-9));
  }
}

}  // namespace tubewright::attachment_shape_test
