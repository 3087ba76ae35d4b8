#include "cases/studies/frame_modes.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <numeric>

#include "cases/frame/find_parts.h"
#include "cases/joint_stiffness/joint_springs.h"
#include "cases/model/mechanism_report.h"
#include "cases/model/spread_load.h"
#include "cases/studies/suspension_modes.h"
#include "solver/stability/refine.h"

namespace tubewright {

namespace {

/// What a mode does, by shares of the nodes' kinetic energy.
struct Looks {
  enum Kind { torsion, vertical, lateral, lengthwise, local, kinds };
  std::array<double, kinds> share = {};

  Kind kind() const {
    return static_cast<Kind>(std::max_element(share.begin(), share.end()) - share.begin());
  }
};

constexpr const char* kind_words[] = {"torsion", "vertical bending", "lateral bending",
                                      "lengthwise motion", "motion of single tubes"};

std::string ordinal(int n) {
  constexpr const char* words[] = {"first", "second", "third", "fourth", "fifth", "sixth"};
  return n <= 6 ? words[n - 1] : std::to_string(n) + "th";
}

/// What a beam's ends have of its inertia about its own axis, global axes, one a node.
std::vector<Eigen::Matrix3d> nodal_inertias(const Model& model) {
  std::vector<Eigen::Matrix3d> list(model.nodes.size(), Eigen::Matrix3d::Zero());
  for (const Beam& b : model.beams) {
    const Section& s = model.sections[static_cast<size_t>(b.section)];
    const Eigen::Vector3d span =
        model.nodes[static_cast<size_t>(b.to)] - model.nodes[static_cast<size_t>(b.from)];
    const double density = model.materials[static_cast<size_t>(b.material)].density;
    const Eigen::Matrix3d half =
        density * (s.Iy + s.Iz) / 2 * span * span.transpose() / span.norm();
    for (const int n : {b.from, b.to}) list[static_cast<size_t>(n)] += half;
  }
  return list;
}

/// Cuts the frame into stations along x. At each, the mean motion and the turn about x; the rest is
/// the tubes' own.
class ShapeReader {
 public:
  ShapeReader(const Model& model, const std::vector<double>& masses)
      : model_(model), masses_(masses), inertias_(nodal_inertias(model)) {
    std::vector<int> order(model.nodes.size());
    std::iota(order.begin(), order.end(), 0);
    const auto x = [&](int n) { return model.nodes[static_cast<size_t>(n)].x(); };
    std::stable_sort(order.begin(), order.end(), [&](int a, int b) { return x(a) < x(b); });
    const double same_place = order.empty() ? 0 : 0.02 * (x(order.back()) - x(order.front()));
    for (const int n : order) {
      if (stations_.empty() || x(n) > x(stations_.back().front()) + same_place) {
        stations_.emplace_back();
      }
      stations_.back().push_back(n);
    }
  }

  /// `shape`: mass-normalised.
  Looks looks(const Eigen::VectorXd& shape) const {
    constexpr double joints_stand = 0.01;  // share of the energy that is no motion of theirs
    Looks l;
    double all = 0;
    for (const std::vector<int>& station : stations_) all += add_station(station, shape, l);
    if (!(all > joints_stand)) {
      l = Looks();
      l.share[Looks::local] = 1;
      return l;
    }
    double explained = 0;
    for (double& share : l.share) explained += share /= all;
    l.share[Looks::local] = std::max(0.0, 1 - explained);
    return l;
  }

 private:
  /// Twice the kinetic energy of its nodes at unit circular frequency.
  double add_station(const std::vector<int>& station, const Eigen::VectorXd& shape,
                     Looks& l) const {
    double mass = 0, all = 0;
    Eigen::Vector3d centre = Eigen::Vector3d::Zero(), mean = Eigen::Vector3d::Zero();
    for (const int n : station) {
      const double m = masses_[static_cast<size_t>(n)];
      const Eigen::Vector3d u = shape.segment<3>(dofs_per_node * n);
      mass += m;
      centre += m * model_.nodes[static_cast<size_t>(n)];
      mean += m * u;
      all += m * u.squaredNorm();
    }
    if (!(mass > 0)) return 0;
    centre /= mass;
    mean /= mass;
    double inertia = 0, momentum = 0;
    for (const int n : station) {
      const Eigen::Matrix3d& J = inertias_[static_cast<size_t>(n)];
      const Eigen::Vector3d turn = shape.segment<3>(dofs_per_node * n + 3);
      all += turn.dot(J * turn);
      inertia += J(0, 0);
      momentum += J.row(0) * turn;
      const double m = masses_[static_cast<size_t>(n)];
      const Eigen::Vector3d r = model_.nodes[static_cast<size_t>(n)] - centre;
      const Eigen::Vector3d u = shape.segment<3>(dofs_per_node * n);
      inertia += m * (r.y() * r.y() + r.z() * r.z());
      momentum += m * (r.y() * u.z() - r.z() * u.y());
    }
    if (inertia > 0) l.share[Looks::torsion] += momentum * momentum / inertia;
    l.share[Looks::vertical] += mass * mean.z() * mean.z();
    l.share[Looks::lateral] += mass * mean.y() * mean.y();
    l.share[Looks::lengthwise] += mass * mean.x() * mean.x();
    return all;
  }

  const Model& model_;
  const std::vector<double>& masses_;
  std::vector<Eigen::Matrix3d> inertias_;
  std::vector<std::vector<int>> stations_;
};

/// The greatest translation becomes 1.
Eigen::VectorXd scaled(const Eigen::VectorXd& shape) {
  double greatest = 0;
  for (Eigen::Index at = 0; at < shape.size(); at += dofs_per_node) {
    greatest = std::max(greatest, shape.segment<3>(at).norm());
  }
  // A tube that only twists about its own axis moves by rounding: scaled by its turning instead.
  constexpr double arm = 1e-3;  // m
  greatest = std::max(greatest, arm * shape.lpNorm<Eigen::Infinity>());
  return greatest > 0 ? Eigen::VectorXd(shape / greatest) : shape;
}

std::vector<FrameMode> named_modes(const Modes& modes, const ShapeReader& reader,
                                   const SuspensionReader& suspension) {
  std::vector<FrameMode> list;
  std::map<Looks::Kind, int> seen;
  for (const Mode& mode : modes.modes) {
    FrameMode m{mode.frequency, mode.rigid, "rigid-body motion", 1, scaled(mode.shape)};
    if (mode.rigid) {
      list.push_back(std::move(m));
      continue;
    }
    if (const auto ride = suspension.ride(mode)) {
      m.words = ride->words;
      m.share = ride->share;
    } else {
      const Looks looks = reader.looks(mode.shape);
      const Looks::Kind kind = looks.kind();
      m.share = looks.share[kind];
      m.words = ordinal(++seen[kind]) + " " + kind_words[kind];
    }
    list.push_back(std::move(m));
  }
  return list;
}

/// How many of the frame's own modes are looked through for its first torsion and bending: on arms
/// and wishbones, wheels swing before the frame does.
constexpr int own_modes = 16;

std::vector<FrameMode> own_of(const std::vector<FrameMode>& modes) {
  std::vector<FrameMode> own;
  bool twists = false, bends = false;
  for (const FrameMode& m : modes) {
    if (m.rigid) continue;
    const bool torsion = m.words == ordinal(1) + " " + kind_words[Looks::torsion];
    const bool bending = m.words == ordinal(1) + " " + kind_words[Looks::vertical] ||
                         m.words == ordinal(1) + " " + kind_words[Looks::lateral];
    if (!own.empty() && !(torsion && !twists) && !(bending && !bends)) continue;
    twists = twists || torsion;
    bends = bends || bending;
    own.push_back(m);
    own.back().words = "frame's own " + m.words;
    own.back().frame_only = true;
  }
  return own;
}

}  // namespace

std::vector<AddedMass> added_masses(const Model& model, const MassDistribution& distribution) {
  std::vector<AddedMass> list;
  for (const Lump& lump : distribution.lumps) {
    std::vector<Eigen::Vector3d> at;
    for (const int n : lump.on) at.push_back(model.nodes[static_cast<size_t>(n)]);
    // Columns: what the nodes take of a unit force or moment on the mass.
    Eigen::MatrixXd S(dofs_per_node * static_cast<Eigen::Index>(lump.on.size()), 6);
    for (int d = 0; d < 6; ++d) {
      const Eigen::Vector3d unit = Eigen::Vector3d::Unit(d % 3), none = Eigen::Vector3d::Zero();
      const std::vector<NodeShare> shares =
          spread_load(at, lump.at, d < 3 ? unit : none, d < 3 ? none : unit);
      for (size_t n = 0; n < shares.size(); ++n) {
        const auto row = dofs_per_node * static_cast<Eigen::Index>(n);
        S.col(d).segment<3>(row) = shares[n].force;
        S.col(d).segment<3>(row + 3) = shares[n].moment;
      }
    }
    Eigen::MatrixXd own = Eigen::MatrixXd::Zero(6, 6);
    own.topLeftCorner<3, 3>().diagonal().setConstant(lump.mass);
    own.bottomRightCorner<3, 3>() = lump.inertia;
    list.push_back({lump.on, S * own * S.transpose()});
  }
  return list;
}

namespace {

/// Everything about a frame that does not depend on how finely its tubes are cut.
struct ModesOf {
  const Frame& frame;
  const NumberedFrame& numbered;
  std::vector<AddedMass> added;
  std::vector<double> masses;
  std::vector<Tyre> tyres;
  int count = 0;
};

Result<FrameModes> modes_on(const ModesOf& f, const std::vector<int>& pieces) {
  FrameModes result;
  result.fine = refine(f.numbered.model, pieces);
  result.slots = f.numbered.slots;
  result.arms = f.numbered.arms;
  result.restrained = !f.numbered.model.supports.empty();
  result.on_tyres = !f.tyres.empty();
  const auto outcome = natural_modes(result.fine.model, f.added, f.count, ground_of(f.tyres));
  if (const auto* mechanism = outcome.error())
    return failure_of_cut_frame(f.frame, f.numbered, *mechanism);
  const ShapeReader reader(f.numbered.model, f.masses);
  const SuspensionReader suspension(f.frame, f.numbered, f.masses, f.tyres);
  result.complete = outcome->complete;
  result.modes = named_modes(*outcome, reader, suspension);
  const bool alone = !has_springs(f.frame) && !result.on_tyres;
  for (FrameMode& m : result.modes) m.frame_only = alone && !m.rigid;
  if (alone || result.restrained) return result;
  const auto locked = natural_modes(with_locked_springs(f.frame, f.numbered, result.fine.model),
                                    f.added, std::max(f.count, own_modes));
  if (locked) {
    const SuspensionReader none(f.frame, f.numbered, f.masses, {});
    result.own = own_of(named_modes(*locked, reader, none));
    result.complete = result.complete && locked->complete;
  }
  return result;
}

double highest(const FrameModes& modes) {
  double highest = 0;
  for (const auto* list : {&modes.modes, &modes.own}) {
    for (const FrameMode& m : *list) highest = std::max(highest, m.frequency);
  }
  return highest;
}

/// Without the elastic modes beyond `count`.
FrameModes lowest_of(FrameModes modes, int count) {
  int elastic = 0;
  std::erase_if(modes.modes, [&](const FrameMode& m) { return !m.rigid && ++elastic > count; });
  return modes;
}

/// Pieces of every tube for a first look: enough to have so many modes at all.
int first_pieces(size_t beams, int count) {
  constexpr int fewest = 2, most = 16, pieces_a_mode = 2;
  const double wanted = pieces_a_mode * static_cast<double>(std::max(count, own_modes)) /
                        static_cast<double>(std::max<size_t>(1, beams));
  return std::clamp(static_cast<int>(std::ceil(wanted)), fewest, most);
}

}  // namespace

// Meshes of consistent mass find frequencies too high, so the highest of the first look is one that
// the second mesh has to reach at most. The meshes of a few modes are one, so that all who ask for
// the lowest are told the same.
Result<FrameModes> frame_modes(const Frame& frame, int count) {
  constexpr int usual_count = 10;
  const NumberedFrame numbered = jointed_model(frame);
  const MassDistribution distribution = mass_distribution(frame, numbered);
  ModesOf f{frame,
            numbered,
            added_masses(numbered.model, distribution),
            nodal_masses(numbered.model, distribution),
            {},
            std::max(count, usual_count)};
  if (numbered.model.supports.empty()) f.tyres = tyres_of(frame, numbered);
  const Model& model = numbered.model;
  const std::vector<int> coarse(model.beams.size(), first_pieces(model.beams.size(), f.count));
  Result<FrameModes> look = modes_on(f, coarse);
  if (!look) return look;
  const int least = coarse.empty() ? 1 : coarse.front();
  const std::vector<int> fine = pieces_for_modes(model, highest(*look), least);
  if (fine == coarse) return lowest_of(std::move(*look), count);
  Result<FrameModes> found = modes_on(f, fine);
  if (!found) return found;
  return lowest_of(std::move(*found), count);
}

const FrameMode* lowest_elastic(const FrameModes& modes) {
  if (!modes.own.empty()) return &modes.own.front();
  for (const FrameMode& m : modes.modes) {
    if (!m.rigid) return &m;
  }
  return nullptr;
}

bool modes_pass(const Frame& frame, const FrameModes& modes) {
  const FrameMode* lowest = lowest_elastic(modes);
  return !frame.limits.frequency || lowest == nullptr ||
         lowest->frequency >= *frame.limits.frequency;
}

}  // namespace tubewright
