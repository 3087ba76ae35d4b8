// How a cut piece is told of in words: in the table, in JSON and CSV alike.
#pragma once

#include <string>
#include <vector>

#include "cases/workshop/cut_list.h"

namespace tubewright {

/// "face", "notch"; a cope is a "saddle".
const char* kind_word(EndKind kind);

/// The tubes that take a corner off an end besides the first, each once: along their faces, or
/// along the plane between two that are cut alike.
std::vector<std::string> other_tubes(const CutList& list, const TubeEnd& end, bool mitres);

/// "face 45.0, trim to brace_2, mitre to brace_3"; "joint, not welded; cut to suit it"
std::string end_text(const CutList& list, const TubeEnd& end);

/// "long points on opposite sides"; empty where it does not apply.
std::string turn_text(const CutPiece& piece);

/// Of a bent tube, one a bend: "bend 1 at 500.0 from the first long point: 90.0 degrees, radius
/// 100.0; over to 91.3 on a die of 98.6; walls 1.8 outside, 2.3 inside".
std::vector<std::string> bend_texts(const CutPiece& piece);

/// "20.0 x 20.0 x 1.5 S235"; of given properties "rope (A 216.0 mm2)"
std::string size_text(const SectionEntry& section);

/// "a, b, c"
std::string joined(const std::vector<std::string>& names);

}  // namespace tubewright
