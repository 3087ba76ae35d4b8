#include "io/workshop/piece_words.h"

#include <algorithm>
#include <cmath>

#include "cases/pieces/saw_angles.h"
#include "io/text/text_layout.h"
#include "io/text/workshop_units.h"

namespace tubewright {

namespace {

/// "45.0", "45.0/12.0" (mitre/bevel), "12.0 + 60.0" (two planes); empty for a square cut.
std::string angles_text(const EndCut& cut) {
  std::string text;
  for (const CutPlane& p : cut.planes) {
    if (only_divides(p)) continue;
    const SawAngles a = saw_angles(p);
    const double mitre = std::abs(a.mitre) * degrees_per_radian,
                 bevel = std::abs(a.bevel) * degrees_per_radian;
    if (mitre < 0.05 && bevel < 0.05) continue;
    text += (text.empty() ? "" : " + ") + fixed(std::max(mitre, bevel), 1);
    if (std::min(mitre, bevel) >= 0.05) text += "/" + fixed(std::min(mitre, bevel), 1);
  }
  return text;
}

}  // namespace

const char* kind_word(EndKind kind) {
  switch (kind) {
    case EndKind::square:
      return "square";
    case EndKind::face:
      return "face";
    case EndKind::mitre:
      return "mitre";
    case EndKind::edge:
      return "notch";
    case EndKind::cope:
      return "saddle";
    case EndKind::joint:
      return "joint";
    case EndKind::eye:
      break;
  }
  return "eye";
}

std::vector<std::string> other_tubes(const CutList& list, const TubeEnd& e, bool mitres) {
  std::vector<std::string> names;
  for (std::size_t i = 1; i < e.cuts.size(); ++i) {
    const EndCut& cut = e.cuts[i];
    if (cut.against < 0 || cut.against == e.cuts.front().against) continue;
    if ((cut.kind == EndKind::mitre) != mitres) continue;
    const std::string& name = list.tube_names[static_cast<std::size_t>(cut.against)];
    if (std::find(names.begin(), names.end(), name) == names.end()) names.push_back(name);
  }
  return names;
}

std::string end_text(const CutList& list, const TubeEnd& e) {
  if (e.kind == EndKind::joint) return "joint, not welded; cut to suit it";
  if (e.cuts.empty()) return kind_word(e.kind);
  const std::string angles = angles_text(e.cuts.front());
  std::string text = kind_word(e.kind) + (angles.empty() ? "" : " " + angles);
  for (const bool mitres : {false, true}) {
    const std::vector<std::string> names = other_tubes(list, e, mitres);
    for (std::size_t i = 0; i < names.size(); ++i) {
      text += (i > 0 ? ", " : mitres ? ", mitre to " : ", trim to ") + names[i];
    }
  }
  return text;
}

std::string turn_text(const CutPiece& piece) {
  const std::optional<double> turn = turn_between_ends(piece);
  if (!turn) return {};
  const double angle = std::abs(*turn) * degrees_per_radian;
  if (angle < 0.05) return "long points on one side";
  if (angle > 179.95) return "long points on opposite sides";
  return "turned " + fixed(angle, 1) + (*turn > 0 ? " clockwise" : " anticlockwise") +
         " between the ends, looking from the first";
}

std::vector<std::string> bend_texts(const CutPiece& piece) {
  std::vector<std::string> texts;
  for (const TubeBend& b : piece.bends) {
    std::string text = "bend " + std::to_string(texts.size() + 1) + " at " +
                       millimetres(b.at - piece.first_point) +
                       (texts.empty() ? " from the first long point" : "") + ": " +
                       fixed(b.angle * degrees_per_radian, 1) + " degrees, radius " +
                       millimetres(b.radius);
    const double turn = b.turn * degrees_per_radian;
    if (!texts.empty() && std::abs(turn) >= 0.05) {
      text += ", the tube turned by " + fixed(std::abs(turn), 1) +
              (turn > 0 ? " clockwise" : " anticlockwise");
    }
    if (b.bent_to > 0) {
      text += "; over to " + fixed(b.bent_to * degrees_per_radian, 1) + " on a radius of " +
              millimetres(b.die_radius);
    }
    if (b.outer_wall > 0) {
      text += "; wall " + fixed(b.outer_wall * mm_per_m, 2) + " outside, " +
              fixed(b.inner_wall * mm_per_m, 2) + " inside";
    }
    texts.push_back(std::move(text));
  }
  return texts;
}

std::string size_text(const SectionEntry& s) {
  if (s.shape == Shape::properties) {
    constexpr double mm2_per_m2 = mm_per_m * mm_per_m;
    const double area = s.given.A * mm2_per_m2;
    return s.name + " (A " + fixed(area, area < 1000 ? 1 : 0) + " mm2)";
  }
  const bool round = s.shape == Shape::round_tube || s.shape == Shape::round_bar;
  std::string text = millimetres(s.height) + (round ? "" : " x " + millimetres(s.width));
  if (s.wall > 0) text += " x " + millimetres(s.wall);
  return (round ? "round " : "") + text + " " + s.material;
}

std::string joined(const std::vector<std::string>& names) {
  std::string text;
  for (const std::string& name : names) text += (text.empty() ? "" : ", ") + name;
  return text;
}

}  // namespace tubewright
