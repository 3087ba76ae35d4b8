// From named parts to the numbered model.
#pragma once

#include <string>
#include <unordered_map>
#include <vector>

#include "cases/frame/frame.h"
#include "solver/model/model.h"

namespace tubewright {

/// Where a member of the frame stands in the model: beams[index] or bars[index].
struct MemberSlot {
  bool is_beam = true;
  int index = 0;
};

/// The two beams of an attachment's arm: from the tube's axis to its outside, and on to the hole.
struct ArmSlot {
  int block = 0;
  int plate = 0;
};

struct NumberedFrame {
  Model model;                    ///< nodes in the order of Frame::nodes
  std::vector<MemberSlot> slots;  ///< in the order of Frame::members
  std::vector<ArmSlot> arms;      ///< in the order of Frame::attachments; beams of no member
  /// In the order of Frame::gussets: bars of no member, behind the others; -1: a tube is lost.
  std::vector<int> gussets;
  std::vector<int>
      member_of_beam;  ///< the member that each beam, or bar, of the model is; arms, gussets: -1
  std::vector<int> member_of_bar;
  std::unordered_map<std::string, int> node;
  /// Members by name; the name of a continuous tube stands for all its pieces, in order.
  std::unordered_map<std::string, std::vector<int>> members;
};

/// Requires: validate() found no error.
NumberedFrame build_model(const Frame& frame);

/// The numbers of named nodes. Requires: they exist.
std::vector<int> node_numbers(const NumberedFrame& numbered, const std::vector<std::string>& names);

/// The members along the edges of a panel of the model, each once, ascending.
std::vector<int> members_round(const NumberedFrame& numbered, const Panel& panel);

/// Length of a member, m; of an arc along the curve.
double member_length(const NumberedFrame& numbered, const Member& member);

/// That over the distance between its nodes, which loads along a beam of the model are by: 1 but
/// for an arc.
double length_over_chord(const NumberedFrame& numbered, const Member& member);

}  // namespace tubewright
