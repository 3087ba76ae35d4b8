#include "solver/statics/tension_only.h"

#include <algorithm>

#include "solver/elements/bar_element.h"
#include "solver/statics/assembly.h"

namespace tubewright {

bool has_tension_only(const Model& model) {
  return std::any_of(model.bars.begin(), model.bars.end(),
                     [](const Bar& b) { return b.tension_only; });
}

std::vector<bool> slack_under(const Model& model, const Eigen::VectorXd& u) {
  std::vector<bool> slack(model.bars.size(), false);
  const double rounding = 1e-12 * u.lpNorm<Eigen::Infinity>();  // an idle cable is not slack
  for (size_t i = 0; i < model.bars.size(); ++i) {
    slack[i] = model.bars[i].tension_only && bar_elongation(model, model.bars[i], u) < -rounding;
  }
  return slack;
}

double energy_step(const Model& model, const Eigen::VectorXd& u, const Eigen::VectorXd& step,
                   const Eigen::VectorXd& loads) {
  // Everything but the cables is linear: slope(t) = a + b t + sum over taut cables k e(t) de.
  std::vector<bool> without_cables(model.bars.size());
  for (size_t i = 0; i < model.bars.size(); ++i) without_cables[i] = model.bars[i].tension_only;
  const double a = step.dot(apply_stiffness(model, without_cables, u) - loads);
  const double b = step.dot(apply_stiffness(model, without_cables, step));

  struct Cable {
    double k, e, de;
  };
  std::vector<Cable> cables;
  std::vector<double> changes;  // t at which a cable goes taut or slack
  for (const Bar& bar : model.bars) {
    if (!bar.tension_only) continue;
    const Cable c = {bar.stiffness, bar_elongation(model, bar, u),
                     bar_elongation(model, bar, step)};
    cables.push_back(c);
    if (c.de != 0 && -c.e / c.de > 0) changes.push_back(-c.e / c.de);
  }
  const auto slope = [&](double t) {
    double s = a + b * t;
    for (const Cable& c : cables) s += c.k * std::max(0.0, c.e + t * c.de) * c.de;
    return s;
  };

  // The slope rises and is linear between changes: find the piece where it passes zero.
  std::sort(changes.begin(), changes.end());
  double left = 0;
  for (const double right : changes) {
    if (slope(right) >= 0) {
      const double s0 = slope(left), s1 = slope(right);
      return s1 > s0 ? left + (right - left) * (-s0) / (s1 - s0) : right;
    }
    left = right;
  }
  const double s0 = slope(left), rise = slope(left + 1) - s0;
  return rise > 0 ? left - s0 / rise : 1.0;
}

}  // namespace tubewright
