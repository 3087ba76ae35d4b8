// Files that are either whole or not there: written aside, then renamed into place.
#pragma once

#include <filesystem>
#include <optional>
#include <string>
#include <string_view>

namespace tubewright {

/// A file that could not be written, and why in the system's words.
struct WriteFailure {
  std::filesystem::path path;
  std::string reason;
};

/// Writes `content` to `path`, replacing a file already there only once all of it is on disk.
std::optional<WriteFailure> write_file_atomically(const std::filesystem::path& path,
                                                  std::string_view content);

/// The same, but never replaces: a file already there is a failure.
std::optional<WriteFailure> write_new(const std::filesystem::path& path, std::string_view content);

/// Writes everything to an open file descriptor; the reason in words if it cannot.
std::optional<std::string> write_all(int descriptor, std::string_view content);

/// Creates `directory` and its parents where missing.
std::optional<WriteFailure> make_directory(const std::filesystem::path& directory);

}  // namespace tubewright
