// The frame file that `tubewright start` writes: small, commented, passing.
#pragma once

namespace tubewright {

extern const char* const starter_frame;

}  // namespace tubewright
