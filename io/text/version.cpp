#include "io/text/version.h"

namespace tubewright {

const char* version() { return TUBEWRIGHT_VERSION; }

}  // namespace tubewright
