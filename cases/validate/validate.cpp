#include "cases/validate/validate.h"

#include "cases/frame/sensible_ranges.h"
#include "cases/frame/wording.h"
#include "cases/validate/validate_parts.h"

namespace tubewright {

Diagnostics validate(const Frame& frame) {
  Diagnostics diagnostics;
  const FrameNames names = names_of(frame, diagnostics);
  check_range(frame.gravity, sensible::gravity, "the frame", "gravity", {}, diagnostics);
  validate_materials(frame, diagnostics);
  validate_sections(frame, names, diagnostics);
  validate_nodes(frame, diagnostics);
  validate_members(frame, names, diagnostics);
  validate_supports(frame, names, diagnostics);
  validate_masses(frame, names, diagnostics);
  validate_sheets(frame, names, diagnostics);
  validate_panels(frame, names, diagnostics);
  validate_vehicle(frame, names, diagnostics);
  validate_cases(frame, names, diagnostics);
  validate_studies(frame, names, diagnostics);
  return in_file_order(std::move(diagnostics), frame);
}

}  // namespace tubewright
