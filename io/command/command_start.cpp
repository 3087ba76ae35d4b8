#include <filesystem>
#include <system_error>

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
    print_error("cannot write " + command.file + ": " + failure->reason,
                exists ? "`start` never replaces a file; choose another name" : "");
    return exit_cannot_answer;
  }
  print_message("wrote " + command.file + "; next: tubewright check " + command.file + "\n");
  return 0;
}

}  // namespace tubewright
