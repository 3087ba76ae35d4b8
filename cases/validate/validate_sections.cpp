// Materials and sections: values that exist, shapes that can be rolled.
#include <algorithm>
#include <cmath>
#include <limits>

#include "cases/frame/sensible_ranges.h"
#include "cases/validate/validate_errors.h"
#include "cases/validate/validate_parts.h"
#include "solver/model/section_shapes.h"

namespace tubewright {
namespace {

// A Poisson's ratio of exactly 0.5 in the file comes back from E/(2G) - 1 with a rounding error.
constexpr double largest_poisson_ratio = 0.5 + 1e-9;

void check_strengths(const MaterialEntry& entry, const std::string& subject,
                     Diagnostics& diagnostics) {
  const Material& m = entry.properties;
  const bool yield_known = !std::isnan(m.yield), ultimate_known = !std::isnan(m.ultimate);
  if (yield_known &&
      !check_range(m.yield, sensible::strength, subject, "yield", entry.place, diagnostics)) {
    return;
  }
  if (ultimate_known &&
      !check_range(m.ultimate, sensible::strength, subject, "ultimate", entry.place, diagnostics)) {
    return;
  }
  for (const auto& [value, key] : {std::pair{entry.heat_affected.yield, "heat_affected_yield"},
                                   {entry.heat_affected.ultimate, "heat_affected_ultimate"}}) {
    if (!std::isnan(value)) {
      check_range(value, sensible::strength, subject, key, entry.place, diagnostics);
    }
  }
  if (yield_known && ultimate_known && m.ultimate < m.yield) {
    add_error(diagnostics, entry.place, breaks_before_yield(entry.name));
  }
}

/// EN 10219-2 and EN 10210-2: the rounded corners must fit into the sides, outside and inside.
void check_corners(double side, double wall, Corners corners, const std::string& subject,
                   const SourceLocation& place, Diagnostics& diagnostics) {
  if (corners == Corners::sharp) return;
  const bool cold = corners == Corners::cold_formed;
  const CornerRadii radii = cold ? cold_formed_corners(wall) : hot_finished_corners(wall);
  const double needed = 2 * std::max(radii.outer, radii.inner + wall);
  if (side >= needed * (1 - 1e-9)) return;
  add_error(diagnostics, place,
            cold ? cold_formed_corners_too_large(subject, wall, needed)
                 : hot_finished_corners_too_large(subject, wall, needed));
}

}  // namespace

void validate_materials(const Frame& frame, Diagnostics& diagnostics) {
  for (const MaterialEntry& entry : frame.materials) {
    const std::string subject = "material " + quoted(entry.name);
    const Material& m = entry.properties;
    const bool stiff =
        check_range(m.E, sensible::elasticity, subject, "E", entry.place, diagnostics) &&
        check_range(m.G, sensible::elasticity, subject, "G", entry.place, diagnostics);
    check_range(m.density, sensible::density, subject, "density", entry.place, diagnostics);
    check_strengths(entry, subject, diagnostics);
    if (stiff && poisson_ratio(m) > largest_poisson_ratio) {
      add_error(diagnostics, entry.place, shear_modulus_too_small(entry.name));
    }
  }
}

void check_outline(Shape shape, double height, double width, double wall, Corners corners,
                   const std::string& subject, const SourceLocation& place,
                   Diagnostics& diagnostics) {
  const bool round = shape == Shape::round_tube || shape == Shape::round_bar;
  const bool square = shape == Shape::square_tube;
  const char* const height_key = round ? "diameter" : square ? "side" : "height";
  if (!check_range(height, sensible::size, subject, height_key, place, diagnostics)) return;
  if (!round && !square &&
      !check_range(width, sensible::size, subject, "width", place, diagnostics)) {
    return;
  }
  if (shape == Shape::round_bar || shape == Shape::flat_bar) return;

  if (!check_range(wall, sensible::size, subject, "wall", place, diagnostics)) return;
  const double side = std::min(height, width);
  if (wall >= side / 2) {
    add_error(diagnostics, place, wall_too_thick(subject, wall, side));
    return;
  }
  if (!round) check_corners(side, wall, corners, subject, place, diagnostics);
}

void check_properties(const Section& s, bool area_suffices, const std::string& subject,
                      const SourceLocation& place, Diagnostics& diagnostics) {
  const auto check = [&](const char* name, double value, const Range& range) {
    check_range(value, range, subject, name, place, diagnostics);
  };
  const auto optional = [&](const char* name, double value, double absent, const Range& range) {
    if (value != absent) check(name, value, range);
  };
  check("A", s.A, sensible::area);
  const double absent = area_suffices ? 0 : std::numeric_limits<double>::quiet_NaN();
  optional("Iy", s.Iy, absent, sensible::second_moment);
  optional("Iz", s.Iz, absent, sensible::second_moment);
  optional("It", s.It, absent, sensible::second_moment);
  optional("Wy", s.Wy, absent, sensible::modulus);
  optional("Wz", s.Wz, absent, sensible::modulus);
  optional("Wt", s.Wt, absent, sensible::modulus);
  optional("Wply", s.Wply, 0, sensible::modulus);
  optional("Wplz", s.Wplz, 0, sensible::modulus);
  optional("Ay", s.Ay, rigid, sensible::area);
  optional("Az", s.Az, rigid, sensible::area);
}

void validate_sections(const Frame& frame, const FrameNames& names, Diagnostics& diagnostics) {
  for (const SectionEntry& s : frame.sections) {
    const std::string subject = "section " + quoted(s.name);
    names.materials.find(s.material, subject, s.place, diagnostics);
    if (s.weld_filler) {
      check_range(*s.weld_filler, sensible::strength, subject, "weld_filler", s.place, diagnostics);
    }
    if (s.shape == Shape::properties) {
      check_properties(s.given, false, subject, s.place, diagnostics);
    } else {
      check_outline(s.shape, s.height, s.width, s.wall, s.corners, subject, s.place, diagnostics);
    }
  }
}

}  // namespace tubewright
