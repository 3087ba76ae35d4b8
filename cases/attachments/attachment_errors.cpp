#include "cases/attachments/attachment_errors.h"

#include "cases/frame/wording.h"

namespace tubewright {
namespace {

std::string subject(const std::string& attachment) { return "attachment " + quoted(attachment); }

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

}  // namespace tubewright
