// Small finished results, filled in by hand, for testing what is written from it.
#pragma once

#include "cases/verdict/frame_studies.h"

namespace tubewright {

/// Two tubes, a spring and a cable between four nodes; cases `brake` (passes at 0.87) and `bump`
/// (tube `sill_1` at 1.24). Numbers are chosen to be recognised in the output, not to balance.
FrameStudies hand_made_studies();

/// Case `brake` alone, with nothing left unchecked.
FrameStudies passing_studies();

/// The first with a section `tube`, 25 x 2 in S235, for all members but the spring, and a beam
/// of the model for each that is one: what a report needs beside.
FrameStudies reportable_studies();

}  // namespace tubewright
