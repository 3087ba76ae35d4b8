// What to cut and buy: pieces alike grouped and labelled, bars to buy, diagonals for the jig.
#pragma once

#include <array>
#include <optional>
#include <string>
#include <vector>

#include "cases/frame/frame.h"
#include "cases/workshop/bar_nesting.h"
#include "cases/workshop/cut_geometry.h"
#include "cases/workshop/weld_order.h"
#include "cases/workshop/weld_shrinkage.h"

namespace tubewright {

/// Pieces that are cut alike: the same section, lengths and ends but for turning the tube about its
/// axis or end for end. A piece and its mirror image are not alike, unless they are that too.
struct CutGroup {
  std::string label;  ///< "A", "B", ..., "Z", "AA"
  std::string
      mirror_of;   ///< label of an earlier group whose pieces these are in a mirror, or empty
  CutPiece piece;  ///< the first of them
  std::vector<std::string> names;
  double mass = 0;         ///< of one piece, kg
  EndShrinkage shrinkage;  ///< of the first of them
};

/// The bars of one size. Sections of the same shape and material are one size whatever they are
/// called.
struct BarOrder {
  std::string section;  ///< name of the first section of the size
  Nesting nesting;      ///< ids are indices into CutList::groups
  double bar_mass = 0;  ///< kg
  std::optional<double> bar_price;
};

/// Both diagonals of a four-sided bay between its nodes: equal or given, whatever else is measured.
struct JigCheck {
  std::array<std::string, 4> corners;  ///< in order round the bay
  double first = 0;                    ///< from corner 0 to 2, m
  double second = 0;                   ///< from corner 1 to 3
};

struct CutList {
  Stock stock;
  std::vector<std::string> tube_names;  ///< as EndCut::against counts them
  std::vector<CutGroup> groups;         ///< by section, the longest first, then as in the file
  std::vector<BarOrder> orders;
  std::vector<JigCheck> jig;
  std::vector<WeldStep> weld_order;
  WeldShrinkage shrinkage;
  double mass = 0;         ///< of all pieces as cut, kg
  double weld_length = 0;  ///< m, along all ends that stand on another tube or meet their twin
  int welds = 0;           ///< such ends
  Diagnostics remarks;     ///< pieces longer than a bar, tubes known by their properties only
};

CutList cut_list(const Frame& frame);

/// Angle of a plane cut from square, seen along local z (mitre) and the tilt of the blade that then
/// remains (bevel), rad: tan mitre and tan bevel cos-corrected for the turned tube.
struct SawAngles {
  double mitre = 0;
  double bevel = 0;
};

SawAngles saw_angles(const CutPlane& plane);

/// By how much a tube is turned about its axis between the cuts of its ends: from the long point of
/// the first to that of the second, rad, above -pi to pi, clockwise looking from the first to the
/// second. 0: both on one side; pi: on opposite sides. Nothing unless each end is mainly one
/// slanting plane.
std::optional<double> turn_between_ends(const CutPiece& piece);

}  // namespace tubewright
