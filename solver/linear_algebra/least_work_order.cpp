#include "solver/linear_algebra/least_work_order.h"

#include <algorithm>
#include <numeric>
#include <random>

#ifdef TUBEWRIGHT_HAS_CHOLMOD
#include "solver/linear_algebra/cholmod_orders.h"
#endif

namespace tubewright {

namespace {

/// What one try costs, in operations of a supernodal factorisation, for each node. Measured with
/// tests/bench: about 0.7 and 5 microseconds a node, 9 operations a nanosecond.
constexpr double minimum_degree_cost = 6e3;
constexpr double dissection_cost = 4.5e4;

/// The share of the predicted work that the search may spend.
constexpr double search_share = 0.1;
constexpr int most_dissections = 5;

/// Dissection that loses by this much to minimum degree is not tried again: a long narrow graph.
constexpr double hopeless = 1.25;

NodeOrder in_first_numbering(NodeOrder order, const std::vector<int>& numbering) {
  for (int& node : order.nodes) node = numbering[node];
  return order;
}

#ifdef TUBEWRIGHT_HAS_CHOLMOD
/// Fixed shuffles: dissection falls differently from each, now and then much better.
std::vector<int> shuffled_numbering(int n, int seed) {
  std::vector<int> numbering(n);
  std::iota(numbering.begin(), numbering.end(), 0);
  std::mt19937 random(static_cast<unsigned>(seed));
  for (int k = n - 1; k > 0; --k) {
    std::swap(numbering[k], numbering[random() % static_cast<unsigned>(k + 1)]);
  }
  return numbering;
}
#endif

}  // namespace

NodeOrder least_work_order(const NodeGraph& graph, NodeOrder best) {
  double spent = 0;
  const auto affords = [&](double cost_of_a_node) {
    const double cost = cost_of_a_node * graph.size();
    if (spent + cost > search_share * best.work.operations) return false;
    spent += cost;
    return true;
  };
  const auto keep_better = [&](NodeOrder order) {
    if (order.work.operations < best.work.operations) best = std::move(order);
  };

#ifdef TUBEWRIGHT_HAS_CHOLMOD
  if (affords(minimum_degree_cost)) {
    if (auto order = cholmod_minimum_degree_order(graph)) keep_better(*std::move(order));
  }
#endif
  if (affords(minimum_degree_cost)) {
    const std::vector<int> numbering = breadth_first_numbering(graph);
    keep_better(in_first_numbering(minimum_degree_order(renumbered(graph, numbering)), numbering));
  }
#ifdef TUBEWRIGHT_HAS_CHOLMOD
  const double without_dissection = best.work.operations;
  if (!affords(dissection_cost)) return best;
  auto coarse = coarse_dissection_order(graph);
  if (!coarse || coarse->work.operations > hopeless * without_dissection) return best;
  keep_better(*std::move(coarse));
  for (int seed = 0; seed < most_dissections && affords(dissection_cost); ++seed) {
    const std::vector<int> numbering = shuffled_numbering(graph.size(), seed);
    auto order = multilevel_dissection_order(renumbered(graph, numbering));
    if (order) keep_better(in_first_numbering(*std::move(order), numbering));
  }
#endif
  return best;
}

}  // namespace tubewright
