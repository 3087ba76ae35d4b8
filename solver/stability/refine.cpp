#include "solver/stability/refine.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace tubewright {

std::vector<int> pieces_for_modes(const Model& model, double frequency, int least) {
  constexpr double bent = 1.25;     // beta L of a piece: 0.3 % too high
  constexpr double straight = 0.3;  // k L of a piece: 0.4 % too high
  constexpr int most = 64;
  const double omega = 2 * std::numbers::pi * frequency;
  std::vector<int> pieces;
  for (const Beam& beam : model.beams) {
    const Section& s = model.sections[beam.section];
    const Material& m = model.materials[beam.material];
    const double L = (model.nodes[beam.to] - model.nodes[beam.from]).norm();
    const double beta =
        std::pow(omega * omega * m.density * s.A / (m.E * std::min(s.Iy, s.Iz)), 0.25);
    const double along = omega * std::sqrt(m.density / m.E);
    const double twisting = omega * std::sqrt(m.density * (s.Iy + s.Iz) / (m.G * s.It));
    const double wanted = L * std::max(beta / bent, std::max(along, twisting) / straight);
    // false for NaN
    pieces.push_back(wanted < most ? std::max(least, static_cast<int>(std::ceil(wanted))) : most);
  }
  return pieces;
}

RefinedModel refine(const Model& model, int pieces) {
  return refine(model, std::vector<int>(model.beams.size(), pieces));
}

RefinedModel refine(const Model& model, const std::vector<int>& pieces_of) {
  RefinedModel r;
  r.model = model;
  r.model.beams.clear();
  for (size_t b = 0; b < model.beams.size(); ++b) {
    const Beam& beam = model.beams[b];
    const int pieces = beam.arc.straight() ? pieces_of[b] : 1;
    const Eigen::Vector3d &from = model.nodes[beam.from], &to = model.nodes[beam.to];
    std::vector<int> nodes = {beam.from}, parts;
    for (int i = 1; i < pieces; ++i) {
      nodes.push_back(static_cast<int>(r.model.nodes.size()));
      r.model.nodes.emplace_back(from + static_cast<double>(i) / pieces * (to - from));
    }
    nodes.push_back(beam.to);
    for (int i = 0; i < pieces; ++i) {
      Beam piece = beam;
      piece.from = nodes[static_cast<size_t>(i)];
      piece.to = nodes[static_cast<size_t>(i) + 1];
      if (i > 0) {
        piece.connection_from = welded;
        piece.joint_from = {};
      }
      if (i + 1 < pieces) {
        piece.connection_to = welded;
        piece.joint_to = {};
      }
      parts.push_back(static_cast<int>(r.model.beams.size()));
      r.model.beams.push_back(piece);
    }
    r.pieces.push_back(std::move(parts));
    r.nodes.push_back(std::move(nodes));
  }
  for (Panel& panel : r.model.panels) {
    for (std::vector<EdgePiece>& edge : panel.edges) {
      std::vector<EdgePiece> finer;
      for (const EdgePiece& piece : edge) {
        if (!piece.is_beam) {
          finer.push_back(piece);
          continue;
        }
        for (const int part : r.pieces[static_cast<size_t>(piece.index)])
          finer.push_back({true, part});
      }
      edge = std::move(finer);
    }
  }
  return r;
}

Actions refine_actions(const RefinedModel& refined, const Actions& actions) {
  Actions fine = no_actions(refined.model);
  fine.nodal.head(actions.nodal.size()) = actions.nodal;
  fine.prescribed.head(actions.prescribed.size()) = actions.prescribed;
  fine.tension_fields = actions.tension_fields;
  for (size_t b = 0; b < actions.beams.size(); ++b) {
    const std::vector<int>& parts = refined.pieces[b];
    const auto count = static_cast<double>(parts.size());
    for (const int part : parts) {
      fine.beams[part].line = actions.beams[b].line;
      fine.beams[part].couple = actions.beams[b].couple;
    }
    for (const PointAction& point : actions.beams[b].points) {
      const double along = point.at * count;
      const auto i = static_cast<size_t>(std::clamp(std::floor(along), 0.0, count - 1));
      fine.beams[parts[i]].points.push_back(
          {along - static_cast<double>(i), point.force, point.moment});
    }
  }
  return fine;
}

AxialForces refine_axial_forces(const RefinedModel& refined, const StaticSolution& coarse) {
  AxialForces N{{}, {}, coarse.bar_forces, coarse.slack};
  N.beams.resize(refined.model.beams.size());
  N.growth.resize(refined.model.beams.size());
  for (size_t b = 0; b < coarse.beams.size(); ++b) {
    const std::vector<int>& parts = refined.pieces[b];
    const auto count = static_cast<double>(parts.size());
    for (size_t i = 0; i < parts.size(); ++i) {
      const auto at = static_cast<double>(i);
      const double from = section_forces(coarse.beams[b], at / count).N;
      const double to = section_forces(coarse.beams[b], (at + 1) / count, i + 1 == parts.size()).N;
      N.beams[parts[i]] = (from + to) / 2;
      N.growth[parts[i]] = to - from;
    }
  }
  return N;
}

}  // namespace tubewright
