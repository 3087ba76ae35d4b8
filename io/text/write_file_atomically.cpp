#include "io/text/write_file_atomically.h"

#include <fcntl.h>
#include <unistd.h>

#include <cerrno>
#include <system_error>

namespace tubewright {

namespace {

namespace fs = std::filesystem;

std::string error_words(int error) { return std::generic_category().message(error); }

fs::path aside(const fs::path& path) {
  return path.string() + ".part-" + std::to_string(::getpid());
}

std::optional<std::string> fill(const fs::path& path, std::string_view content) {
  const int file = ::open(path.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, 0666);
  if (file < 0) return error_words(errno);
  std::optional<std::string> failure = write_all(file, content);
  if (!failure && ::fsync(file) != 0 && errno != EINVAL) failure = error_words(errno);
  if (::close(file) != 0 && !failure) failure = error_words(errno);
  if (failure) ::unlink(path.c_str());
  return failure;
}

// A hard link refuses to replace, in one step; where the file system has none, look first.
int move_without_replacing(const fs::path& from, const fs::path& to) {
  if (::link(from.c_str(), to.c_str()) == 0) {
    ::unlink(from.c_str());
    return 0;
  }
  if (errno != EPERM && errno != EOPNOTSUPP && errno != ENOSYS) return errno;
  if (::access(to.c_str(), F_OK) == 0) return EEXIST;
  return ::rename(from.c_str(), to.c_str()) == 0 ? 0 : errno;
}

int move_replacing(const fs::path& from, const fs::path& to) {
  return ::rename(from.c_str(), to.c_str()) == 0 ? 0 : errno;
}

std::optional<WriteFailure> write_and_move(const fs::path& path, std::string_view content,
                                           int (*move)(const fs::path&, const fs::path&)) {
  const fs::path part = aside(path);
  if (auto reason = fill(part, content)) return WriteFailure{path, *reason};
  if (const int error = move(part, path)) {
    ::unlink(part.c_str());
    return WriteFailure{path, error_words(error)};
  }
  return std::nullopt;
}

}  // namespace

std::optional<std::string> write_all(int descriptor, std::string_view content) {
  while (!content.empty()) {
    const ssize_t written = ::write(descriptor, content.data(), content.size());
    if (written < 0 && errno == EINTR) continue;
    if (written < 0) return error_words(errno);
    content.remove_prefix(static_cast<std::size_t>(written));
  }
  return std::nullopt;
}

std::optional<WriteFailure> write_file_atomically(const fs::path& path, std::string_view content) {
  return write_and_move(path, content, move_replacing);
}

std::optional<WriteFailure> write_new(const fs::path& path, std::string_view content) {
  return write_and_move(path, content, move_without_replacing);
}

std::optional<WriteFailure> make_directory(const fs::path& directory) {
  std::error_code error;
  fs::create_directories(directory, error);
  if (!error && !fs::is_directory(directory, error) && !error) {
    error = std::make_error_code(std::errc::not_a_directory);
  }
  if (error) return WriteFailure{directory, error.message()};
  return std::nullopt;
}

}  // namespace tubewright
