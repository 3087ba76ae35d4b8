#include "io/command/commands.h"
#include "io/command/standard_streams.h"
#include "io/keys/frame_schema.h"

namespace tubewright {

int run_schema() { return print_results(frame_schema(), 0); }

}  // namespace tubewright
