// What the frame is made of: materials, sections, nodes, members, mirror.
#include <cmath>
#include <limits>

#include "cases/bends/bend_errors.h"
#include "cases/frame/wording.h"
#include "io/frame_file/frame_parts.h"
#include "io/keys/choice_words.h"
#include "io/yaml/yaml_errors.h"

namespace tubewright {
namespace {

constexpr double unknown = std::numeric_limits<double>::quiet_NaN();

/// Both `G` and `nu` may be given if they say the same: to the rounding of two decimals.
double shear_modulus(const std::string& name, const SourceLocation& place, const CheckedValue& v,
                     Diagnostics& diagnostics) {
  const CheckedValue& E = v["E"];
  const CheckedValue& G = v["G"];
  const CheckedValue& nu = v["nu"];
  if (!G.given && !nu.given) {
    diagnostics.push_back(error_at(place, no_shear_modulus(name)));
    return 0;
  }
  if (!G.given) return E.number / (2 * (1 + nu.number));
  if (nu.sound && G.sound && E.sound) {
    const double from_moduli = E.number / (2 * G.number) - 1;
    if (std::abs(from_moduli - nu.number) > 0.01) {
      diagnostics.push_back(error_at(nu.place, moduli_disagree(nu.number, from_moduli)));
    }
  }
  return G.number;
}

/// A release: a list of what is free, or a map of stiffnesses.
EndConnection end_connection(const CheckedValue& v) {
  EndConnection connection = welded;
  for (const CheckedValue& free : v.items) {
    if (free.index >= 0) connection[static_cast<std::size_t>(free.index)] = 0;
  }
  for (std::size_t i = 0; i < v.fields.size(); ++i) {
    if (v.fields[i].given) connection[i] = v.fields[i].number;
  }
  return connection;
}

/// Steels have 190 to 215 GPa, aluminium alloys 68 to 75 (common practice, no source).
Metal metal_by_modulus(double E) {
  if (E >= 180e9) return Metal::steel;
  return E >= 60e9 && E <= 80e9 ? Metal::aluminium : Metal::other;
}

/// One factor for both axes, or one each.
std::array<std::optional<double>, 2> buckling_length(const CheckedValue& v) {
  if (v.items.size() == 2) return {v.items[0].number, v.items[1].number};
  return {number_if_given(v), number_if_given(v)};
}

std::array<bool, 2> capped_ends(const CheckedValue& v) {
  std::array<bool, 2> capped = {v.text == "from" || v.text == "both",
                                v.text == "to" || v.text == "both"};
  for (const CheckedValue& end : v.items) capped[end.text == "from" ? 0 : 1] = true;
  return capped;
}

/// The pieces of a continuous tube; releases and caps stand at its two ends only.
void add_pieces(const Member& tube, const CheckedValue& v, Frame& frame, Diagnostics& diagnostics) {
  const std::vector<std::string> path = texts(v["path"]);
  if (path.size() < 2) frame.members.push_back(tube);
  const CheckedValue& bend = v["bend"];
  if (!bend.items.empty() && path.size() >= 2 && bend.items.size() != path.size() - 2) {
    add_error(diagnostics, tube.place,
              bends_and_corners(tube.name, bend.items.size(), path.size() - 2));
  }
  for (std::size_t i = 0; i + 1 < path.size(); ++i) {
    Member piece = tube;
    piece.name = tube.name + "." + std::to_string(i + 1);
    piece.tube = tube.name;
    piece.from = path[i];
    piece.to = path[i + 1];
    if (i > 0) {
      piece.release_from = welded;
      piece.capped[0] = false;
    }
    if (i + 2 < path.size()) {
      piece.release_to = welded;
      piece.capped[1] = false;
      if (bend.items.empty()) piece.bend = number_if_given(bend).value_or(0);
      if (i < bend.items.size()) piece.bend = bend.items[i].number;
    }
    frame.members.push_back(std::move(piece));
  }
}

void add_member(const NamedValue& entry, Frame& frame, Diagnostics& diagnostics) {
  const CheckedValue& v = entry.value;
  Member member;
  member.name = entry.name;
  member.place = entry.place;
  if (v.group == nullptr) {
    frame.members.push_back(std::move(member));
    return;
  }
  member.kind = value_for(member_kind_words, v["kind"].text);
  if (member.kind == MemberKind::spring) {
    member.rate = v["rate"].number;
    member.damping = v["damping"].number;
  } else {
    member.section = v["section"].text;
  }
  if (member.kind == MemberKind::beam) {
    member.roll = v["roll"].number;
    member.release_from = end_connection(v["release_from"]);
    member.release_to = end_connection(v["release_to"]);
    member.buckling_length = buckling_length(v["buckling_length"]);
    member.weld_throat = number_if_given(v["weld_throat"]);
    member.capped = capped_ends(v["cap"]);
  }
  if (v.group->marked_by == "path") {
    add_pieces(member, v, frame, diagnostics);
    return;
  }
  member.from = v["from"].text;
  member.to = v["to"].text;
  frame.members.push_back(std::move(member));
}

}  // namespace

void read_materials(const CheckedValue& top, Frame& frame, Diagnostics& diagnostics) {
  for (const NamedValue& entry : top["materials"].entries) {
    const CheckedValue& v = entry.value;
    MaterialEntry material;
    material.name = entry.name;
    material.place = entry.place;
    if (v.group != nullptr) {
      Material& m = material.properties;
      m.E = v["E"].number;
      m.G = shear_modulus(entry.name, entry.place, v, diagnostics);
      m.density = v["density"].number;
      m.yield = number_if_given(v["yield"]).value_or(unknown);
      m.ultimate = number_if_given(v["ultimate"]).value_or(unknown);
      material.metal =
          v["metal"].given ? value_for(metal_words, v["metal"].text) : metal_by_modulus(m.E);
      material.heat_affected = {number_if_given(v["heat_affected_yield"]).value_or(unknown),
                                number_if_given(v["heat_affected_ultimate"]).value_or(unknown)};
    }
    frame.materials.push_back(std::move(material));
  }
}

void read_sections(const CheckedValue& top, Frame& frame) {
  for (const NamedValue& entry : top["sections"].entries) {
    const CheckedValue& v = entry.value;
    SectionEntry section;
    section.name = entry.name;
    section.place = entry.place;
    if (v.group != nullptr) {
      section.material = v["material"].text;
      section.weld_filler = number_if_given(v["weld_filler"]);
      section.shear = v["shear"].index != 0;
      if (v.group->word == "properties") {
        section.shape = Shape::properties;
        section.given = given_properties(v);
      } else {
        const ShapeSizes sizes = shape_sizes(v);
        section.shape = sizes.shape;
        section.height = sizes.height;
        section.width = sizes.width;
        section.wall = sizes.wall;
      }
      if (find_key(*v.group, "corners") != nullptr) {
        section.corners = value_for(corner_words, v["corners"].text);
      }
    }
    frame.sections.push_back(std::move(section));
  }
}

void read_nodes(const CheckedValue& top, const FileAxes& axes, Frame& frame) {
  frame.nodes.reserve(top["nodes"].entries.size());
  for (const NamedValue& entry : top["nodes"].entries) {
    frame.nodes.push_back({entry.name, axes.vector(entry.value), entry.place});
  }
}

void read_members(const CheckedValue& top, Frame& frame, Diagnostics& diagnostics) {
  frame.members.reserve(top["members"].entries.size());
  for (const NamedValue& entry : top["members"].entries) add_member(entry, frame, diagnostics);
}

void read_mirror(const CheckedValue& top, Frame& frame) {
  const CheckedValue& v = top["mirror"];
  if (v.sound) frame.mirror = MirrorRule{v["from"].text, v["to"].text, v.place};
}

}  // namespace tubewright
