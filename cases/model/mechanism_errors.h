// The wording of why a model can move, or has no state of rest.
#pragma once

#include <string>
#include <vector>

#include "cases/frame/diagnostic.h"

namespace tubewright {

/// A node and how it can move; of what moves together, the one that is told.
struct LooseNode {
  std::string name;
  int direction = 0;  ///< 0 to 5 as direction_names
  std::string when;   ///< where_slack()
};

/// The case and its slack cables, to follow "can move"; "" without any.
std::string where_slack(const std::string& load_case, const std::vector<std::string>& cables);

/// `cables`: those that went slack last.
Diagnostic slack_cables_not_found(const std::string& load_case,
                                  const std::vector<std::string>& cables);

Diagnostic stiffnesses_too_far_apart(const std::string& load_case);

// Nodes
// -----
Diagnostic whole_frame_moves(const LooseNode& node);
Diagnostic part_moves(const LooseNode& node, const std::vector<std::string>& part);
Diagnostic node_turns_alone(const LooseNode& node);
Diagnostic node_moves_alone(const LooseNode& node);
Diagnostic nodes_move_together(const LooseNode& node, const std::vector<std::string>& moving);

// Rigid uprights
// --------------
Diagnostic upright_moves_on_tubes(const std::string& wheel, const LooseNode& node);
/// `links`: how many links and springs hold it.
Diagnostic upright_wants_links(const std::string& wheel, const LooseNode& node, int links);
Diagnostic upright_moves_on_links(const std::string& wheel, const LooseNode& node, int links);

}  // namespace tubewright
