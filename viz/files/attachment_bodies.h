// What is welded or bolted to the tubes, of one load case, as bodies.
#pragma once

#include <string>

#include "cases/analysis/analysis.h"
#include "viz/files/member_stations.h"

namespace tubewright {

/// The bytes of a .vtp file: the faces of attachment_body() of every attachment and of
/// gusset_body() of every gusset. Units mm. Point data: displacement (of its arm, from foot to
/// hole, as it bends; what lies behind its foot moves with that), rotation. Cell data: attachment
/// (index into the field data attachment_names, gussets behind), utilisation (of the check nearest
/// its limit, 0 where none was made). `warp_scale` goes into the field data as a suggestion.
std::string attachment_bodies_file(const Analysis& analysis, const CaseResult& result,
                                   const CaseDrawing& drawing, double warp_scale);

}  // namespace tubewright
