// The wording of faults in where attachments are.
#pragma once

#include <string>

#include "cases/frame/diagnostic.h"

namespace tubewright {

Diagnostic attachment_nowhere(const std::string& attachment);
Diagnostic attachment_at_two_places(const std::string& attachment);
Diagnostic attachment_beyond_ends(const std::string& attachment);
Diagnostic attachment_on_no_tube(const std::string& attachment, const std::string& member);
/// `face`: "bottom"; `nearest`: the faces there are, "top, bottom, left or right".
Diagnostic no_such_face(const std::string& attachment, const std::string& face,
                        const std::string& nearest);
Diagnostic attachment_on_bend(const std::string& attachment, const std::string& tube);
Diagnostic no_tube_at_node(const std::string& attachment, const std::string& node);

// Gussets

Diagnostic gusset_tube_elsewhere(const std::string& gusset, const std::string& tube,
                                 const std::string& node);
Diagnostic gusset_tube_runs_on(const std::string& gusset, const std::string& tube,
                               const std::string& node, const std::string& piece,
                               const std::string& other);
Diagnostic gusset_on_no_tube(const std::string& gusset, const std::string& member);
Diagnostic gusset_without_corner(const std::string& gusset);
Diagnostic gusset_off_the_faces(const std::string& gusset, const std::string& member);
Diagnostic gusset_longer_than_tube(const std::string& gusset, const std::string& member,
                                   double length, double room);

}  // namespace tubewright
