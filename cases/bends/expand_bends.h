// Paths with bends: the corner where two lines would meet becomes an arc that touches both.
//
// R tan(theta/2) before and after the corner the tube leaves its lines; between, R theta long, it
// is parted into an even number of arcs. The node of the corner is moved to the middle of the bend,
// R (1/cos(theta/2) - 1) inside of where the lines meet, so that what is joined or loaded there is
// on the tube. The tube's section keeps its place against each bend: its `roll` holds for the first
// piece, and is carried along.
#pragma once

#include "cases/frame/diagnostic.h"
#include "cases/frame/frame.h"

namespace tubewright {

/// Makes arcs and their nodes of every Member::bend; new ones are called by tube, corner and
/// number, "hoop.top_l.1". Reports bends that do not fit between their neighbours, that are tighter
/// than the tube is deep, that turn back on themselves, and two at one node. What has no place or
/// no section is left to validate(). Does nothing without bends.
Diagnostics expand_bends(Frame& frame);

}  // namespace tubewright
