#include "viz/replace_file.h"

#include <cerrno>
#include <cstdio>
#include <system_error>

namespace tubewright {

namespace {

/// 0, or the error number of the call that failed.
int write_all(const std::filesystem::path& path, std::string_view bytes) {
  std::FILE* file = std::fopen(path.string().c_str(), "wb");
  if (!file) return errno;
  int error = 0;
  if (std::fwrite(bytes.data(), 1, bytes.size(), file) != bytes.size()) error = errno;
  if (std::fclose(file) != 0 && error == 0) error = errno;
  return error;
}

}  // namespace

std::optional<std::string> replace_file(const std::filesystem::path& path, std::string_view bytes) {
  std::filesystem::path part = path;
  part += ".part";
  std::error_code error;
  if (const int number = write_all(part, bytes))
    error = std::error_code(number, std::generic_category());
  else
    std::filesystem::rename(part, path, error);
  if (!error) return std::nullopt;
  std::error_code ignored;
  std::filesystem::remove(part, ignored);
  return error.message();
}

}  // namespace tubewright
