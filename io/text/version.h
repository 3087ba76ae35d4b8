// The version of this program, as --version and every results file state it.
#pragma once

namespace tubewright {

/// "0.1.0"
const char* version();

}  // namespace tubewright
