#include "io/frame_file/frame_source.h"

#include <fcntl.h>
#include <unistd.h>

#include <array>
#include <cerrno>
#include <system_error>

namespace tubewright {

namespace {

std::string error_words(int error) { return std::generic_category().message(error); }

Outcome<FrameText, std::string> read_all(int descriptor, const std::string& name,
                                         std::size_t most) {
  FrameText source{name, {}};
  std::array<char, 1U << 16U> block;
  while (source.text.size() <= most) {
    const ssize_t count = ::read(descriptor, block.data(), block.size());
    if (count < 0 && errno == EINTR) continue;
    if (count < 0) return error_words(errno);
    if (count == 0) break;
    source.text.append(block.data(), static_cast<std::size_t>(count));
  }
  return source;
}

}  // namespace

Outcome<FrameText, std::string> read_source(const std::string& path, std::size_t most) {
  if (path == "-") return read_all(STDIN_FILENO, "<stdin>", most);
  const int file = ::open(path.c_str(), O_RDONLY | O_CLOEXEC);
  if (file < 0) return error_words(errno);
  Outcome<FrameText, std::string> source = read_all(file, path, most);
  ::close(file);
  return source;
}

}  // namespace tubewright
