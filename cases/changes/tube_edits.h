// A frame with one of its parts changed, lost or added: what a builder would write into the file.
#pragma once

#include <string>
#include <vector>

#include "cases/frame/frame.h"

namespace tubewright {

/// Members, by their places in Frame::members.
using MemberSet = std::vector<int>;

/// The frame without these members, without the loads along them, and without the panels that they
/// are edges of: a sheet carries no shear toward an edge that nothing holds.
Frame without_members(const Frame& frame, const MemberSet& members);

/// The frame with the end of a tube (0: `from`, 1: `to`) torn off its node: no force passes. The
/// tube stays and hangs on its other end; where that holds it less than fast, or it is a link, a
/// cable or a spring, it is lost.
Frame with_broken_end(const Frame& frame, int member, int end);

/// The frame without one of its panels.
Frame without_panel(const Frame& frame, int panel);

enum class SheetFastening { rivets, bond };

/// The frame with a sheet whose rivets, or whose bond, hold nothing. Requires: it has both.
Frame without_fastening(const Frame& frame, const std::string& sheet, SheetFastening gone);

/// The frame with these members made of another section, which gets a name that no file can give.
/// What stands on their outsides moves with these. Requires: they have one section now.
Frame with_section(const Frame& frame, const MemberSet& members, const SectionEntry& section);

/// A tube more, welded at both ends or (`pinned`) a link, of the section of that name.
Frame with_tube(const Frame& frame, const std::string& from, const std::string& to,
                const std::string& section, bool pinned);

}  // namespace tubewright
