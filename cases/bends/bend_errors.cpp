#include "cases/bends/bend_errors.h"

#include "cases/frame/wording.h"

namespace tubewright {
namespace {

std::string subject(const std::string& tube, const std::string& node) {
  return "the bend of " + quoted(tube) + " at " + quoted(node);
}

}  // namespace

Diagnostic bends_and_corners(const std::string& tube, std::size_t given, std::size_t corners) {
  return {quoted(tube) + " has " + std::to_string(given) + " radii in `bend` for " +
              std::to_string(corners) + " nodes between its ends",
          "give one for each, 0 where the tube is mitred, or one number for all"};
}

Diagnostic bend_does_not_fit(const std::string& tube, const std::string& from,
                             const std::string& to, double needed, double there) {
  return {"the bends of " + quoted(tube) + " take " + in_mm(needed) + " between " + quoted(from) +
              " and " + quoted(to) + ", where there are " + in_mm(there),
          "a bend takes R tan(angle/2) on both sides of its corner: give a smaller `bend` or move "
          "the nodes apart"};
}

Diagnostic bend_too_tight(const std::string& tube, const std::string& node, double radius,
                          double least) {
  return {subject(tube, node) + " has a radius of " + in_mm(radius) + ", and its tube reaches " +
              in_mm(least) + " inward",
          "give the radius of the centre line; square tube is seldom bent to less than 3 times its "
          "side"};
}

Diagnostic bend_turns_back(const std::string& tube, const std::string& node) {
  return {subject(tube, node) + " turns back by more than 170 degrees",
          "lead the path through two corners instead, each with a `bend`"};
}

Diagnostic two_bends_at_node(const std::string& tube, const std::string& other,
                             const std::string& node) {
  return {quoted(tube) + " and " + quoted(other) + " both bend at " + quoted(node) +
              ", in different places",
          "give each bend a corner of its own"};
}

}  // namespace tubewright
