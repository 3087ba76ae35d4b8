#include "cases/attachment_checks/gusset_check.h"

#include <algorithm>
#include <cmath>

#include "cases/attachment_checks/plate_on_face.h"
#include "cases/attachment_checks/plate_weld.h"
#include "cases/checks/governing_cuts.h"
#include "cases/frame/built_in_materials.h"
#include "cases/frame/find_parts.h"

namespace tubewright {
namespace {

bool of_steel(const MaterialEntry& m) {
  return m.metal == Metal::steel || m.metal == Metal::stainless;
}

/// The worse of two; one that has no number counts first.
CheckResult worse_leg(const CheckResult& a, const CheckResult& b) {
  if (!a.utilisation || !b.utilisation) return a.utilisation ? b : a;
  return *b.utilisation > *a.utilisation ? b : a;
}

class GussetChecks {
 public:
  GussetChecks(const Frame& frame, const NumberedFrame& numbered, const Gusset& g, double force,
               const BeamEnds& tubes, double factor)
      : frame_(frame),
        n_(numbered),
        g_(g),
        own_(*find_material(frame, g.material)),
        plate_(gusset_plate(frame, g)),
        tubes_(tubes),
        factor_(factor),
        force_(factor * force) {}

  std::vector<NamedCheck> make() const {
    for (const MaterialEntry* m : {&own_, &wall_of(0), &wall_of(1)}) {
      if (!of_steel(*m)) return {{"plate", not_made("the rules are of steel")}};
      if (!(m->properties.yield > 0)) {
        return {{"plate", not_made("a yield strength is not known")}};
      }
    }
    return {{"face", worse_leg(face(0), face(1))},
            {"weld", worse_leg(weld(0), weld(1))},
            {"plate", plate_yield()},
            {"free_edge", free_edge()}};
  }

 private:
  const MaterialEntry& wall_of(size_t k) const {
    return *find_material(frame_, find_section(frame_, g_.legs[k].section).material);
  }

  /// Of both plates, on the tube of leg k.
  FootLoads loads(size_t k) const {
    FootLoads f;
    f.N = force_ * plate_.push[k];
    f.V_along = std::abs(force_) * plate_.shear[k];
    f.M_strong = f.N * plate_.lever[k];
    return f;
  }

  CheckResult face(size_t k) const {
    const GussetLeg& leg = g_.legs[k];
    const SectionEntry& entry = find_section(frame_, leg.section);
    PlatedTube tube;
    tube.b0 = leg_face_width(entry, leg);
    tube.h0 = leg_face_depth(entry, leg);
    tube.t0 = entry.wall;
    tube.fy = wall_of(k).properties.yield;
    tube.n = compression_at(leg) / tube.fy;
    const FootLoads f = loads(k);
    if (g_.at_sides) {
      return walls_beside_check(tube, wall_of(k).properties.E, leg.length, f.N, f.M_strong, 0,
                                "plates at the sides");
    }
    const FacePlate plate{g_.thickness, leg.length, own_.properties.yield};
    return along_plate_check(tube, plate, f.N, f.M_strong);
  }

  /// Greatest compressive stress of the tube where the leg ends, Pa.
  double compression_at(const GussetLeg& leg) const {
    const int node = n_.node.at(leg.axis_node);
    double greatest = 0;
    for (size_t b = 0; b < n_.model.beams.size(); ++b) {
      const Beam& beam = n_.model.beams[b];
      if (n_.member_of_beam[b] < 0 || (beam.from != node && beam.to != node)) continue;
      const SectionForces f = scaled(tubes_[b][beam.from == node ? 0 : 1], factor_);
      const Section& s = n_.model.sections[static_cast<size_t>(beam.section)];
      greatest = std::max(greatest, std::abs(f.My) / s.Wy + std::abs(f.Mz) / s.Wz - f.N / s.A);
    }
    return greatest;
  }

  CheckResult weld(size_t k) const {
    const Material &wall = wall_of(k).properties, &own = own_.properties;
    FootWeld w;
    w.length = g_.legs[k].length;
    w.apart = g_.thickness;
    w.thinnest = std::min(g_.thickness, find_section(frame_, g_.legs[k].section).wall);
    w.throat = g_.weld_throat.value_or(usual_plate_throat(w.thinnest));
    w.fu = std::min(wall.ultimate, own.ultimate);
    if (std::isnan(wall.ultimate) || std::isnan(own.ultimate)) w.fu = std::nan("");
    w.fy = std::max(wall.yield, own.yield);
    FootLoads one = loads(k);
    for (double* part : {&one.N, &one.V_along, &one.M_strong}) *part /= plate_.plates;
    return plate_weld_check(w, one);
  }

  CheckResult plate_yield() const {
    CheckResult r;
    r.utilisation = gusset_stress(plate_, g_.thickness, force_) / own_.properties.yield;
    r.clause = "EN 1993-1-1 6.2.1(5)";
    return r;
  }

  CheckResult free_edge() const {
    if (force_ >= 0) return not_needed("its free edge is not pressed");
    CheckResult r;
    r.utilisation = plate_.free_edge / g_.thickness /
                    (2 * std::sqrt(own_.properties.E / own_.properties.yield));
    r.clause = "L_e/t <= 2 sqrt(E/f_y)";
    r.comparison = true;
    r.reason = "a proportion from memory, not a resistance";
    return r;
  }

  const Frame& frame_;
  const NumberedFrame& n_;
  const Gusset& g_;
  const MaterialEntry& own_;
  const GussetPlate plate_;
  const BeamEnds& tubes_;
  const double factor_, force_;
};

}  // namespace

double gusset_stress(const GussetPlate& plate, double thickness, double force) {
  const double area = plate.plates * plate.height * thickness;
  const double off_middle = std::abs(plate.bar_off - plate.height / 2);
  return std::abs(force) / area * (1 + 6 * off_middle / plate.height);
}

GussetResult gusset_result(const Frame& frame, const NumberedFrame& numbered, size_t which,
                           double force, const BeamEnds& tubes, double factor) {
  return {force, GussetChecks(frame, numbered, frame.gussets[which], force, tubes, factor).make()};
}

}  // namespace tubewright
