#include "solver/model/actions.h"

namespace tubewright {

Actions no_actions(const Model& model) {
  Actions a;
  a.nodal = Eigen::VectorXd::Zero(dof_count(model));
  a.beams.resize(model.beams.size());
  a.prescribed = Eigen::VectorXd::Zero(dof_count(model));
  a.tension_fields.assign(model.panels.size(), 0);
  return a;
}

void add_actions(Actions& sum, const Actions& other, double factor) {
  sum.nodal += factor * other.nodal;
  sum.prescribed += factor * other.prescribed;
  for (size_t p = 0; p < other.tension_fields.size(); ++p)
    sum.tension_fields[p] += factor * other.tension_fields[p];
  for (size_t b = 0; b < other.beams.size(); ++b) {
    sum.beams[b].line += factor * other.beams[b].line;
    sum.beams[b].couple += factor * other.beams[b].couple;
    for (const PointAction& p : other.beams[b].points) {
      sum.beams[b].points.push_back({p.at, factor * p.force, factor * p.moment});
    }
  }
}

}  // namespace tubewright
