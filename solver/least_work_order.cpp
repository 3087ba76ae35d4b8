#include "solver/least_work_order.h"

#include <algorithm>
#include <numeric>
#include <random>

#ifdef TUBEWRIGHT_HAS_CHOLMOD
#include "solver/nested_dissection.h"
#endif

namespace tubewright {

namespace {

/// What one try costs, in operations of a supernodal factorisation, for each node. Measured with
/// tests/bench: about 0.7 and 5 microseconds a node, 9 operations a nanosecond.
constexpr double minimum_degree_cost = 6e3;
constexpr double dissection_cost = 4.5e4;

/// The share of the predicted work that the search may spend.
constexpr double search_share = 0.15;
constexpr int most_dissections = 5;

/// Dissection that loses by this much to minimum degree is not tried again: a long narrow graph.
constexpr double hopeless = 1.25;

NodeOrder in_first_numbering(NodeOrder order, const std::vector<int>& numbering) {
  for (int& node : order.nodes) node = numbering[node];
  return order;
}

#ifdef TUBEWRIGHT_HAS_CHOLMOD
/// Numberings to dissect from: the given one, then fixed shuffles of it.
std::vector<int> numbering_for_try(int n, int number) {
  std::vector<int> numbering(n);
  std::iota(numbering.begin(), numbering.end(), 0);
  std::mt19937 random(static_cast<unsigned>(number));
  for (int k = n - 1; number > 0 && k > 0; --k) {
    std::swap(numbering[k], numbering[random() % static_cast<unsigned>(k + 1)]);
  }
  return numbering;
}
#endif

}  // namespace

NodeOrder least_work_order(const NodeGraph& graph, NodeOrder best) {
  const double nodes = graph.size();
  double spent = 0;
  const auto affordable = [&](double cost) {
    return spent + cost < search_share * best.work.operations;
  };
  const auto keep_better = [&](NodeOrder order) {
    if (order.work.operations < best.work.operations) best = std::move(order);
  };

  if (affordable(minimum_degree_cost * nodes)) {
    spent += minimum_degree_cost * nodes;
    const std::vector<int> numbering = breadth_first_numbering(graph);
    keep_better(in_first_numbering(minimum_degree_order(renumbered(graph, numbering)), numbering));
  }
#ifdef TUBEWRIGHT_HAS_CHOLMOD
  const double without_dissection = best.work.operations;
  for (int k = 0; k < most_dissections && affordable(dissection_cost * nodes); ++k) {
    spent += dissection_cost * nodes;
    const std::vector<int> numbering = numbering_for_try(graph.size(), k);
    auto dissected = nested_dissection_order(renumbered(graph, numbering));
    if (!dissected || dissected->work.operations > hopeless * without_dissection) break;
    keep_better(in_first_numbering(*std::move(dissected), numbering));
  }
#endif
  return best;
}

}  // namespace tubewright
