#include "cases/rides/ride_film.h"

#include <Eigen/Geometry>
#include <Eigen/QR>
#include <algorithm>
#include <cassert>
#include <cmath>
#include <functional>

#include "cases/model/spread_load.h"
#include "cases/rides/ride_road.h"
#include "solver/dynamics/ride.h"
#include "solver/statics/recovery.h"

namespace tubewright {

namespace {

constexpr int least_intervals = 8;  ///< along a member

/// One image before it is developed.
struct Exposure {
  double time = 0;
  Eigen::VectorXd rigid, x;  ///< displacement of the rigid modes; see RideModel
  Eigen::VectorXd tyre_force, deflection, road;
};

Exposure at_rest(const RideModel& model) {
  const auto tyres = static_cast<Eigen::Index>(model.system.tyres.size());
  const Eigen::VectorXd level = Eigen::VectorXd::Zero(tyres);
  const auto standing = standing_ride(model.system, level, false);
  assert(standing);
  const Eigen::Index forces = model.system.modes.rows(), elastic = model.static_answer.rows();
  Exposure e;
  e.rigid = standing->displacement.head(model.rigid);
  e.x.setZero(forces + elastic);
  for (Eigen::Index t = 0; t < tyres; ++t) {
    e.x[model.system.tyres[static_cast<size_t>(t)].vertical] += standing->tyre_forces[t];
  }
  e.x.tail(elastic) = standing->displacement.tail(elastic) - model.static_answer * e.x.head(forces);
  e.tyre_force = standing->tyre_forces;
  e.deflection = standing->deflections;
  e.road = level;
  return e;
}

Exposure exposure_of(const RideModel& model, const RideBlock& block, Eigen::Index column,
                     const Eigen::MatrixXd& road) {
  const Eigen::Index forces = block.forces.rows(), elastic = model.static_answer.rows();
  Exposure e;
  e.rigid = block.displacement.col(column).head(model.rigid);
  e.x.resize(forces + elastic);
  e.x.head(forces) = block.forces.col(column);
  e.x.tail(elastic) =
      block.displacement.col(column).tail(elastic) - model.static_answer * e.x.head(forces);
  e.tyre_force = block.tyre_force.col(column);
  e.deflection = block.deflection.col(column);
  e.road = road.col(column);
  return e;
}

/// Drives up to the last image and keeps the steps that are images.
std::vector<Exposure> exposures(const Frame& frame, const RideModel& model, const RideEntry& ride,
                                const FilmTimes& times) {
  const std::int64_t apart =
      std::max<std::int64_t>(1, std::llround(image_interval / times.time_step));
  const std::int64_t middle = std::llround(times.around / times.time_step);
  const std::int64_t first = middle - std::min<std::int64_t>(images_before, middle / apart) * apart;
  const std::int64_t last = middle + images_after * apart;
  RideOptions options;
  options.time_step = times.time_step;
  options.duration = std::min(times.duration, static_cast<double>(last) * times.time_step);
  options.speed = ride.speed;
  WheelPathStream stream = ride_paths(*frame.vehicle, ride, options.time_step);
  Eigen::MatrixXd road;
  const WheelPaths paths = [&](std::int64_t from, const Eigen::Ref<Eigen::MatrixXd>& height,
                               const Eigen::Ref<Eigen::MatrixXd>& slope) {
    stream(from, height, slope);
    road = height;
  };
  std::vector<Exposure> taken;
  [[maybe_unused]] const auto end =
      tubewright::ride(model.system, paths, options, [&](const RideBlock& block) {
        for (Eigen::Index j = 0; j < block.forces.cols(); ++j) {
          const std::int64_t step = block.first + j;
          if (step < first || step > last || (step - first) % apart != 0) continue;
          taken.push_back(exposure_of(model, block, j, road));
          taken.back().time = static_cast<double>(step) * times.time_step;
        }
      });
  assert(end && !end->diverged);
  return taken;
}

/// The rigid modes without what goes along x, along y and about z: 6 a node x rigid modes.
Eigen::MatrixXd without_drift(const RideModel& model) {
  const std::vector<Eigen::Vector3d>& nodes = model.fine.model.nodes;
  const auto count = static_cast<Eigen::Index>(nodes.size());
  const Eigen::Vector3d& centre = model.vehicle.mass.centre;
  // Motions as x, y, z, about x, about y, about z move the nodes. Where only links meet a node does
  // not turn with them, so places count.
  Eigen::MatrixXd motions(3 * count, 6), seen(3 * count, model.rigid);
  for (Eigen::Index n = 0; n < count; ++n) {
    const Eigen::Vector3d arm = nodes[static_cast<size_t>(n)] - centre;
    motions.block<3, 3>(3 * n, 0).setIdentity();
    for (int axis = 0; axis < 3; ++axis) {
      motions.block<3, 1>(3 * n, 3 + axis) = Eigen::Vector3d::Unit(axis).cross(arm);
    }
    seen.middleRows(3 * n, 3) = model.rigid_shapes.middleRows(dofs_per_node * n, 3);
  }
  const Eigen::MatrixXd parts = motions.colPivHouseholderQr().solve(seen);
  Eigen::MatrixXd shapes = model.rigid_shapes;
  for (Eigen::Index n = 0; n < count; ++n) {
    for (const int drift : {0, 1, 5}) {
      shapes.middleRows(dofs_per_node * n, 3) -=
          motions.block<3, 1>(3 * n, drift) * parts.row(drift);
    }
    shapes.row(dofs_per_node * n + 5) -= parts.row(5);
  }
  return shapes;
}

/// Unit forces on the carriers of a wheel at its centre, along x, y and z; what their work gives is
/// how far the centre moves. 6 a node of the frame x 3.
Eigen::MatrixXd centre_rows(const FreeVehicle& vehicle, size_t wheel) {
  Eigen::MatrixXd rows(dofs_per_node * static_cast<Eigen::Index>(vehicle.model.nodes.size()), 3);
  for (int axis = 0; axis < 3; ++axis) {
    Actions unit = no_actions(vehicle.model);
    add_spread(unit, vehicle.model, vehicle.carriers[wheel], vehicle.centres[wheel],
               Eigen::Vector3d::Unit(axis), Eigen::Vector3d::Zero());
    rows.col(axis) = unit.nodal;
  }
  return rows;
}

std::vector<FilmStation> beam_stations(const RefinedModel& fine, size_t beam,
                                       const std::vector<BeamState>& states) {
  const std::vector<int>& pieces = fine.pieces[beam];
  const std::vector<int>& nodes = fine.nodes[beam];
  const size_t count = pieces.size(), of_a_piece = (least_intervals + count - 1) / count;
  const auto whole = static_cast<double>(count);
  std::vector<FilmStation> stations;
  for (size_t p = 0; p < count; ++p) {
    const BeamState& state = states[static_cast<size_t>(pieces[p])];
    const Eigen::Vector3d& from = fine.model.nodes[static_cast<size_t>(nodes[p])];
    const Eigen::Vector3d& to = fine.model.nodes[static_cast<size_t>(nodes[p + 1])];
    for (size_t i = p == 0 ? 0 : 1; i <= of_a_piece; ++i) {
      const double s = static_cast<double>(i) / static_cast<double>(of_a_piece);
      const BeamDisplacement d = beam_displacement(state, s);
      stations.push_back({(static_cast<double>(p) + s) / whole, from + s * (to - from),
                          d.displacement, d.rotation, section_forces(state, s, i == of_a_piece)});
    }
  }
  return stations;
}

/// A link, spring or cable stays straight and turns as its ends move apart sideways.
std::vector<FilmStation> bar_stations_of(const Model& model, const Bar& bar, double force,
                                         const Eigen::VectorXd& displacement) {
  const Eigen::Vector3d& from = model.nodes[static_cast<size_t>(bar.from)];
  const Eigen::Vector3d& to = model.nodes[static_cast<size_t>(bar.to)];
  const Eigen::Vector3d start = displacement.segment<3>(dofs_per_node * bar.from),
                        end = displacement.segment<3>(dofs_per_node * bar.to), chord = to - from;
  const Eigen::Vector3d turn = chord.cross(end - start) / chord.squaredNorm();
  SectionForces forces;
  forces.N = force;
  return {{0, from, start, turn, forces}, {1, to, end, turn, forces}};
}

/// From modes and forces to what is seen.
class Developer {
 public:
  Developer(const NumberedFrame& numbered, const RideModel& model)
      : numbered_(numbered), model_(model), rigid_(without_drift(model)) {
    for (size_t w = 0; w < model.system.tyres.size(); ++w) {
      centres_.push_back(centre_rows(model.vehicle, w));
    }
    rest_ = whole(at_rest(model));
  }

  FilmImage image(const Exposure& e) const {
    FilmImage image = whole(e);
    for (size_t m = 0; m < image.members.size(); ++m) {
      for (size_t k = 0; k < image.members[m].size(); ++k) {
        image.members[m][k].displacement -= rest_.members[m][k].displacement;
        image.members[m][k].rotation -= rest_.members[m][k].rotation;
      }
    }
    for (size_t w = 0; w < image.wheels.size(); ++w) {
      image.wheels[w].displacement -= rest_.wheels[w].displacement;
    }
    return image;
  }

 private:
  /// Displacements from where the unloaded tyres just touch the ground.
  FilmImage whole(const Exposure& e) const {
    const Model& fine = model_.fine.model;
    const Eigen::VectorXd moved = rigid_ * e.rigid + model_.give * e.x;
    const std::vector<bool> taut(fine.bars.size(), false);
    const StaticSolution s = recover(fine, no_actions(fine), taut, moved);
    FilmImage image;
    image.time = e.time;
    for (const MemberSlot& slot : numbered_.slots) {
      const auto index = static_cast<size_t>(slot.index);
      image.members.push_back(
          slot.is_beam ? beam_stations(model_.fine, index, s.beams)
                       : bar_stations_of(fine, fine.bars[index], s.bar_forces[index], moved));
    }
    for (size_t w = 0; w < centres_.size(); ++w) {
      const auto tyre = static_cast<Eigen::Index>(w);
      image.wheels.push_back({centres_[w].transpose() * moved.head(centres_[w].rows()),
                              e.tyre_force[tyre], e.deflection[tyre], e.road[tyre]});
    }
    return image;
  }

  const NumberedFrame& numbered_;
  const RideModel& model_;
  Eigen::MatrixXd rigid_;
  std::vector<Eigen::MatrixXd> centres_;
  FilmImage rest_;
};

}  // namespace

RideFilm ride_film(const Frame& frame, const NumberedFrame& numbered, const RideModel& model,
                   const RideEntry& ride, const FilmTimes& times) {
  RideFilm film;
  const Developer developer(numbered, model);
  for (const Exposure& e : exposures(frame, model, ride, times)) {
    film.images.push_back(developer.image(e));
  }
  return film;
}

}  // namespace tubewright
