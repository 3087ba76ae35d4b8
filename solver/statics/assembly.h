// From elements to the sparse stiffness matrix of the free DOFs.
#pragma once

#include <Eigen/Core>
#include <functional>
#include <span>
#include <vector>

#include "solver/linear_algebra/factorisation.h"
#include "solver/model/actions.h"
#include "solver/model/model.h"

namespace tubewright {

/// Numbering of the DOFs that can move: not held, at a node that some element is joined to, and
/// not at a node that follows the master of its rigid body.
struct FreeDofs {
  std::vector<int> number;   ///< 6 a node: number among the free ones, or -1
  std::vector<int> unknown;  ///< for each free one its global number 6 n + d
  std::vector<int> node_of;  ///< for each free one its node
  std::vector<int> masters;  ///< see masters_of(): nodes that follow another have no free DOFs
};

FreeDofs number_free_dofs(const Model& model);

/// An element's stiffness in global axes on its nodes' DOFs (six a node, in the order of
/// `nodes`). Every element kind is visited here and nowhere else.
using ElementVisitor =
    std::function<void(std::span<const int> nodes, const Eigen::Ref<const Eigen::MatrixXd>& K)>;

/// `slack`: bars left out, one flag a bar.
void for_each_element(const Model& model, const std::vector<bool>& slack,
                      const ElementVisitor& visit);

/// The entries of a symmetric part, given by its nodes and its matrix there in global axes, in the
/// lower triangle on the free DOFs.
void visit_entries(const Model& model, const FreeDofs& free, std::span<const int> nodes,
                   const Eigen::Ref<const Eigen::MatrixXd>& part,
                   const std::function<void(int row, int column, double value)>& visit);

/// Lower triangle of K on the free DOFs.
SparseMatrix assemble_stiffness(const Model& model, const FreeDofs& free,
                                const std::vector<bool>& slack);

/// Lower triangle of [K0 P; P' -F]: the stiffness without panels on the free DOFs, and behind them
/// the flows of all panels as unknowns, so that K0 + P F^-1 P' is assemble_stiffness().
SparseMatrix stiffness_with_flows(const Model& model, const FreeDofs& free,
                                  const std::vector<bool>& slack);

/// Lower triangle, on the free DOFs, of any other symmetric matrix that is a sum over parts:
/// `each` calls its visitor with the nodes and the matrix of every part, in global axes.
SparseMatrix assemble_parts(const Model& model, const FreeDofs& free,
                            const std::function<void(const ElementVisitor&)>& each);

/// f += P u for a part of a matrix on nodes, six DOFs each.
void add_product(std::span<const int> nodes, const Eigen::Ref<const Eigen::MatrixXd>& part,
                 const Eigen::VectorXd& u, Eigen::VectorXd& f);

/// K u of the whole model, restrained DOFs included; `u` has six entries a node. Forces stand where
/// the elements put them: not yet gathered on the masters of rigid bodies.
Eigen::VectorXd apply_stiffness(const Model& model, const std::vector<bool>& slack,
                                const Eigen::VectorXd& u);

/// The actions with the pulls of buckled sheets turned into loads on the panels' members.
Actions with_tension_fields(const Model& model, const Actions& actions);

/// Joint loads, six a node, a column a case: nodal actions plus what beams hand to their joints.
Eigen::MatrixXd joint_loads(const Model& model, std::span<const Actions> cases);
Eigen::VectorXd joint_loads(const Model& model, const Actions& actions);

}  // namespace tubewright
