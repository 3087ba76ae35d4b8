#include "io/commands.h"
#include "io/frame_schema.h"
#include "io/standard_streams.h"

namespace tubewright {

int run_schema() { return print_results(frame_schema(), 0); }

}  // namespace tubewright
