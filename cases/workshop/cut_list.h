// What to cut and buy: pieces alike grouped and labelled, bars to buy, diagonals for the jig.
#pragma once

#include <array>
#include <optional>
#include <string>
#include <vector>

#include "cases/frame/frame.h"
#include "cases/nesting/bar_nesting.h"
#include "cases/workshop/cut_geometry.h"
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
  std::vector<WeldThroat> throats;  ///< of welds that need more than the wall
  double mass = 0;                  ///< of all pieces as cut, kg
  double weld_length = 0;  ///< m, along all ends that stand on another tube or meet their twin
  int welds = 0;           ///< such ends
  Diagnostics remarks;     ///< pieces longer than a bar, tubes known by their properties only
};

CutList cut_list(const Frame& frame);

}  // namespace tubewright
