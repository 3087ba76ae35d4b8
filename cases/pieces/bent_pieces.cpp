#include "cases/pieces/bent_pieces.h"

#include <algorithm>
#include <cstddef>
#include <utility>

namespace tubewright {

namespace {

/// Arcs and nothing else lie between the two.
bool bends_into(const Frame& frame, const CutTube& part, const CutTube& next) {
  const auto first = static_cast<std::size_t>(part.members.back()) + 1;
  const auto last = static_cast<std::size_t>(next.members.front());
  if (first >= last) return false;
  const std::string& tube = frame.members[first].tube;
  return std::all_of(frame.members.begin() + static_cast<std::ptrdiff_t>(first),
                     frame.members.begin() + static_cast<std::ptrdiff_t>(last),
                     [&](const Member& m) { return m.arc && m.tube == tube; });
}

/// The other part joined on behind the last bend.
void join(const Frame& frame, const NumberedFrame& numbered, CutPiece& piece,
          const CutPiece& part) {
  CutTube& tube = piece.tube;
  double bent = 0;
  for (int m = tube.members.back() + 1; m < part.tube.members.front(); ++m) {
    bent += member_length(numbered, frame.members[static_cast<std::size_t>(m)]);
    tube.members.push_back(m);
  }
  tube.members.insert(tube.members.end(), part.tube.members.begin(), part.tube.members.end());
  tube.nodes[1] = part.tube.nodes[1];
  tube.length += bent + part.tube.length;
  piece.ends[1] = part.ends[1];
  piece.long_point += bent + part.long_point;
  piece.short_point += bent + part.short_point;
  piece.weld_length += part.weld_length;
}

/// As cut_tubes() names what is not all of a path.
void rename(const Frame& frame, CutTube& tube) {
  const auto member = [&](int m) -> const Member& {
    return frame.members[static_cast<std::size_t>(m)];
  };
  const Member &first = member(tube.members.front()), &last = member(tube.members.back());
  const auto pieces = std::count_if(frame.members.begin(), frame.members.end(),
                                    [&](const Member& m) { return m.tube == first.tube; });
  tube.name = pieces == static_cast<std::ptrdiff_t>(tube.members.size())
                  ? first.tube
                  : named_by_members(first, last);
}

}  // namespace

std::vector<CutPiece> joined_over_bends(const Frame& frame, const NumberedFrame& numbered,
                                        const std::vector<CutPiece>& parts) {
  std::vector<CutPiece> pieces;
  std::vector<int> piece_of;
  for (std::size_t i = 0; i < parts.size(); ++i) {
    if (i > 0 && bends_into(frame, parts[i - 1].tube, parts[i].tube)) {
      join(frame, numbered, pieces.back(), parts[i]);
    } else {
      pieces.push_back(parts[i]);
    }
    piece_of.push_back(static_cast<int>(pieces.size()) - 1);
  }
  if (pieces.size() == parts.size()) return pieces;
  for (CutPiece& p : pieces) {
    for (TubeEnd& end : p.ends) {
      for (EndCut& cut : end.cuts) {
        if (cut.against >= 0) cut.against = piece_of[static_cast<std::size_t>(cut.against)];
      }
    }
    const bool bent = std::any_of(p.tube.members.begin(), p.tube.members.end(), [&](int m) {
      return frame.members[static_cast<std::size_t>(m)].arc.has_value();
    });
    if (!bent) continue;
    p.bends = bends_of(frame, p.tube.members);
    rename(frame, p.tube);
  }
  return pieces;
}

}  // namespace tubewright
