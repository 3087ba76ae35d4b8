#include "cases/joint_stiffness/end_fixity.h"

#include <algorithm>

namespace tubewright {

std::array<double, 2> end_fixity(const Model& model, const Beam& beam) {
  const Section& s = model.sections[static_cast<size_t>(beam.section)];
  const Material& m = model.materials[static_cast<size_t>(beam.material)];
  const double L =
      (model.nodes[static_cast<size_t>(beam.to)] - model.nodes[static_cast<size_t>(beam.from)])
          .norm();
  const auto of = [&](const JointFlexibility& joint, const EndConnection& connection) {
    double least = 1;
    // About y, about z; a joint turned between them counts for both.
    for (const size_t k : {0U, 1U}) {
      const double I = k == 0 ? s.Iy : s.Iz;
      const double wall = std::max(joint.bending[0], joint.bending[1]);
      const double c = wall + 1 / connection[4 + k];  // 1/rigid is 0
      least = std::min(least, 1 / (1 + 3 * m.E * I * c / L));
    }
    return least;
  };
  return {of(beam.joint_from, beam.connection_from), of(beam.joint_to, beam.connection_to)};
}

}  // namespace tubewright
