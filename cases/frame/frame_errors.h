// The wording of faults in the names and values of a frame and in its mirror image.
#pragma once

#include <string>
#include <vector>

#include "cases/frame/diagnostic.h"

namespace tubewright {

/// `subject`: "member `rail`"; `range` completes "give ...".
Diagnostic impossible_value(const std::string& subject, const std::string& what,
                            const std::string& range);

// Names
// -----
/// `kind`: "node".
Diagnostic name_given_twice(const std::string& kind, const std::string& name);
Diagnostic member_given_twice(const std::string& member);
/// `advice`: did_you_mean(), or what_to_name() where nothing is near.
Diagnostic unknown_name(const std::string& subject, const std::string& kind,
                        const std::string& name, const std::string& advice);
/// `key`: that of the file under which names of the kind are defined; `known`: what there is.
std::string what_to_name(const std::string& kind, const std::string& key,
                         const std::vector<std::string>& known);
Diagnostic node_without_members(const std::string& subject, const std::string& node);

// The mirror image
// ----------------
Diagnostic mirror_endings_alike(const std::string& from, const std::string& to);
/// Found by validate().
Diagnostic mirror_copies_nothing(const std::string& ending);
Diagnostic image_is_given(const std::string& kind, const std::string& image,
                          const std::string& original);
/// `part`: "member `rail_l`".
Diagnostic node_without_image(const std::string& part, const std::string& node,
                              const std::string& ending);
Diagnostic attachment_is_its_own_image(const std::string& attachment, const std::string& ending);
Diagnostic gusset_is_its_own_image(const std::string& gusset, const std::string& ending);
Diagnostic image_not_there(const std::string& part, const std::string& node,
                           const std::string& image);

}  // namespace tubewright
