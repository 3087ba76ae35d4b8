// What to cut and buy: pieces alike grouped and labelled, bars to buy, diagonals for the jig.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "cases/frame/frame.h"
#include "cases/nesting/bar_nesting.h"
#include "cases/pieces/cut_geometry.h"
#include "cases/workshop/cut_weldments.h"
#include "cases/workshop/jig_checks.h"
#include "cases/workshop/weld_order.h"
#include "cases/workshop/weld_shrinkage.h"
#include "cases/workshop/weld_throats.h"

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

/// What is welded in one (cut_weldments.h), and what it takes.
struct WeldmentPlan {
  std::string name;
  bool single = false;  ///< one piece that nothing is welded to
  struct Share {
    size_t group = 0;  ///< of CutList::groups
    std::vector<std::string> names;
  };
  std::vector<Share> shares;  ///< in the order of the groups
  std::vector<JigCheck> jig;
  std::vector<WeldStep> weld_order;
  WeldShrinkage shrinkage;
  double mass = 0;         ///< of its pieces as cut, kg
  double weld_length = 0;  ///< m
  int welds = 0;
  int joints = 0;  ///< ends that are held by a pin, a bush or an eye
};

/// Gussets that are cut alike.
struct GussetCut {
  std::string label;  ///< "P1", "P2", ...
  double long_leg = 0, short_leg = 0;
  double angle = 0;  ///< between them, rad
  double thickness = 0;
  std::string material;
  int plates = 0;
  double mass = 0;  ///< of one plate, kg
  std::vector<std::string> names;
  std::vector<std::string> weldments;  ///< that they are welded into
};

struct CutList {
  Stock stock;
  std::vector<std::string> tube_names;  ///< as EndCut::against counts them
  std::vector<CutGroup> groups;         ///< by section, the longest first, then as in the file
  std::vector<BarOrder> orders;
  std::vector<GussetCut> gussets;       ///< in the order of the file
  std::vector<WeldmentPlan> weldments;  ///< the frame proper first, single pieces last
  std::vector<JigCheck> jig;            ///< of all weldments, one after the other
  std::vector<WeldStep> weld_order;     ///< likewise
  WeldShrinkage shrinkage;              ///< the greatest of any along each axis; no `pieces`
  std::vector<WeldThroat> throats;      ///< of welds that need more than the wall
  double mass = 0;                      ///< of all pieces as cut, kg
  double weld_length = 0;  ///< m, along all ends that stand on another tube or meet their twin
  int welds = 0;           ///< such ends
  Diagnostics remarks;     ///< pieces longer than a bar, tubes known by their properties only
};

CutList cut_list(const Frame& frame);

}  // namespace tubewright
