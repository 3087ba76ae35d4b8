// The wording of why sizes cannot be chosen.
#pragma once

#include <string>

#include "cases/frame/diagnostic.h"
#include "cases/frame/frame.h"

namespace tubewright {

Diagnostic nothing_to_size();
/// Neither cases nor limits say what the frame has to bear.
Diagnostic nothing_to_size_by();
/// `shape`: of the group's tubes.
Diagnostic no_size_of_shape(const std::string& group, Shape shape);
Diagnostic group_of_two_shapes(const std::string& group, Shape one, Shape other);
/// Pieces of one tube, or mirror images, that get sizes of their own.
Diagnostic tube_in_two_groups(const std::string& tube, const std::string& one,
                              const std::string& other);
Diagnostic images_in_two_groups(const std::string& member, const std::string& image);
Diagnostic size_without_price(Shape shape);
/// A size that gives an area only, for a tube that bends.
Diagnostic size_without_bending(const std::string& group, const std::string& member);
/// `limits.torsional_stiffness` without `torsion`.
Diagnostic limit_of_nothing();

}  // namespace tubewright
