// What is welded or bolted to tubes: sizes that fit the face and the bolt. Where it stands is
// looked at by expand_attachments().
#include <algorithm>

#include "cases/attachments/expand_attachments.h"
#include "cases/attachments/gusset_plate.h"
#include "cases/frame/sensible_ranges.h"
#include "cases/validate/validate_errors.h"
#include "cases/validate/validate_parts.h"

namespace tubewright {
namespace {

bool is_plate(AttachmentKind kind) {
  return kind == AttachmentKind::tab || kind == AttachmentKind::cross_tab ||
         kind == AttachmentKind::pair || kind == AttachmentKind::saddle ||
         kind == AttachmentKind::through_plate;
}

/// What the attachment takes of the face's width, m.
double width_on_face(const Attachment& a) {
  switch (a.kind) {
    case AttachmentKind::tab:
    case AttachmentKind::through_plate:
      return a.thickness;
    case AttachmentKind::pair:
      return a.gap + 2 * a.thickness;
    case AttachmentKind::cross_tab:
    case AttachmentKind::nut:
    case AttachmentKind::sleeve:
      return a.length;
    case AttachmentKind::saddle:
      return 0;
    case AttachmentKind::bolt:
      break;
  }
  return a.bolt ? a.bolt->diameter : 0;
}

void check_sizes(const Attachment& a, Diagnostics& diagnostics) {
  const std::string subject = "attachment " + quoted(a.name);
  const auto check = [&](double value, const char* key) {
    check_range(value, sensible::size, subject, key, a.place, diagnostics);
  };
  check(a.hole, "hole");
  check_range(a.along, sensible::coordinate, subject, "along", a.place, diagnostics);
  check_range(a.aside, sensible::coordinate, subject, "aside", a.place, diagnostics);
  if (is_plate(a.kind)) {
    check(a.thickness, "thickness");
    check(a.length, "length");
  }
  if (a.kind == AttachmentKind::nut || a.kind == AttachmentKind::sleeve)
    check(a.length, "diameter");
  if (a.kind == AttachmentKind::pair) check(a.gap, "gap");
  if (a.edge) check(*a.edge, "edge");
  if (a.weld_throat) check(*a.weld_throat, "weld_throat");
  if (a.bolt && a.bolt->preload) {
    check_range(*a.bolt->preload, sensible::force, subject, "preload", a.place, diagnostics);
  }
}

void check_fit(const Attachment& a, const SectionEntry& tube, Diagnostics& diagnostics) {
  constexpr double rounding = 1e-9;
  const double face = face_width(tube, a);
  const bool needs_walls_beside = !is_plate(a.kind);
  const double room = needs_walls_beside ? face - 2 * tube.wall : face;
  if (const double width = width_on_face(a); width > room + rounding) {
    add_error(diagnostics, a.place, attachment_wider_than_face(a.name, width, room));
  }
  if (!a.bolt) return;
  if (a.edge && *a.edge <= a.bolt->diameter / 2) {
    add_error(diagnostics, a.place, hole_over_the_edge(a.name));
  }
  const bool in_boss = a.kind == AttachmentKind::nut || a.kind == AttachmentKind::sleeve;
  if (in_boss && a.length <= a.bolt->diameter) {
    add_error(diagnostics, a.place, bolt_fills_boss(a.name));
  }
}

/// Two beside each other, or one in the middle, leave the corners of the section free.
double gusset_room(const SectionEntry& tube, const GussetLeg& leg) {
  return leg_face_width(tube, leg) - 2 * tube.wall;
}

}  // namespace

void validate_gussets(const Frame& frame, const FrameNames& names, Diagnostics& diagnostics) {
  for (const Gusset& g : frame.gussets) {
    const std::string subject = "gusset " + quoted(g.name);
    check_range(g.thickness, sensible::size, subject, "thickness", g.place, diagnostics);
    if (g.weld_throat) {
      check_range(*g.weld_throat, sensible::size, subject, "weld_throat", g.place, diagnostics);
    }
    if (!g.material.empty()) names.materials.find(g.material, subject, g.place, diagnostics);
    for (const GussetLeg& leg : g.legs) {
      check_range(leg.length, sensible::size, subject, "legs", g.place, diagnostics);
      const int section = leg.section.empty() ? -1 : names.sections.find(leg.section);
      if (section < 0) continue;
      const double room = gusset_room(frame.sections[static_cast<std::size_t>(section)], leg);
      const double width = (g.at_sides ? 2 : 1) * g.thickness;
      if (width > room)
        add_error(diagnostics, g.place, gusset_wider_than_face(g.name, width, room));
    }
  }
}

void validate_attachments(const Frame& frame, const FrameNames& names, Diagnostics& diagnostics) {
  for (const Attachment& a : frame.attachments) {
    check_sizes(a, diagnostics);
    if (!a.material.empty()) {
      names.materials.find(a.material, "attachment " + quoted(a.name), a.place, diagnostics);
    }
    const int section = a.section.empty() ? -1 : names.sections.find(a.section);
    if (section >= 0) {
      check_fit(a, frame.sections[static_cast<std::size_t>(section)], diagnostics);
    }
  }
}

}  // namespace tubewright
