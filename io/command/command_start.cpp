#include <filesystem>
#include <system_error>

#include "io/command/command_errors.h"
#include "io/command/commands.h"
#include "io/command/standard_streams.h"
#include "io/frame_file/starter_frame.h"
#include "io/text/write_file_atomically.h"

namespace tubewright {

int run_start(const StartCommand& command) {
  if (command.file == "-") return print_results(starter_frame(), 0);
  if (const auto failure = write_new(command.file, starter_frame())) {
    std::error_code ignored;
    const bool exists =
        std::filesystem::exists(std::filesystem::symlink_status(failure->path, ignored));
    print_error(exists ? cannot_write_anew("start", command.file, failure->reason)
                       : cannot_write(command.file, failure->reason));
    return exit_cannot_answer;
  }
  print_message("wrote " + command.file + "; next: tubewright check " + command.file + "\n");
  return 0;
}

}  // namespace tubewright
