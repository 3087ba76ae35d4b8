#include "cases/validate/validate.h"

#include <algorithm>

#include "cases/frame/frame_errors.h"
#include "cases/frame/sensible_ranges.h"
#include "cases/frame/wording.h"
#include "cases/validate/validate_parts.h"

namespace tubewright {

namespace {

template <class Parts>
bool any_ends_in(const Parts& parts, const std::string& ending) {
  return std::any_of(parts.begin(), parts.end(),
                     [&](const auto& part) { return part.name.ends_with(ending); });
}

/// A rule that nothing follows leaves half of the frame out.
void validate_mirror(const Frame& frame, Diagnostics& diagnostics) {
  if (!frame.mirror) return;
  const std::string& ending = frame.mirror->from;
  const bool followed = any_ends_in(frame.nodes, ending) || any_ends_in(frame.members, ending) ||
                        std::any_of(frame.members.begin(), frame.members.end(),
                                    [&](const Member& m) { return m.tube.ends_with(ending); }) ||
                        any_ends_in(frame.attachments, ending) ||
                        any_ends_in(frame.gussets, ending) || any_ends_in(frame.panels, ending) ||
                        any_ends_in(frame.masses, ending) ||
                        (frame.vehicle && any_ends_in(frame.vehicle->wheels, ending));
  if (!followed) add_error(diagnostics, frame.mirror->place, mirror_copies_nothing(ending));
}

}  // namespace

Diagnostics validate(const Frame& frame) {
  Diagnostics diagnostics;
  const FrameNames names = names_of(frame, diagnostics);
  check_range(frame.gravity, sensible::gravity, "the frame", "gravity", {}, diagnostics);
  validate_mirror(frame, diagnostics);
  validate_materials(frame, diagnostics);
  validate_sections(frame, names, diagnostics);
  validate_nodes(frame, diagnostics);
  validate_members(frame, names, diagnostics);
  validate_attachments(frame, names, diagnostics);
  validate_gussets(frame, names, diagnostics);
  validate_supports(frame, names, diagnostics);
  validate_masses(frame, names, diagnostics);
  validate_sheets(frame, names, diagnostics);
  validate_panels(frame, names, diagnostics);
  validate_vehicle(frame, names, diagnostics);
  validate_cases(frame, names, diagnostics);
  validate_rides(frame, diagnostics);
  validate_studies(frame, names, diagnostics);
  return in_file_order(std::move(diagnostics), frame);
}

}  // namespace tubewright
