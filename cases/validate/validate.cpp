#include "cases/validate/validate.h"

#include "cases/frame/findings.h"
#include "cases/frame/sensible_ranges.h"
#include "cases/validate/validate_parts.h"

namespace tubewright {

Problems validate(const Frame& frame) {
  Problems problems;
  const FrameNames names = names_of(frame, problems);
  check_range(frame.gravity, sensible::gravity, "the frame", "gravity", {}, problems);
  validate_materials(frame, problems);
  validate_sections(frame, names, problems);
  validate_nodes(frame, problems);
  validate_members(frame, names, problems);
  validate_supports(frame, names, problems);
  validate_masses(frame, names, problems);
  validate_sheets(frame, names, problems);
  validate_panels(frame, names, problems);
  validate_vehicle(frame, names, problems);
  validate_cases(frame, names, problems);
  validate_studies(frame, names, problems);
  return in_file_order(std::move(problems), frame);
}

}  // namespace tubewright
