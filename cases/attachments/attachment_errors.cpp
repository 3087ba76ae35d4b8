#include "cases/attachments/attachment_errors.h"

#include <algorithm>

#include "cases/frame/wording.h"

namespace tubewright {
namespace {

std::string subject(const std::string& attachment) { return "attachment " + quoted(attachment); }

std::string gusset_subject(const std::string& gusset) { return "gusset " + quoted(gusset); }

}  // namespace

Diagnostic attachment_nowhere(const std::string& attachment) {
  return {subject(attachment) + " is nowhere",
          "give `on: MEMBER` with `at`, a fraction along it, or `node: NODE`"};
}

Diagnostic attachment_at_two_places(const std::string& attachment) {
  return {subject(attachment) + " has both `at` and `node`", "give one of the two"};
}

Diagnostic attachment_beyond_ends(const std::string& attachment) {
  return {subject(attachment) + " is beyond the ends of its tube",
          "give `at` as a fraction of the length, from 0 at its start to 1 at its end"};
}

Diagnostic attachment_on_no_tube(const std::string& attachment, const std::string& member) {
  return {
      subject(attachment) + " is on " + quoted(member) + ", which is no square or rectangular tube",
      "its rules are for flat faces: join what it holds to a node of the tube instead, and "
      "check the bracket by hand"};
}

Diagnostic no_such_face(const std::string& attachment, const std::string& face,
                        const std::string& nearest) {
  return {subject(attachment) + " is on a " + quoted(face) + " face, which the tube does not have",
          "there it has: " + nearest};
}

Diagnostic attachment_on_bend(const std::string& attachment, const std::string& tube) {
  return {subject(attachment) + " stands on a bend of " + quoted(tube),
          "its rules are for flat faces: move it onto a straight part of the tube"};
}

Diagnostic no_tube_at_node(const std::string& attachment, const std::string& node) {
  return {subject(attachment) + " is at node " + quoted(node) +
              ", where no square or rectangular tube is",
          "name a node of the tube, and with `on` the tube where several meet"};
}

Diagnostic gusset_tube_elsewhere(const std::string& gusset, const std::string& tube,
                                 const std::string& node) {
  return {gusset_subject(gusset) + " is between tubes of which " + quoted(tube) +
              " does not end at node " + quoted(node),
          "name two tubes that meet at its node `at`"};
}

Diagnostic gusset_tube_runs_on(const std::string& gusset, const std::string& tube,
                               const std::string& node, const std::string& piece,
                               const std::string& other) {
  return {gusset_subject(gusset) + " does not say on which side of node " + quoted(node) +
              " it stands: " + quoted(tube) + " runs on there",
          "name the piece, " + quoted(piece) + " or " + quoted(other)};
}

Diagnostic gusset_on_no_tube(const std::string& gusset, const std::string& member) {
  return {gusset_subject(gusset) + " stands on " + quoted(member) +
              ", which is no straight square or rectangular tube",
          "its rules are for flat faces: leave it out, which is on the safe side for the tubes, "
          "and check it by hand"};
}

Diagnostic gusset_without_corner(const std::string& gusset) {
  return {gusset_subject(gusset) + " has no corner to stand in: its tubes run along each other",
          "name two tubes with 20 to 160 degrees between them"};
}

Diagnostic gusset_off_the_faces(const std::string& gusset, const std::string& member) {
  return {gusset_subject(gusset) + " stands on an edge of " + quoted(member) +
              ": no face of it looks into the corner",
          "turn the tube with `roll`"};
}

Diagnostic gusset_longer_than_tube(const std::string& gusset, const std::string& member,
                                   double length, double room) {
  return {gusset_subject(gusset) + " has a leg of " + in_mm(length) + " on " + quoted(member) +
              ", which has " + in_mm(std::max(room, 0.0)) + " beyond the corner",
          "give shorter `legs`"};
}

}  // namespace tubewright
