// Writing a file so that a reader never sees half of it.
#pragma once

#include <filesystem>
#include <optional>
#include <string>
#include <string_view>

namespace tubewright {

/// Writes `bytes` beside `path` under a temporary name and renames it over `path`. Returns nothing
/// on success, else the reason the operating system gives; `path` is then as it was.
std::optional<std::string> replace_file(const std::filesystem::path& path, std::string_view bytes);

}  // namespace tubewright
