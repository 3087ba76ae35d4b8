#include "cases/rides/ride_channels.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "cases/checks/weld_check.h"
#include "cases/model/mechanism_report.h"
#include "cases/verdict/fatigue_life.h"
#include "cases/verdict/hot_spot.h"
#include "solver/elements/stress.h"
#include "solver/statics/statics.h"

namespace tubewright {

namespace {

constexpr Eigen::Index N = 0, Vy = 1, Vz = 2, T = 3, My = 4, Mz = 5;

Eigen::Matrix<double, 6, 1> as_vector(const SectionForces& f) {
  return (Eigen::Matrix<double, 6, 1>() << f.N, f.Vy, f.Vz, f.T, f.My, f.Mz).finished();
}

/// Of a radius, or of a distance from the axis: 1/W, 0 where the section does not say.
double per(double modulus) { return modulus > 0 ? 1 / modulus : 0; }

std::array<double, 6> stress_weights(const Section& s) {
  const double y = per(std::isfinite(s.Ay) ? s.Ay : s.A), z = per(std::isfinite(s.Az) ? s.Az : s.A);
  constexpr double to_von_mises = std::numbers::sqrt3;
  return {per(s.A),  to_von_mises * y, to_von_mises * z, to_von_mises * per(s.Wt),
          per(s.Wy), per(s.Wz)};
}

/// Greatest stress in the throat, across it, of one unit of a section force.
double across_throat(const Section& section, const FilletWeld& weld, const SectionForces& unit) {
  const WeldCheck throat = weld_check(section.profile, weld, unit);
  return throat.directional.utilisation ? std::hypot(throat.sigma_perp, throat.tau_perp) : 0;
}

double along_throat(const Section& section, const FilletWeld& weld, const SectionForces& unit) {
  const WeldCheck throat = weld_check(section.profile, weld, unit);
  return throat.directional.utilisation ? std::abs(throat.tau_par) : 0;
}

std::array<double, 3> worse_of(const std::array<double, 3>& a, const std::array<double, 3>& b) {
  return {std::max(a[0], b[0]), std::max(a[1], b[1]), std::max(a[2], b[2])};
}

}  // namespace

Result<RideChannels> ride_channels(const Frame& frame, const NumberedFrame& numbered,
                                   const RideModel& model) {
  Model whole = model.vehicle.model;
  // Forces are sums of those of unit loads, one of which may well push a cable.
  for (Bar& bar : whole.bars) bar.tension_only = false;
  const Eigen::Index columns = model.loads.cols();
  std::vector<Actions> units;
  for (Eigen::Index k = 0; k < columns; ++k) {
    units.push_back(ride_actions(model, Eigen::VectorXd::Unit(columns, k)));
  }
  const StaticResult solved = solve_statics(whole, units);
  if (const auto* failure = solved.error()) {
    return failure_diagnostics(frame, numbered, *failure, "");
  }
  RideChannels c;
  c.beams = static_cast<Eigen::Index>(whole.beams.size());
  c.bars = static_cast<Eigen::Index>(whole.bars.size());
  c.panels = static_cast<Eigen::Index>(whole.panels.size());
  c.forces.resize(12 * c.beams + c.bars + c.panels, columns);
  for (Eigen::Index k = 0; k < columns; ++k) {
    const StaticSolution& s = (*solved)[static_cast<size_t>(k)];
    for (Eigen::Index b = 0; b < c.beams; ++b) {
      const BeamState& beam = s.beams[static_cast<size_t>(b)];
      c.forces.block<6, 1>(c.row_of_beam(b, 0), k) = as_vector(section_forces(beam, 0));
      c.forces.block<6, 1>(c.row_of_beam(b, 1), k) = as_vector(section_forces(beam, 1, true));
    }
    for (Eigen::Index b = 0; b < c.bars; ++b) {
      c.forces(c.row_of_bar(b), k) = s.bar_forces[static_cast<size_t>(b)];
    }
    for (Eigen::Index p = 0; p < c.panels; ++p) {
      c.forces(c.row_of_panel(p), k) = s.panel_flows[static_cast<size_t>(p)];
    }
  }
  return c;
}

HardestInstants::HardestInstants(const Model& model, const RideChannels& channels)
    : channels_(channels) {
  for (const Beam& beam : model.beams) {
    weights_.push_back(stress_weights(model.sections[static_cast<size_t>(beam.section)]));
  }
  // Of each beam: stress at both ends, compression; of each bar: tension, compression; panels.
  hardest_.resize(static_cast<size_t>(3 * channels.beams + 2 * channels.bars + channels.panels));
}

void HardestInstants::values(const Eigen::MatrixXd& forces, Eigen::Index part,
                             Eigen::ArrayXd& value) const {
  const RideChannels& c = channels_;
  if (part < 3 * c.beams) {
    const Eigen::Index beam = part / 3;
    if (part % 3 == 2) {
      value = -forces.col(c.row_of_beam(beam, 0))
                   .array()
                   .min(forces.col(c.row_of_beam(beam, 1)).array());
      return;
    }
    const Eigen::Index row = c.row_of_beam(beam, static_cast<int>(part % 3));
    const auto force = [&](Eigen::Index k) {
      return forces.col(row + k).array().abs() *
             weights_[static_cast<size_t>(beam)][static_cast<size_t>(k)];
    };
    value =
        ((force(N) + force(My) + force(Mz)).square() + (force(T) + force(Vy) + force(Vz)).square())
            .sqrt();
    return;
  }
  const Eigen::Index rest = part - 3 * c.beams;
  if (rest < 2 * c.bars) {
    const double sign = rest % 2 == 0 ? 1 : -1;
    value = sign * forces.col(c.row_of_bar(rest / 2)).array();
  } else {
    value = forces.col(c.row_of_panel(rest - 2 * c.bars)).array().abs();
  }
}

void HardestInstants::add(std::int64_t first, std::int64_t stride, const Eigen::MatrixXd& x,
                          const Eigen::MatrixXd& forces) {
  Eigen::ArrayXd value;
  for (Eigen::Index part = 0; part < parts(); ++part) {
    values(forces, part, value);
    Eigen::Index at = 0;
    const double greatest = value.maxCoeff(&at);
    RideInstant& so_far = hardest_[static_cast<size_t>(part)];
    if (!(greatest > so_far.value)) continue;
    so_far = {first + at * stride, greatest, x.col(at)};
  }
}

std::vector<bool> HardestInstants::hardly_hit(double least) const {
  const auto kind = [&](Eigen::Index part) -> size_t {
    if (part < 3 * channels_.beams) return part % 3 == 2 ? 1 : 0;
    return part < 3 * channels_.beams + 2 * channels_.bars ? 2 : 3;
  };
  std::array<double, 4> greatest = {};
  for (Eigen::Index part = 0; part < parts(); ++part) {
    double& of_kind = greatest[kind(part)];
    of_kind = std::max(of_kind, hardest_[static_cast<size_t>(part)].value);
  }
  std::vector<bool> hardly;
  for (Eigen::Index part = 0; part < parts(); ++part) {
    const RideInstant& own = hardest_[static_cast<size_t>(part)];
    hardly.push_back(own.step < 0 || own.value < least * greatest[kind(part)]);
  }
  return hardly;
}

std::vector<RideInstant> HardestInstants::covering(double share, double least) const {
  std::vector<const RideInstant*> found;
  for (const RideInstant& h : hardest_) {
    if (h.step >= 0) found.push_back(&h);
  }
  if (found.empty()) return {};
  const auto by_step = [](const RideInstant* a, const RideInstant* b) { return a->step < b->step; };
  std::stable_sort(found.begin(), found.end(), by_step);
  found.erase(std::unique(found.begin(), found.end(),
                          [](const auto* a, const auto* b) { return a->step == b->step; }),
              found.end());
  Eigen::MatrixXd x(found.front()->x.size(), static_cast<Eigen::Index>(found.size()));
  for (size_t i = 0; i < found.size(); ++i) x.col(static_cast<Eigen::Index>(i)) = found[i]->x;
  const Eigen::MatrixXd forces = x.transpose() * channels_.forces.transpose();
  // Which instants are as good as its own for each part that is not covered yet.
  std::vector<std::vector<size_t>> good_for(found.size());
  std::vector<bool> covered = hardly_hit(least);
  Eigen::ArrayXd value;
  for (Eigen::Index part = 0; part < parts(); ++part) {
    const RideInstant& own = hardest_[static_cast<size_t>(part)];
    if (covered[static_cast<size_t>(part)]) continue;
    values(forces, part, value);
    for (size_t i = 0; i < found.size(); ++i) {
      if (found[i]->step == own.step || value[static_cast<Eigen::Index>(i)] >= share * own.value)
        good_for[i].push_back(static_cast<size_t>(part));
    }
  }
  std::vector<RideInstant> chosen;
  for (;;) {
    size_t best = 0, most = 0;
    for (size_t i = 0; i < found.size(); ++i) {
      const auto open = static_cast<size_t>(std::count_if(
          good_for[i].begin(), good_for[i].end(), [&](size_t part) { return !covered[part]; }));
      if (open > most) {
        most = open;
        best = i;
      }
    }
    if (most == 0) break;
    for (const size_t part : good_for[best]) covered[part] = true;
    chosen.push_back(*found[best]);
  }
  std::sort(chosen.begin(), chosen.end(),
            [](const RideInstant& a, const RideInstant& b) { return a.step < b.step; });
  return chosen;
}

std::vector<EndWeights> end_weights(const Frame& frame, const NumberedFrame& numbered,
                                    const CheckFacts& facts, double category) {
  std::vector<EndWeights> list;
  for (size_t i = 0; i < frame.members.size(); ++i) {
    const MemberFacts& f = facts.members[i];
    const bool steel = f.metal == Metal::steel || f.metal == Metal::stainless;
    if (!numbered.slots[i].is_beam || !steel) continue;
    for (const int end : {0, 1}) {
      const WeldedEnd& weld = f.ends[static_cast<size_t>(end)];
      EndWeights w;
      w.beam = numbered.slots[i].index;
      w.end = end;
      w.round = f.section.profile.kind == ProfileKind::round;
      const Section& s = f.section;
      w.direct = {per(s.A), per(s.Wy), per(s.Wz)};
      w.shear = {worst_stress(s, {0, 0, 0, 1, 0, 0}).shear,
                 worst_stress(s, {0, 1, 0, 0, 0, 0}).shear,
                 worst_stress(s, {0, 0, 1, 0, 0, 0}).shear};
      const BraceHotSpot hot =
          brace_hot_spot(facts.members, facts.joint_ends[i][static_cast<size_t>(end)], i);
      if (hot.known) {
        const double like = category / hot_spot_category;
        const double y = hot.in_plane_about_y ? hot.factors.in_plane : hot.factors.out_of_plane;
        const double z = hot.in_plane_about_y ? hot.factors.out_of_plane : hot.factors.in_plane;
        w.direct = worse_of(w.direct, {like * hot.factors.axial * per(s.A), like * y * per(s.Wy),
                                       like * z * per(s.Wz)});
      }
      if (weld.welded) {
        const double like = category / weld_root_category;
        w.direct = worse_of(w.direct, {like * across_throat(s, weld.weld, {1, 0, 0, 0, 0, 0}),
                                       like * across_throat(s, weld.weld, {0, 0, 0, 0, 1, 0}),
                                       like * across_throat(s, weld.weld, {0, 0, 0, 0, 0, 1})});
        w.shear = worse_of(w.shear, {along_throat(s, weld.weld, {0, 0, 0, 1, 0, 0}),
                                     along_throat(s, weld.weld, {0, 1, 0, 0, 0, 0}),
                                     along_throat(s, weld.weld, {0, 0, 1, 0, 0, 0})});
      }
      list.push_back(w);
    }
  }
  return list;
}

namespace {

using Directions = std::vector<std::array<double, 2>>;

/// Eight places round a tube, between which a stress is at most 1/cos(22.5 deg) higher.
Directions round_directions() {
  Directions list;
  constexpr int places = 8;
  const double higher = 1 / std::cos(std::numbers::pi / places);
  for (int k = 0; k < places; ++k) {
    const double angle = 2 * std::numbers::pi * k / places;
    list.push_back({higher * std::cos(angle), higher * std::sin(angle)});
  }
  return list;
}

/// Directions in which bending about y and about z is looked at; of a rectangle its corners.
const Directions& directions(bool round) {
  static const Directions corners = {{1, 1}, {1, -1}, {-1, 1}, {-1, -1}}, ring = round_directions();
  return round ? ring : corners;
}

}  // namespace

EndCycles::EndCycles(std::vector<EndWeights> ends, double category, double gamma)
    : ends_(std::move(ends)),
      category_(category / gamma),
      shear_category_(throat_shear_category / gamma) {
  channels_.reserve(ends_.size());
  // Turns of less do no damage, whatever they are added to.
  const double gate = 0.5 * cut_off_limit(category_, FatigueCurve::direct_stress);
  for (const EndWeights& e : ends_) {
    channels_.emplace_back(directions(e.round).size() + shear_signs,
                           Channel{RainflowCounter(gate), 0});
  }
}

double EndCycles::damage_of(double range, bool shear) const {
  return shear ? 1 / cycles_to_failure(range, shear_category_, FatigueCurve::lattice_node)
               : 1 / cycles_to_failure(range, category_, FatigueCurve::direct_stress);
}

void EndCycles::add(const RideChannels& channels, const Eigen::MatrixXd& forces) {
  Eigen::ArrayXd stress;
  for (size_t i = 0; i < ends_.size(); ++i) {
    const EndWeights& e = ends_[i];
    const Eigen::Index row = channels.row_of_beam(e.beam, e.end);
    const auto force = [&](Eigen::Index k) { return forces.col(row + k).array(); };
    const Directions& ways = directions(e.round);
    for (size_t k = 0; k < channels_[i].size(); ++k) {
      Channel& channel = channels_[i][k];
      const bool shear = k >= ways.size();
      if (shear) {
        const size_t sign = k - ways.size();
        stress = e.shear[0] * force(T) + (sign < 2 ? 1 : -1) * e.shear[1] * force(Vy) +
                 (sign % 2 == 0 ? 1 : -1) * e.shear[2] * force(Vz);
      } else {
        stress = e.direct[0] * force(N) + ways[k][0] * e.direct[1] * force(My) +
                 ways[k][1] * e.direct[2] * force(Mz);
      }
      channel.counter.add(stress.data(), stress.size(), 1, [&](const Cycle& cycle) {
        channel.damage += cycle.count * damage_of(cycle.range, shear);
      });
    }
  }
}

std::vector<double> EndCycles::damage() const {
  std::vector<double> list;
  for (size_t i = 0; i < ends_.size(); ++i) {
    const size_t ways = directions(ends_[i].round).size();
    double direct = 0, shear = 0;
    for (size_t k = 0; k < channels_[i].size(); ++k) {
      double sum = channels_[i][k].damage;
      for (const Cycle& cycle : channels_[i][k].counter.close(Residue::repeated)) {
        sum += cycle.count * damage_of(cycle.range, k >= ways);
      }
      double& worst = k < ways ? direct : shear;
      worst = std::max(worst, sum);
    }
    list.push_back(direct + shear);  // EN 1993-1-9 8(3)
  }
  return list;
}

}  // namespace tubewright
