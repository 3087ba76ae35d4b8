// The stiffness of a frame as a sum over its parts: what does not depend on the sizes, and for each
// sized tube its 12 x 12 stiffness in each size of its list.
//
// Blends of sizes make sense both ways: K(z) = K0 + sum z_gj K_gj blends stiffnesses, and with
// flexibilities F_gj = K_gj^+ blended instead a tube has the stiffness (sum z_gj F_gj)^+. For one
// size each the two are the same frame. Welded joints are taken as rigid here, which makes the
// frame stiffer than it is.
#pragma once

#include <array>
#include <vector>

#include "cases/sizing/cut_relaxation.h"
#include "cases/sizing/size_study.h"
#include "solver/elements/beam_element.h"
#include "solver/linear_algebra/factorisation.h"
#include "solver/model/model.h"
#include "solver/statics/assembly.h"

namespace tubewright {

/// A sized tube of the model; matrices in global axes, one a size.
struct SizedElement {
  std::array<int, 2> nodes{};
  std::vector<Matrix12> K;  ///< stiffness
  std::vector<Matrix12> F;  ///< flexibility, its pseudo-inverse: for end forces in equilibrium
};

struct SizedStiffness {
  Model model;  ///< of the first sizes, joints rigid, not held by anything
  std::vector<bool> sized_beams, sized_bars;
  std::vector<std::vector<SizedElement>> groups;
  /// Nothing but these tubes depends on the sizes: no sheet, no attachment, no place of a node.
  bool separable = true;
  bool joints_rigid = true;  ///< they are so in the frame too
};

SizedStiffness sized_stiffness(const Frame& frame, const std::vector<SizedTubes>& groups);

/// Of what is not sized: every part's stiffness, as for_each_element() has it.
void for_each_unsized(const SizedStiffness& parts, const ElementVisitor& visit);

/// Neither cables nor sheets: displacements are proportional to the loads.
bool is_linear(const Model& model);

enum class Blend { stiffness, flexibility };

/// A blend of sizes, held and factorised.
class BlendedFrame {
 public:
  /// Keeps references to both. `supports`: how it is held.
  BlendedFrame(const SizedStiffness& parts, const std::vector<Support>& supports,
               const Shares& shares, Blend blend);

  bool sound() const { return factor_.positive_definite(); }
  /// Displacements, six entries a node, under each column of forces. Requires: sound().
  Eigen::MatrixXd displacements(const Eigen::MatrixXd& forces) const;
  /// Stiffness of a sized tube in this blend.
  const Matrix12& stiffness(size_t group, size_t element) const { return blended_[group][element]; }

 private:
  Model model_;
  FreeDofs free_;
  std::vector<std::vector<Matrix12>> blended_;
  Factorisation factor_;
};

/// Displacements of a sized tube's ends.
Vector12 end_displacements(const SizedElement& element, const Eigen::VectorXd& u);

}  // namespace tubewright
