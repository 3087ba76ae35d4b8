#include "solver/dynamics/ride.h"

#include <Eigen/LU>
#include <algorithm>
#include <cassert>
#include <cmath>
#include <map>
#include <vector>

#include "solver/dynamics/contact_forces.h"
#include "solver/dynamics/modal_recurrence.h"

namespace tubewright {

namespace {

/// The exact step of all modes.
struct ModalStep {
  Eigen::ArrayXd qq, qv, q0p, q1p, vq, vv, v0p, v1p;
  Eigen::ArrayXd damping, stiffness;  ///< 2 zeta omega, omega^2

  ModalStep(const RideSystem& system, double step) {
    const Eigen::Index n = system.modes.cols();
    for (Eigen::ArrayXd* a : {&qq, &qv, &q0p, &q1p, &vq, &vv, &v0p, &v1p}) a->resize(n);
    for (Eigen::Index i = 0; i < n; ++i) {
      const ModalRecurrence r =
          modal_recurrence(system.circular_frequency[i], system.damping_ratio[i], step);
      qq[i] = r.qq;
      qv[i] = r.qv;
      q0p[i] = r.q0p;
      q1p[i] = r.q1p;
      vq[i] = r.vq;
      vv[i] = r.vv;
      v0p[i] = r.v0p;
      v1p[i] = r.v1p;
    }
    stiffness = system.circular_frequency.array().square();
    damping = 2 * system.damping_ratio.array() * system.circular_frequency.array();
  }
};

/// Tyres and dampers as coordinates and numbers. Of the tyres' coordinates first all vertical,
/// then all longitudinal ones; those that are not there are rows of zeros.
struct ForceElements {
  std::vector<int> damped;     ///< coordinates with dampers
  Eigen::VectorXd damping;     ///< one for each
  Eigen::VectorXd k, c;        ///< of the tyres
  Eigen::MatrixXd at_tyres;    ///< picks the tyres' coordinates: 2 tyres x coordinates
  Eigen::MatrixXd at_dampers;  ///< dampers x coordinates

  explicit ForceElements(const RideSystem& system) {
    const Eigen::Index coordinates = system.modes.rows();
    const auto n = static_cast<Eigen::Index>(system.tyres.size());
    std::map<int, double> dampers;
    for (const RideDamper& d : system.dampers) dampers[d.coordinate] += d.damping;
    damping.resize(static_cast<Eigen::Index>(dampers.size()));
    at_dampers = Eigen::MatrixXd::Zero(damping.size(), coordinates);
    for (const auto& [coordinate, value] : dampers) {
      const auto row = static_cast<Eigen::Index>(damped.size());
      damping[row] = value;
      at_dampers(row, coordinate) = 1;
      damped.push_back(coordinate);
    }
    k.resize(n);
    c.resize(n);
    at_tyres = Eigen::MatrixXd::Zero(2 * n, coordinates);
    for (Eigen::Index i = 0; i < n; ++i) {
      const RideTyre& t = system.tyres[static_cast<size_t>(i)];
      k[i] = t.stiffness;
      c[i] = t.damping;
      at_tyres(i, t.vertical) = 1;
      if (t.longitudinal >= 0) at_tyres(n + i, t.longitudinal) = 1;
    }
  }
};

/// What the forces of the tyres do to their own deflections and rates: gives way by H F, G F, with
/// the columns of vertical and of longitudinal forces.
struct Give {
  Eigen::MatrixXd H, G;  ///< tyres x 2 tyres
};

struct TyreState {
  TyreVector F, d;
};

/// The forces of the tyres, from the deflections d and rates they would have without.
class TyreSolver {
 public:
  TyreSolver(const ForceElements& elements, Give give, bool bilateral)
      : k_(elements.k), c_(elements.c), give_(std::move(give)), bilateral_(bilateral) {}

  template <class Slopes>
  void solve(const TyreVector& free_d, const TyreVector& free_rate, const Slopes& slope,
             TyreState& state) {
    const Eigen::Index n = k_.size();
    TyreMatrix A(n, n), H(n, n);
    for (Eigen::Index j = 0; j < n; ++j) {
      for (Eigen::Index i = 0; i < n; ++i) {
        H(i, j) = give_.H(i, j) - slope[j] * give_.H(i, n + j);
        const double G = give_.G(i, j) - slope[j] * give_.G(i, n + j);
        A(i, j) = k_[i] * H(i, j) + c_[i] * G + (i == j ? 1 : 0);
      }
    }
    const TyreVector r = k_.cwiseProduct(free_d) + c_.cwiseProduct(free_rate);
    if (bilateral_) {
      state.F = n > 0 ? TyreVector(A.partialPivLu().solve(r)) : r;
      state.d = free_d - H * state.F;
      return;
    }
    // Tyres that touch have to be compressed. One that would push by its damper alone, still above
    // the ground, is taken out; a tyre that its own force lifts off touches a step later.
    unsigned eligible = (1U << static_cast<unsigned>(n)) - 1;
    while (true) {
      state.F = contact_forces(A, r, eligible, touching_);
      state.d = free_d - H * state.F;
      unsigned above = 0;
      for (Eigen::Index i = 0; i < n; ++i) {
        if (state.F[i] > 0 && state.d[i] <= 0) above |= 1U << static_cast<unsigned>(i);
      }
      if (above == 0) return;
      eligible &= ~above;
    }
  }

 private:
  TyreVector k_, c_;
  Give give_;
  bool bilateral_;
  unsigned touching_ = 0;
};

class Ride {
 public:
  Ride(const RideSystem& system, const RideOptions& options)
      : system_(system),
        speed_(options.speed),
        elements_(system),
        step_(system, options.time_step),
        tyres_(elements_, reduce(options.time_step), options.bilateral),
        weight_(system.weight_modal) {
    const Eigen::Index modes = system.modes.cols(), coordinates = system.modes.rows();
    joined_.resize(2 * modes + coordinates);
    free_.resize(2 * tyre_count() + damper_count());
    shapes_ = system.modes.transpose();
  }

  Eigen::Index tyre_count() const { return elements_.k.size(); }
  Eigen::Index damper_count() const { return elements_.damping.size(); }
  ModalState state() const { return {q_, v_}; }

  /// Forces at the start: what is left out follows at once and has no rate.
  template <class Column>
  void start(const ModalState& state, bool bilateral, const Column& height, const Column& slope) {
    q_ = state.displacement;
    v_ = state.rate;
    const auto n = tyre_count();
    const Eigen::MatrixXd& R = system_.residual_flexibility;
    f_ = -elements_.at_dampers.transpose() *
         elements_.damping.cwiseProduct(elements_.at_dampers * (system_.modes * v_));
    const Eigen::VectorXd w = system_.modes * q_ + R * f_ + system_.weight_displacement;
    const Eigen::VectorXd rate = system_.modes * v_;
    const Eigen::MatrixXd rows = elements_.at_tyres.topRows(n);
    Give give{rows * R * elements_.at_tyres.transpose(), Eigen::MatrixXd::Zero(n, 2 * n)};
    TyreSolver solver(elements_, std::move(give), bilateral);
    solver.solve(height - rows * w, speed_ * slope - rows * rate, slope, contact_);
    push(slope);
    p_ = shapes_ * f_ + weight_;
  }

  template <class Column>
  void advance(const Column& height, const Column& slope) {
    const Eigen::Index modes = q_.size(), n = tyre_count(), dampers = damper_count();
    auto q = joined_.head(modes);
    auto v = joined_.segment(modes, modes);
    q = step_.qq * q_.array() + step_.qv * v_.array() + step_.q0p * p_.array() +
        step_.q1p * weight_.array();
    v = step_.vq * q_.array() + step_.vv * v_.array() + step_.v0p * p_.array() +
        step_.v1p * weight_.array();
    joined_.tail(f_.size()) = f_;
    free_.noalias() = predict_ * joined_;
    free_ += constant_;
    free_d_ = height - free_.head(n);
    free_rate_ = speed_ * slope - free_.segment(n, n);
    tyres_.solve(free_d_, free_rate_, slope, contact_);
    f_.setZero();
    push(slope);
    for (Eigen::Index i = 0; i < dampers; ++i) {
      double force = -free_[2 * n + i];
      for (Eigen::Index j = 0; j < n; ++j) {
        force -= (damper_gain_(i, j) - slope[j] * damper_gain_(i, n + j)) * contact_.F[j];
      }
      f_[elements_.damped[static_cast<size_t>(i)]] += force;
    }
    p_.noalias() = shapes_ * f_;
    q_ = q.array() + step_.q1p * p_.array();
    v_ = v.array() + step_.v1p * p_.array();
    p_ += weight_;
  }

  template <class Column>
  void write(RideBlock& block, Eigen::Index column, const Column& slope) const {
    block.displacement.col(column) = q_;
    block.rate.col(column) = v_;
    block.acceleration.col(column) =
        p_.array() - step_.damping * v_.array() - step_.stiffness * q_.array();
    block.forces.col(column) = f_;
    block.tyre_force.col(column) = contact_.F;
    block.deflection.col(column) = contact_.d;
    block.longitudinal.col(column) = -contact_.F.cwiseProduct(slope);
  }

 private:
  /// Eliminates the dampers. With w* and w*' at the end of the step without forces there,
  ///   w = w* + H f, w' = w*' + G f, damper forces -K (w*' + G f of the tyres),
  ///   K = (1 + C G)^-1 C at the dampers' coordinates.
  Give reduce(double step) {
    const Eigen::MatrixXd& modes = system_.modes;
    const Eigen::MatrixXd& R = system_.residual_flexibility;
    const Eigen::Index n = tyre_count(), m = modes.cols(), coordinates = modes.rows();
    const Eigen::MatrixXd H = modes * step_.q1p.matrix().asDiagonal() * modes.transpose() + R;
    const Eigen::MatrixXd G =
        modes * step_.v1p.matrix().asDiagonal() * modes.transpose() + R / step;
    const Eigen::MatrixXd& D = elements_.at_dampers;
    const Eigen::MatrixXd V = elements_.at_tyres.topRows(n);
    const Eigen::MatrixXd T = elements_.at_tyres.transpose();
    const Eigen::MatrixXd C = elements_.damping.asDiagonal();
    Eigen::MatrixXd K = Eigen::MatrixXd::Zero(C.rows(), C.cols());
    if (C.size() > 0) {
      const Eigen::MatrixXd M =
          Eigen::MatrixXd::Identity(C.rows(), C.cols()) + C * D * G * D.transpose();
      K = M.partialPivLu().solve(C);
    }
    const Eigen::MatrixXd KD = K * D;  // damper forces, less their sign, from rates
    damper_gain_ = KD * G * T;
    const Eigen::MatrixXd left_H = V * H * D.transpose(), left_G = V * G * D.transpose();
    Eigen::MatrixXd w = Eigen::MatrixXd::Zero(coordinates, 2 * m + coordinates), rate = w;
    w.leftCols(m) = modes;
    rate.middleCols(m, m) = modes;
    rate.rightCols(coordinates) = -R / step;
    const Eigen::MatrixXd dampers = KD * rate;
    predict_.resize(2 * n + K.rows(), w.cols());
    predict_ << V * w - left_H * dampers, V * rate - left_G * dampers, dampers;
    constant_ = Eigen::VectorXd::Zero(predict_.rows());
    constant_.head(n) = V * system_.weight_displacement;
    return {V * H * T - left_H * damper_gain_, V * G * T - left_G * damper_gain_};
  }

  /// Adds the forces of the tyres.
  template <class Column>
  void push(const Column& slope) {
    for (Eigen::Index i = 0; i < tyre_count(); ++i) {
      const RideTyre& t = system_.tyres[static_cast<size_t>(i)];
      f_[t.vertical] += contact_.F[i];
      if (t.longitudinal >= 0) f_[t.longitudinal] -= contact_.F[i] * slope[i];
    }
  }

  const RideSystem& system_;
  double speed_;
  ForceElements elements_;
  ModalStep step_;
  Eigen::MatrixXd predict_;  ///< deflections, rates, damper forces from what the step comes to
  Eigen::VectorXd constant_;
  Eigen::MatrixXd damper_gain_;  ///< damper forces from those of the tyres, less the sign
  TyreSolver tyres_;
  Eigen::VectorXd weight_;
  Eigen::MatrixXd shapes_;

  Eigen::VectorXd q_, v_, p_, f_;
  TyreState contact_;
  Eigen::VectorXd joined_, free_;
  TyreVector free_d_, free_rate_;
};

void resize(RideBlock& block, const RideSystem& system, Eigen::Index columns) {
  const auto tyres = static_cast<Eigen::Index>(system.tyres.size());
  for (Eigen::MatrixXd* m : {&block.displacement, &block.rate, &block.acceleration}) {
    m->resize(system.modes.cols(), columns);
  }
  block.forces.resize(system.modes.rows(), columns);
  for (Eigen::MatrixXd* m : {&block.tyre_force, &block.deflection, &block.longitudinal}) {
    m->resize(tyres, columns);
  }
}

bool finite(const RideBlock& b) {
  return b.displacement.allFinite() && b.rate.allFinite() && b.acceleration.allFinite() &&
         b.forces.allFinite();
}

}  // namespace

Outcome<RideEnd, NoEquilibrium> ride(const RideSystem& system, const WheelPaths& paths,
                                     const RideOptions& options, const RideSink& sink,
                                     const std::function<bool()>& should_stop) {
  assert(is_ride_system(system));
  assert(options.time_step > 0 && options.duration >= 0 && options.block > 0);
  const auto tyres = static_cast<Eigen::Index>(system.tyres.size());
  Eigen::MatrixXd height(tyres, 1), slope(tyres, 1);
  paths(0, height, slope);
  RideEnd end;
  if (options.start) {
    end.state = *options.start;
    assert(end.state.displacement.size() == system.modes.cols());
    assert(end.state.rate.size() == system.modes.cols());
  } else {
    const auto standing = standing_ride(system, height.col(0), options.bilateral);
    if (!standing) return *standing.error();
    end.state = {standing->displacement, Eigen::VectorXd::Zero(system.modes.cols())};
  }

  Ride run(system, options);
  run.start(end.state, options.bilateral, height.col(0), slope.col(0));
  // A duration of whole steps is not to get one more by rounding.
  constexpr double rounding = 1e-9;
  const auto last =
      static_cast<std::int64_t>(std::ceil(options.duration / options.time_step * (1 - rounding)));
  RideBlock block;
  for (std::int64_t first = 0; first <= last; first += options.block) {
    if (should_stop && should_stop()) {
      end.stopped = true;
      break;
    }
    const auto columns =
        static_cast<Eigen::Index>(std::min<std::int64_t>(options.block, last - first + 1));
    block.first = first;
    resize(block, system, columns);
    height.resize(tyres, columns);
    slope.resize(tyres, columns);
    paths(first, height, slope);
    for (Eigen::Index j = 0; j < columns; ++j) {
      if (first + j > 0) run.advance(height.col(j), slope.col(j));
      run.write(block, j, slope.col(j));
    }
    if (!finite(block)) {
      end.diverged = true;
      break;
    }
    sink(block);
    end.steps = first + columns - 1;
    end.state = run.state();
  }
  return end;
}

}  // namespace tubewright
