#include "cases/sizing/size_errors.h"

#include "cases/frame/wording.h"

namespace tubewright {

namespace {

/// As the file writes it.
std::string shape_word(Shape shape) {
  switch (shape) {
    case Shape::square_tube:
      return "`square_tube`";
    case Shape::rectangular_tube:
      return "`rectangular_tube`";
    case Shape::round_tube:
      return "`round_tube`";
    case Shape::round_bar:
      return "`round_bar`";
    case Shape::flat_bar:
      return "`flat_bar`";
    case Shape::properties:
      break;
  }
  return "`properties`";
}

}  // namespace

Diagnostic nothing_to_size() {
  return {
      "no tube is left to choose a size for: all stand in `keep`, or are of shapes that "
      "`stock.sizes` has none of",
      "take tubes out of `keep`, or add sizes of their shape"};
}

Diagnostic nothing_to_size_by() {
  return {"the frame has neither load cases nor limits: any size would do",
          "add `cases`, or `limits`"};
}

Diagnostic no_size_of_shape(const std::string& group, Shape shape) {
  return {"`stock.sizes` has no " + shape_word(shape) + " for the group " + quoted(group),
          "add sizes of that shape, or put the group's tubes into `keep`"};
}

Diagnostic group_of_two_shapes(const std::string& group, Shape one, Shape other) {
  return {"the group " + quoted(group) + " has tubes of different shapes, " + shape_word(one) +
              " and " + shape_word(other) + ": no size suits both",
          "make two groups of it"};
}

Diagnostic tube_in_two_groups(const std::string& tube, const std::string& one,
                              const std::string& other) {
  return {"pieces of the tube " + quoted(tube) + " are sized apart, in " + quoted(one) + " and " +
              quoted(other) + ": it is one tube of one size",
          "give the tube's own name to one group"};
}

Diagnostic images_in_two_groups(const std::string& member, const std::string& image) {
  return {quoted(member) + " and its mirror image " + quoted(image) +
              " are sized apart, and the `mirror` rule gives both one section",
          "put both into one group"};
}

Diagnostic size_without_price(Shape shape) {
  return {"the cheapest sizes are asked for, and a " + shape_word(shape) +
              " of `stock.sizes` has no price",
          "give every size of `stock.sizes` a `price`"};
}

Diagnostic size_without_bending(const std::string& group, const std::string& member) {
  return {"a size of given properties for the group " + quoted(group) + " has an area only, and " +
              quoted(member) + " bends",
          "give Iy, Iz, It, Wy, Wz and Wt too"};
}

Diagnostic limit_of_nothing() {
  return {
      "`limits.torsional_stiffness` is asked for, and the file has no `torsion` that says where "
      "it is measured: no size meets it",
      "add `torsion`"};
}

}  // namespace tubewright
