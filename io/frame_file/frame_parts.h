// From checked values to the parts of a Frame, one function a subject.
//
// Values may be unsound: then the part is built as far as it was readable, so that its name is
// known to whatever refers to it.
#pragma once

#include <Eigen/Core>
#include <array>
#include <optional>
#include <string>
#include <vector>

#include "cases/frame/frame.h"
#include "io/frame_file/checked_value.h"

namespace tubewright {

/// The axes a file is written in. SAE J670: x forward, y right, z down; y and z change sign.
struct FileAxes {
  bool sae_j670 = false;

  /// A position, force, moment or acceleration in ISO 8855 axes.
  Eigen::Vector3d vector(const CheckedValue& value) const;
  /// A component in direction 0..5 (x y z rx ry rz) in ISO 8855 axes.
  double component(int direction, double value) const;
};

// Simple values
// -------------
std::optional<double> number_if_given(const CheckedValue& value);
std::vector<std::string> texts(const CheckedValue& list);
/// Shape and sizes of a section or a bar of stock.
struct ShapeSizes {
  Shape shape = Shape::square_tube;
  double height = 0;
  double width = 0;
  double wall = 0;
};
ShapeSizes shape_sizes(const CheckedValue& group);
/// Of `shape: properties`; what is not given is 0, shear areas `rigid`.
Section given_properties(const CheckedValue& group);

// Parts of the frame. `top`: the whole file
// -----------------------------------------
void read_materials(const CheckedValue& top, Frame& frame, Diagnostics& diagnostics);
void read_sections(const CheckedValue& top, Frame& frame);
void read_nodes(const CheckedValue& top, const FileAxes& axes, Frame& frame);
void read_members(const CheckedValue& top, Frame& frame, Diagnostics& diagnostics);
void read_attachments(const CheckedValue& top, Frame& frame);
void read_gussets(const CheckedValue& top, Frame& frame);
void read_mirror(const CheckedValue& top, Frame& frame);
void read_supports(const CheckedValue& top, const FileAxes& axes, Frame& frame);
void read_masses(const CheckedValue& top, const FileAxes& axes, Frame& frame);
void read_sheets(const CheckedValue& top, Frame& frame, Diagnostics& diagnostics);
void read_panels(const CheckedValue& top, Frame& frame);
void read_vehicle(const CheckedValue& top, const FileAxes& axes, Frame& frame);
void read_cases(const CheckedValue& top, const FileAxes& axes, Frame& frame,
                Diagnostics& diagnostics);
/// `folder`: where files named in the frame file are looked for.
void read_rides(const CheckedValue& top, const std::string& folder, Frame& frame,
                Diagnostics& diagnostics);
void read_torsion(const CheckedValue& top, Frame& frame);
void read_limits(const CheckedValue& top, Frame& frame);
void read_life(const CheckedValue& top, Frame& frame);
void read_stock(const CheckedValue& top, Frame& frame);
/// `groups` and `keep`.
void read_groups(const CheckedValue& top, Frame& frame);
void read_bench_test(const CheckedValue& top, const FileAxes& axes, Frame& frame,
                     Diagnostics& diagnostics);

}  // namespace tubewright
