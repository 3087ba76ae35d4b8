// The frame file that `tubewright start` writes: a small frame that passes, then every other key.
#pragma once

#include <string>

namespace tubewright {

/// The whole file: the frame, then more_keys() behind comment signs.
std::string starter_frame();

/// Examples of the keys that the frame does not need, in the order of the key table, explained in
/// its words; each fits the frame, which may take it over with what it refers to.
std::string more_keys();

}  // namespace tubewright
