// The subjects of validate(), one function each. All append what they find to `problems`.
#pragma once

#include "cases/frame/diagnostic.h"
#include "cases/frame/frame.h"
#include "cases/frame/frame_names.h"

namespace tubewright {

void validate_materials(const Frame& frame, Diagnostics& diagnostics);
void validate_sections(const Frame& frame, const FrameNames& names, Diagnostics& diagnostics);
void validate_nodes(const Frame& frame, Diagnostics& diagnostics);
void validate_members(const Frame& frame, const FrameNames& names, Diagnostics& diagnostics);
void validate_attachments(const Frame& frame, const FrameNames& names, Diagnostics& diagnostics);
void validate_gussets(const Frame& frame, const FrameNames& names, Diagnostics& diagnostics);
void validate_supports(const Frame& frame, const FrameNames& names, Diagnostics& diagnostics);
void validate_masses(const Frame& frame, const FrameNames& names, Diagnostics& diagnostics);
void validate_sheets(const Frame& frame, const FrameNames& names, Diagnostics& diagnostics);
void validate_panels(const Frame& frame, const FrameNames& names, Diagnostics& diagnostics);
void validate_vehicle(const Frame& frame, const FrameNames& names, Diagnostics& diagnostics);
void validate_cases(const Frame& frame, const FrameNames& names, Diagnostics& diagnostics);
/// Rides, and what only rides know of wheels and springs.
void validate_rides(const Frame& frame, Diagnostics& diagnostics);

/// What the studies need beyond the frame: torsion, limits, stock, groups, bench test.
void validate_studies(const Frame& frame, const FrameNames& names, Diagnostics& diagnostics);

/// Outer sizes and wall of a shape (not Shape::properties).
void check_outline(Shape shape, double height, double width, double wall, Corners corners,
                   const std::string& subject, const SourceLocation& place,
                   Diagnostics& diagnostics);

/// Properties that are given in place of a shape. `area_suffices`: the others may be 0, not given.
void check_properties(const Section& given, bool area_suffices, const std::string& subject,
                      const SourceLocation& place, Diagnostics& diagnostics);

}  // namespace tubewright
