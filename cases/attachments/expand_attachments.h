// The `attachments` of a frame: tubes are parted where one stands, and its nodes are made.
//
// Attachment NAME makes the nodes NAME.axis, on the tube's axis (unless a node is within a
// millimetre, or another attachment), NAME.face, on its outside, and NAME, at the hole. A
// member `m` becomes the pieces m.1, m.2, ... of a tube `m`, as a path would; a piece p.2 of a path
// becomes p.2a, p.2b, ... of the same tube. Nothing is cut there: a tube stays one tube. Loads that
// name a parted piece are put on what it became.
#pragma once

#include "cases/frame/diagnostic.h"
#include "cases/frame/frame.h"

namespace tubewright {

/// To be called once, after expand_mirror() and before validate(). Reports what stands nowhere, on
/// no flat face, or on one that does not look that way (within 45 degrees, and nearer than any
/// other). Members whose ends do not exist are left to validate().
Diagnostics expand_attachments(Frame& frame);

/// "bottom".
const char* face_word(Face face);

/// The tube's width across the face that the attachment stands on, and the depth behind it, m.
double face_width(const SectionEntry& tube, const Attachment& attachment);
double face_depth(const SectionEntry& tube, const Attachment& attachment);

/// Between the middles of the two plates of a pair or the two ears of a saddle, m; 0 for others.
double plates_apart(const SectionEntry& tube, const Attachment& attachment);

/// The members of its tube that end at its axis node, by number: one or two.
std::vector<int> members_at_foot(const Frame& frame, const Attachment& attachment);

}  // namespace tubewright
