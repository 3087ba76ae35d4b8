#include "solver/model/model_size.h"

#include <Eigen/Geometry>

namespace tubewright {

double model_size(const Model& model) {
  Eigen::AlignedBox3d box;
  for (const Eigen::Vector3d& p : model.nodes) box.extend(p);
  return box.isEmpty() ? 0 : box.diagonal().norm();
}

}  // namespace tubewright
