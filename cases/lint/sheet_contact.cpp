#include "cases/lint/sheet_contact.h"

#include <algorithm>
#include <cmath>
#include <map>
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

/// Each member once, however many of the panels it borders.
std::vector<ContactEdge> edges_of(const Frame& frame, const NumberedFrame& n,
                                  const std::vector<std::size_t>& panels) {
  std::vector<ContactEdge> edges;
  std::unordered_map<int, std::size_t> found;
  for (const std::size_t p : panels) {
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

/// What is told of a sheet, or a piece of it, with these edges, none of them unknown; nothing if it
/// touches all.
struct Contact {
  const Frame& frame;
  const Sheet& sheet;
  double distance = 0;  ///< of its middle from the plane of the axes
  std::vector<ContactEdge> edges;

  const std::string& name(const ContactEdge& e) const { return frame.members[e.member].name; }

  /// Where the sheet's middle plane would lie on the tube.
  double on_face(const ContactEdge& e) const { return e.reach.face + sheet.thickness / 2; }
  double on_edge(const ContactEdge& e) const { return e.reach.edge + sheet.thickness / 2; }

  double sunk_in(const ContactEdge& e) const { return on_face(e) - distance; }
  double gap_over(const ContactEdge& e) const { return distance - on_edge(e); }

  using Measure = double (Contact::*)(const ContactEdge&) const;

  const ContactEdge& greatest(Measure measure) const {
    return *std::max_element(edges.begin(), edges.end(),
                             [&](const ContactEdge& a, const ContactEdge& b) {
                               return (this->*measure)(a) < (this->*measure)(b);
                             });
  }

  std::size_t count(Measure measure) const {
    return std::count_if(edges.begin(), edges.end(), [&](const ContactEdge& e) {
      return (this->*measure)(e) > contact_tolerance;
    });
  }

  bool far_off() const {
    return std::any_of(edges.begin(), edges.end(), [&](const ContactEdge& e) {
      return gap_over(e) > std::max(contact_tolerance, 2 * e.reach.edge) ||
             (distance != 0 && sunk_in(e) > contact_tolerance);
    });
  }

  /// False if there is nothing to tell.
  bool tell(Diagnostics& list) const {
    const ContactEdge& deep = greatest(&Contact::sunk_in);
    const ContactEdge& shallow = greatest(&Contact::gap_over);
    const std::size_t sunk = count(&Contact::sunk_in), hanging = count(&Contact::gap_over);
    if (sunk + hanging == 0) return false;
    const double right_offset = std::copysign(on_face(deep), sheet.offset.value_or(1));
    const bool unlike = on_face(deep) - on_edge(shallow) > 2 * contact_tolerance;
    if (unlike || !sheet.offset) {
      add_warning(list, sheet.place,
                  sheet_on_unlike_tubes(sheet.name, name(deep), deep.reach.face, name(shallow),
                                        shallow.reach.edge));
    } else if (sunk > 0 && distance == 0) {
      add_warning(list, sheet.place, sheet_left_in_the_axes(sheet.name, name(deep), sunk - 1));
    } else if (sunk > 0) {
      add_warning(
          list, sheet.place,
          sheet_inside_tubes(sheet.name, name(deep), sunk - 1, sunk_in(deep), right_offset));
    } else {
      add_warning(list, sheet.place,
                  sheet_clear_of_tubes(sheet.name, name(shallow), hanging - 1, gap_over(shallow),
                                       right_offset));
    }
    return true;
  }
};

/// A sheet with `offset` as a whole, one without piece by piece.
std::vector<Contact> contacts_of(const Frame& frame, const NumberedFrame& n, const Sheet& sheet) {
  std::map<int, std::vector<std::size_t>> pieces;
  for (std::size_t p = 0; p < frame.panels.size(); ++p) {
    if (frame.panels[p].sheet != sheet.name) continue;
    pieces[sheet.offset ? 0 : n.model.panels[p].piece].push_back(p);
  }
  std::vector<Contact> contacts;
  for (const auto& [piece, panels] : pieces) {
    const double distance = std::abs(n.model.panels[panels.front()].offset);
    contacts.push_back({frame, sheet, distance, edges_of(frame, n, panels)});
  }
  return contacts;
}

/// The worst that there is to tell of a sheet.
void tell_of(const Sheet& sheet, const std::vector<Contact>& contacts, ContactDoubts& doubts) {
  for (const bool far_off : {true, false}) {
    for (const Contact& c : contacts) {
      if (c.edges.empty() || c.far_off() != far_off) continue;
      if (c.tell(far_off ? doubts.unproven : doubts.warnings)) return;
    }
  }
  const bool unknown = std::any_of(contacts.begin(), contacts.end(),
                                   [](const Contact& c) { return c.edges.empty(); });
  if (unknown && !sheet.offset) {
    add_warning(doubts.warnings, sheet.place, sheet_on_unknown_tubes(sheet.name));
  }
}

}  // namespace

ContactDoubts contact_doubts(const Frame& frame) {
  ContactDoubts doubts;
  if (frame.panels.empty()) return doubts;
  const NumberedFrame n = build_model(frame);
  for (const Sheet& sheet : frame.sheets) tell_of(sheet, contacts_of(frame, n, sheet), doubts);
  return doubts;
}

}  // namespace tubewright
