#include "cases/model/mechanism_errors.h"

#include <algorithm>
#include <array>

#include "cases/frame/wording.h"

namespace tubewright {
namespace {

/// "`a`, `b`"
std::string all_quoted(const std::vector<std::string>& names) {
  std::string text;
  for (const std::string& name : names) text += (text.empty() ? "" : ", ") + quoted(name);
  return text;
}

/// "`a`, `b`, `c` and 4 more"
std::string first_quoted(const std::vector<std::string>& names) {
  constexpr std::size_t most = 5;
  if (names.size() <= most) return all_quoted(names);
  return all_quoted({names.begin(), names.begin() + most}) + " and " +
         std::to_string(names.size() - most) + " more";
}

/// "node `a` can move along x without resistance"
std::string unresisted(const LooseNode& node) {
  constexpr std::array<const char*, 6> motions = {"move along x", "move along y", "move along z",
                                                  "turn about x", "turn about y", "turn about z"};
  return "node " + quoted(node.name) + " can " + motions[node.direction] + " without resistance" +
         node.when;
}

std::string loose_upright_of(const std::string& wheel, const LooseNode& node) {
  return "the upright of wheel " + quoted(wheel) + " is loose: its " + unresisted(node);
}

}  // namespace

std::string where_slack(const std::string& load_case, const std::vector<std::string>& cables) {
  if (cables.empty()) return "";
  return " in case " + quoted(load_case) + ", where slack are the cables " + all_quoted(cables);
}

Diagnostic slack_cables_not_found(const std::string& load_case,
                                  const std::vector<std::string>& cables) {
  return {"case " + quoted(load_case) + ": which cables are slack could not be found",
          "cables that went slack last: " + all_quoted(cables)};
}

Diagnostic stiffnesses_too_far_apart(const std::string& load_case) {
  return {(load_case.empty() ? "the frame" : "case " + quoted(load_case)) +
              " has no answer: its members, springs or releases are too different in stiffness to "
              "be added up",
          "nothing moves freely, but rounding is all that is left of the softest: look for a tube "
          "far too thin or too thick, a spring far too soft, a millimetre meant as a metre"};
}

Diagnostic whole_frame_moves(const LooseNode& node) {
  return {unresisted(node),
          "the whole frame moves as one piece: add a support that holds it in this direction"};
}

Diagnostic part_moves(const LooseNode& node, const std::vector<std::string>& part) {
  return {unresisted(node), "this part moves as one piece: " + first_quoted(part) +
                                "; join it to the rest or support it"};
}

Diagnostic node_turns_alone(const LooseNode& node) {
  return {unresisted(node),
          "nothing joined here resists turning: weld a member end here, take a release away, "
          "or take the moment off this node"};
}

Diagnostic node_moves_alone(const LooseNode& node) {
  return {unresisted(node), "add a member or a support that holds it in this direction"};
}

Diagnostic nodes_move_together(const LooseNode& node, const std::vector<std::string>& moving) {
  return {unresisted(node), "moving with it: " + first_quoted(moving) +
                                "; add a diagonal or a support, or take a release away"};
}

Diagnostic upright_moves_on_tubes(const std::string& wheel, const LooseNode& node) {
  return {loose_upright_of(wheel, node), "add a link, tie rod or spring that stops this"};
}

Diagnostic upright_wants_links(const std::string& wheel, const LooseNode& node, int links) {
  return {loose_upright_of(wheel, node),
          "a rigid upright needs six restraints and has " + std::to_string(links) +
              ": add a wishbone leg, tie rod, brake reaction link or spring that stops this"};
}

Diagnostic upright_moves_on_links(const std::string& wheel, const LooseNode& node, int links) {
  return {loose_upright_of(wheel, node),
          "its " + std::to_string(links) +
              " links and springs all leave this motion free: move one so that it stops it"};
}

}  // namespace tubewright
