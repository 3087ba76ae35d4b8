#include "cases/workshop/cut_weldments.h"

#include <algorithm>

#include "solver/model/disjoint_sets.h"

namespace tubewright {

namespace {

const std::string& tube_name(const Frame& frame, const CutPiece& piece) {
  const Member& first = frame.members[static_cast<size_t>(piece.tube.members.front())];
  return first.tube.empty() ? first.name : first.tube;
}

/// Where a piece is welded, or others can be welded to it.
std::vector<int> welded_nodes(const Frame& frame, const NumberedFrame& n, const CutPiece& piece) {
  std::vector<int> nodes = inner_nodes(frame, n, piece.tube);
  for (const size_t end : {0U, 1U}) {
    if (!is_fitting(piece.ends[end].kind)) nodes.push_back(piece.tube.nodes[end]);
  }
  return nodes;
}

/// Of each piece the first that it is welded in one with.
std::vector<int> welded_in_one(const Frame& frame, const NumberedFrame& n,
                               const std::vector<CutPiece>& pieces) {
  DisjointSets bodies(pieces.size());
  std::vector<int> first_at(n.model.nodes.size(), -1);
  for (size_t p = 0; p < pieces.size(); ++p) {
    for (const int node : welded_nodes(frame, n, pieces[p])) {
      int& first = first_at[static_cast<size_t>(node)];
      if (first < 0) first = static_cast<int>(p);
      bodies.join(first, static_cast<int>(p));
    }
  }
  return bodies.firsts();
}

/// Ascending, each once.
void sort_once(std::vector<int>& nodes) {
  std::sort(nodes.begin(), nodes.end());
  nodes.erase(std::unique(nodes.begin(), nodes.end()), nodes.end());
}

}  // namespace

bool is_single(const CutWeldment& weldment) { return weldment.pieces.size() == 1; }

std::vector<CutWeldment> cut_weldments(const Frame& frame, const NumberedFrame& n,
                                       const std::vector<CutPiece>& pieces) {
  const std::vector<int> body = welded_in_one(frame, n, pieces);
  std::vector<CutWeldment> list(pieces.size());
  for (size_t p = 0; p < pieces.size(); ++p) {
    CutWeldment& w = list[static_cast<size_t>(body[p])];
    if (w.pieces.empty()) w.name = tube_name(frame, pieces[p]);
    w.pieces.push_back(p);
    for (const int node : welded_nodes(frame, n, pieces[p])) w.welded.push_back(node);
    for (const int node : pieces[p].tube.nodes) w.nodes.push_back(node);
  }
  std::erase_if(list, [](const CutWeldment& w) { return w.pieces.empty(); });
  for (CutWeldment& w : list) {
    w.nodes.insert(w.nodes.end(), w.welded.begin(), w.welded.end());
    sort_once(w.welded);
    sort_once(w.nodes);
  }
  const auto proper = std::max_element(
      list.begin(), list.end(),
      [](const CutWeldment& a, const CutWeldment& b) { return a.welded.size() < b.welded.size(); });
  if (proper == list.end()) return list;
  if (!is_single(*proper)) proper->name = "frame";
  std::rotate(list.begin(), proper, proper + 1);
  std::stable_partition(list.begin() + 1, list.end(),
                        [](const CutWeldment& w) { return !is_single(w); });
  return list;
}

}  // namespace tubewright
