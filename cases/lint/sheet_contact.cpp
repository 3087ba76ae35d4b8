#include "cases/lint/sheet_contact.h"

#include <algorithm>
#include <cmath>
#include <string>
#include <unordered_map>
#include <vector>

#include "cases/frame/find_parts.h"
#include "cases/frame/wording.h"
#include "cases/lint/lint_warnings.h"
#include "cases/model/build_model.h"
#include "cases/model/tube_face.h"
#include "solver/elements/shear_panel.h"

namespace tubewright {
namespace {

// Bond, paint and a rounded offset (judgement).
constexpr double contact_tolerance = 1e-3;  // m

/// A tube along the edge of a panel, and how far it reaches towards the sheet.
struct ContactEdge {
  int member;
  TubeReach reach;
};

/// Where the sheet's middle plane would lie on the tube.
double on_face(const ContactEdge& e, const Sheet& s) { return e.reach.face + s.thickness / 2; }
double on_edge(const ContactEdge& e, const Sheet& s) { return e.reach.edge + s.thickness / 2; }

double sunk_in(const ContactEdge& e, const Sheet& s) { return on_face(e, s) - std::abs(s.offset); }
double gap_over(const ContactEdge& e, const Sheet& s) { return std::abs(s.offset) - on_edge(e, s); }

/// Each member once, however many panels of the sheet it borders.
std::vector<ContactEdge> edges_of(const Frame& frame, const NumberedFrame& n,
                                  const std::string& sheet) {
  std::vector<ContactEdge> edges;
  std::unordered_map<int, std::size_t> found;
  for (std::size_t p = 0; p < frame.panels.size(); ++p) {
    if (frame.panels[p].sheet != sheet) continue;
    const Panel& panel = n.model.panels[p];
    const Eigen::Vector3d normal = panel_geometry(n.model, panel).normal;
    for (const int m : members_round(n, panel)) {
      const SectionEntry& section = find_section(frame, frame.members[m].section);
      const TubeReach reach = tube_reach(section, n, n.slots[m], normal);
      if (std::isnan(reach.face)) continue;
      const auto [at, is_new] = found.emplace(m, edges.size());
      if (is_new) edges.push_back({m, reach});
    }
  }
  return edges;
}

/// What is told of one sheet with these edges, none of them unknown; nothing if it touches all.
struct Contact {
  const Frame& frame;
  const Sheet& sheet;
  const std::vector<ContactEdge>& edges;

  const std::string& name(const ContactEdge& e) const { return frame.members[e.member].name; }

  template <class Measure>
  const ContactEdge& greatest(Measure measure) const {
    return *std::max_element(edges.begin(), edges.end(),
                             [&](const ContactEdge& a, const ContactEdge& b) {
                               return measure(a, sheet) < measure(b, sheet);
                             });
  }

  template <class Measure>
  std::size_t count(Measure measure) const {
    return std::count_if(edges.begin(), edges.end(), [&](const ContactEdge& e) {
      return measure(e, sheet) > contact_tolerance;
    });
  }

  bool far_off() const {
    return std::any_of(edges.begin(), edges.end(), [&](const ContactEdge& e) {
      return gap_over(e, sheet) > std::max(contact_tolerance, 2 * e.reach.edge) ||
             (sheet.offset != 0 && sunk_in(e, sheet) > contact_tolerance);
    });
  }

  void tell(Diagnostics& list) const {
    const ContactEdge& deep = greatest(sunk_in);
    const ContactEdge& shallow = greatest(gap_over);
    const std::size_t sunk = count(sunk_in), hanging = count(gap_over);
    if (sunk + hanging == 0) return;
    const double right_offset = std::copysign(on_face(deep, sheet), sheet.offset);
    if (on_face(deep, sheet) - on_edge(shallow, sheet) > 2 * contact_tolerance) {
      add_warning(list, sheet.place,
                  sheet_on_unlike_tubes(sheet.name, name(deep), deep.reach.face, name(shallow),
                                        shallow.reach.edge));
    } else if (sunk > 0 && sheet.offset == 0) {
      add_warning(list, sheet.place,
                  sheet_left_in_the_axes(sheet.name, name(deep), sunk - 1, right_offset));
    } else if (sunk > 0) {
      add_warning(
          list, sheet.place,
          sheet_inside_tubes(sheet.name, name(deep), sunk - 1, sunk_in(deep, sheet), right_offset));
    } else {
      add_warning(list, sheet.place,
                  sheet_clear_of_tubes(sheet.name, name(shallow), hanging - 1,
                                       gap_over(shallow, sheet), right_offset));
    }
  }
};

}  // namespace

ContactDoubts contact_doubts(const Frame& frame) {
  ContactDoubts doubts;
  if (frame.panels.empty()) return doubts;
  const NumberedFrame n = build_model(frame);
  for (const Sheet& sheet : frame.sheets) {
    const std::vector<ContactEdge> edges = edges_of(frame, n, sheet.name);
    if (edges.empty()) continue;
    const Contact contact{frame, sheet, edges};
    contact.tell(contact.far_off() ? doubts.unproven : doubts.warnings);
  }
  return doubts;
}

}  // namespace tubewright
