// Nodes and members: places, ends, lengths, releases.
#include <algorithm>
#include <cmath>

#include "cases/frame/layout.h"
#include "cases/frame/sensible_ranges.h"
#include "cases/validate/validate_errors.h"
#include "cases/validate/validate_parts.h"
#include "solver/elements/beam_element.h"

namespace tubewright {
namespace {

const char* kind_name(MemberKind kind) {
  switch (kind) {
    case MemberKind::beam:
      return "beam";
    case MemberKind::link:
      return "link";
    case MemberKind::cable:
      return "cable";
    case MemberKind::spring:
      return "spring";
  }
  return "";
}

void check_ends(const Frame& frame, const FrameNames& names, const Layout& layout, const Member& m,
                const std::string& subject, Diagnostics& diagnostics) {
  const int from = names.nodes.find(m.from, subject, m.place, diagnostics);
  if (m.from == m.to) {
    if (from >= 0) {
      add_error(diagnostics, m.place, both_ends_at_one_node(m.name, m.from));
    }
    return;
  }
  const int to = names.nodes.find(m.to, subject, m.place, diagnostics);
  if (from < 0 || to < 0) return;
  const double length = (frame.nodes[to].at - frame.nodes[from].at).norm();
  if (length <= shortest_member * layout.size) {
    add_error(diagnostics, m.place, no_length(m.name, m.from, m.to));
  }
}

void check_section(const FrameNames& names, const Member& m, const std::string& subject,
                   Diagnostics& diagnostics) {
  if (m.kind != MemberKind::spring) {
    names.sections.find(m.section, subject, m.place, diagnostics);
    return;
  }
  check_range(m.rate, sensible::stiffness, subject, "rate", m.place, diagnostics);
  if (!m.section.empty()) {
    add_error(diagnostics, m.place, spring_with_section(m.name));
  }
}

bool check_connections(const Member& m, const std::string& subject, Diagnostics& diagnostics) {
  for (const EndConnection* end : {&m.release_from, &m.release_to}) {
    const char* const key = end == &m.release_from ? "release_from" : "release_to";
    for (const double stiffness : *end) {
      if (stiffness == 0 || stiffness == rigid) continue;
      if (!check_range(stiffness, sensible::stiffness, subject, key, m.place, diagnostics)) {
        return false;
      }
    }
  }
  return true;
}

void check_releases(const Member& m, const std::string& subject, Diagnostics& diagnostics) {
  if (m.release_from == welded && m.release_to == welded) return;
  if (m.kind != MemberKind::beam) {
    add_error(diagnostics, m.place, releases_of_no_beam(m.name, kind_name(m.kind)));
    return;
  }
  if (!check_connections(m, subject, diagnostics)) return;
  const int d = loose_direction(m.release_from, m.release_to);
  if (d >= 0) add_error(diagnostics, m.place, loose_member(m.name, d));
}

void check_buckling_and_weld(const Member& m, const std::string& subject,
                             Diagnostics& diagnostics) {
  constexpr Range length_factor{0.1, 100, "a factor of 0.1 to 100 on the member's length"};
  for (const std::optional<double>& factor : m.buckling_length) {
    if (factor) {
      check_range(*factor, length_factor, subject, "buckling_length", m.place, diagnostics);
    }
    if (m.buckling_length[0] == m.buckling_length[1]) break;
  }
  if (m.weld_throat) {
    check_range(*m.weld_throat, sensible::size, subject, "weld_throat", m.place, diagnostics);
  }
}

}  // namespace

void validate_nodes(const Frame& frame, Diagnostics& diagnostics) {
  if (frame.nodes.empty()) {
    add_error(diagnostics, {}, no_nodes());
  }
  for (const Node& n : frame.nodes) {
    const bool near = std::all_of(n.at.begin(), n.at.end(), [](double coordinate) {
      return within(coordinate, sensible::coordinate);
    });
    if (near) continue;
    add_error(diagnostics, n.place, impossible_place(n.name, sensible::coordinate.words));
  }
}

void validate_members(const Frame& frame, const FrameNames& names, Diagnostics& diagnostics) {
  if (frame.members.empty()) {
    add_error(diagnostics, {}, no_members());
  }
  const Layout layout = layout_of(frame);
  for (const Member& m : frame.members) {
    const std::string subject = "member " + quoted(m.name);
    check_ends(frame, names, layout, m, subject, diagnostics);
    check_section(names, m, subject, diagnostics);
    check_range(m.roll, sensible::roll, subject, "roll", m.place, diagnostics);
    check_releases(m, subject, diagnostics);
    check_buckling_and_weld(m, subject, diagnostics);
  }
}

}  // namespace tubewright
